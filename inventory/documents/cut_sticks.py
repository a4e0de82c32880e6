"""From planned sticks to bars with their marks: sticks that are cut alike are one bar."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.documents.cut_bars import CutBar, CutPiece

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.cutting.job import CutStick
    from inventory.core.planning.plan import Need


@frozen
class StickToSaw:
    """One planned stick, in the words of the bench."""

    name: str
    """Where it lies, or that it is to be bought."""
    stock: str
    """Profile, material and temper in words."""
    stick: CutStick
    kept: bool
    """Whether the rest is long enough to keep."""


def bar_of(one: StickToSaw, needs: Mapping[str, Need], unit: str) -> CutBar:
    """Return the bar of a stick; `needs` are what its pieces become, by the piece's name."""
    stick = one.stick
    return CutBar(
        name=one.name,
        stock=one.stock,
        length=stick.stock.length,
        kerf=stick.saw.kerf,
        front_trim=stick.saw.trim // 2,
        back_trim=stick.saw.trim - stick.saw.trim // 2,
        pieces=tuple(
            CutPiece(
                name=" ".join(filter(None, (need.sheet, need.find_number))),
                length=piece.length,
                step=need.step,
            )
            for piece in stick.pieces
            for need in [needs[piece.name]]
        ),
        remnant="to keep" if one.kept else "",
        unit=unit,
    )


def alike(bars: Iterable[CutBar]) -> list[CutBar]:
    """Return bars that are the same in everything as one with its times."""
    return [replace(bar, times=times) for bar, times in Counter(bars).items()]


def patterns(bars: Iterable[CutBar]) -> list[CutBar]:
    """Return bars with cuts in the same places as one with its times, whatever for."""
    found: defaultdict[CutBar, list[CutBar]] = defaultdict(list)
    for bar in bars:
        pieces = tuple(replace(piece, name="", step="") for piece in bar.pieces)
        found[replace(bar, pieces=pieces)].append(bar)
    return [
        replace(of_pattern[0], times=len(of_pattern), pieces=_agreed(of_pattern))
        for of_pattern in found.values()
    ]


def _agreed(bars: Sequence[CutBar]) -> tuple[CutPiece, ...]:
    """Return the pieces of bars that are cut alike; what differs between them is left out."""
    return tuple(
        CutPiece(
            name=same[0].name if len({each.name for each in same}) == 1 else "",
            length=same[0].length,
            step=same[0].step if len({each.step for each in same}) == 1 else "",
        )
        for same in zip(*(bar.pieces for bar in bars), strict=True)
    )
