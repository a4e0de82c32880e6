"""Counting a part of a crate by weight; what was on the scale is kept with the count."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.masses import parse_mass
from inventory.core.parts.hardware import identify
from inventory.core.parts.hardware_weight import rivet_mass
from inventory.core.receiving.counts import Method, read_pieces
from inventory.core.receiving.weighing import Sample, Weighing, weigh_count
from inventory.jobs.receiving.counting import settled_count
from inventory.jobs.receiving.receiving import count
from inventory.store.receiving.counts import RecordedCount

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.receiving.counts import Count
    from inventory.core.receiving.weighing import WeighedCount
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.counting import TypedCount

_WIDEST_PERCENT = 30
_MASS = re.compile(r"([0-9])\s+(mg|g|kg|oz|lbs?)\b")


@frozen(kw_only=True)
class TypedWeighing:
    """A weighing as it was typed, each mass with its unit."""

    gross: str
    tare: str = "0 g"
    step: str
    """The last digit the scale shows."""
    readings: tuple[str, ...]
    """Net masses of the sample: piece by piece, in equal groups, or all in one go."""
    pieces_each: str = "1"
    """Pieces in each of these weighings."""
    spread: str = ""
    """Per cent by which pieces differ, where it is known from before."""
    inside: bool = False
    """The sample's pieces belong to the batch, and weren't weighed again with it."""


_WORDS = ("gross", "tare", "step", "sample", "spread", "inside")
_FORM = "tare 12g gross 61.6g sample 25 12.5g step 0.1g"


def typed_weighing(text: str) -> TypedWeighing:
    """Return the weighing that one line says: `tare 12g gross 61.6g sample 25 12.5g step 0.1g`.

    `sample` is followed by the pieces in each weighing and the net mass of each of these; `spread`
    by per cent; `inside` stands alone.
    """
    told = _told(text)
    _check_told(told)
    return TypedWeighing(
        gross=told["gross"][0],
        tare=told.get("tare", ["0g"])[0],
        step=told["step"][0],
        readings=tuple(told["sample"][1:]),
        pieces_each=told["sample"][0],
        spread=told.get("spread", [""])[0],
        inside="inside" in told,
    )


def _told(text: str) -> dict[str, list[str]]:
    told: dict[str, list[str]] = {}
    for word in _MASS.sub(r"\1\2", text.casefold()).split():
        if word in told:
            raise _unclear(f"{word} is said twice")
        if word in _WORDS:
            told[word] = []
        elif told:
            told[next(reversed(told))].append(word)
        else:
            raise _unclear(f"{word[:40]!r} isn't one of {', '.join(_WORDS)}")
    return told


def _check_told(told: Mapping[str, list[str]]) -> None:
    for word in ("gross", "sample", "step"):
        if word not in told:
            raise _unclear(f"{word} is missing")
    for word, values in told.items():
        least = {"sample": 2, "inside": 0}.get(word, 1)
        if len(values) < least or (word != "sample" and len(values) > least):
            raise _unclear(f"{word} is followed by {len(values)} values")
    if re.search(r"[a-z]", told["sample"][0]):
        raise _unclear(
            f"{told['sample'][0][:40]!r} isn't how many pieces each weighing of the sample holds"
        )


def _unclear(why: str) -> InventoryError:
    return InventoryError(f"the weighing isn't clear: {why}", remedy=f'Write it as "{_FORM}".')


@frozen
class Weighed:
    """What the scale says, and the count it makes."""

    weighing: Weighing
    result: WeighedCount
    doubt: str
    """Why this part can hardly weigh so much, by its number; empty where nothing speaks so."""


def weighed(typed: TypedWeighing, part: str) -> Weighed:
    """Return what the scale says of a part; records nothing."""
    weighing = Weighing(
        sample=Sample(
            tuple(map(parse_mass, typed.readings)), read_pieces(typed.pieces_each), _spread(typed)
        ),
        gross=parse_mass(typed.gross),
        tare=parse_mass(typed.tare),
        step=parse_mass(typed.step),
        sample_in_batch=typed.inside,
    )
    result = weigh_count(weighing)
    mass = rivet_mass(identify(part))
    doubt = mass.doubt(result.pieces, _batch(weighing)) if mass else ""
    return Weighed(weighing, result, doubt)


def _batch(weighing: Weighing) -> int:
    """Return the mass of all pieces counted, in nanograms."""
    return weighing.net + (sum(weighing.sample.readings) if weighing.sample_in_batch else 0)


def _spread(typed: TypedWeighing) -> float | None:
    if not typed.spread:
        return None
    try:
        percent = float(typed.spread.rstrip("% "))
    except ValueError:
        percent = -1.0
    if not 0 < percent <= _WIDEST_PERCENT:
        raise InventoryError(
            f"{typed.spread[:40]!r} is no spread of pieces",
            remedy=f"Give per cent, above 0 and at most {_WIDEST_PERCENT}, or leave it out.",
        )
    return percent / 100


def count_weighed(
    bench: Bench,
    typed: TypedCount,
    scale: TypedWeighing,
    slip: Slip,
    *,
    again: str = "",
) -> tuple[Count, Weighed]:
    """Record a count by weight: it stays `about` unless its bound is below half a piece.

    `again` is `recount` or `more` where the pile was counted before.
    """
    found = weighed(scale, typed.asked.part)
    pieces = str(found.result.pieces)
    counted = replace(
        settled_count(bench, replace(typed, pieces=pieces, method=Method.WEIGHED), slip),
        about=found.result.about,
    )
    recorded = RecordedCount(
        0, 0, counted, typed.asked.part, again == "recount", slip.note, found.weighing
    )
    count(bench, [recorded], slip, more=again == "more")
    return counted, found
