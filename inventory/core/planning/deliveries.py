"""Which deliveries still to come cover which shortage."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.cutting.cut_needs import Stick
from inventory.core.items import fits
from inventory.core.planning.filling import Share, Wanted, fill
from inventory.core.planning.sources import cut_from

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.items import Hand
    from inventory.core.planning.open_needs import OpenNeed
    from inventory.core.planning.workshop import Due, Saw


class DueShare(NamedTuple):
    """How much of a need a delivery still to come will cover."""

    due: Due
    quantity: int


class _Key(NamedTuple):
    """One delivery as a source of pieces: two equal ones stay two."""

    number: int
    part: str
    hand: Hand
    kept_for: str = ""


def from_due(
    lines: Sequence[OpenNeed], short: Sequence[int], due: Iterable[Due], saw: Saw
) -> list[tuple[DueShare, ...]]:
    """Return what covers each shortage: the earliest date first, undated deliveries last.

    Earlier steps are served first, so that nothing is promised twice.
    """
    dues = sorted(due, key=lambda each: (each.promised is None, str(each.promised)))
    keys = [_Key(number, each.part, each.hand) for number, each in enumerate(dues)]
    whole = _whole(lines, short, dues, keys)
    left = {key: each.quantity for key, each in zip(keys, dues, strict=True)}
    rest = list(short)
    for number, shares in enumerate(whole):
        for key, quantity in shares:
            left[key] -= quantity
            rest[number] -= quantity
    sticks = [
        Stick(key, each.length)
        for key, each in zip(keys, dues, strict=True)
        if each.length
        for _ in range(left[key])
    ]
    cut = cut_from(lines, rest, sticks, saw)
    return [
        tuple(DueShare(dues[key.number], quantity) for key, quantity in (*both[0], *both[1]))
        for both in zip(whole, cut, strict=True)
    ]


def _whole(
    lines: Sequence[OpenNeed], short: Sequence[int], dues: Sequence[Due], keys: Sequence[_Key]
) -> list[tuple[Share[_Key], ...]]:
    by_part: defaultdict[str, list[_Key]] = defaultdict(list)
    for key in keys:
        by_part[key.part].append(key)

    def fitting(line: OpenNeed) -> tuple[_Key, ...]:
        parts = dict.fromkeys(pool.part for pool in line.pools)
        return tuple(
            key
            for part in parts
            for key in by_part.get(part, ())
            if dues[key.number].length == line.need.length and fits(line.need.hand, key.hand)
        )

    nothing: Wanted[_Key] = Wanted((), 0)
    wanted = [
        Wanted(fitting(line), missing) if missing else nothing
        for line, missing in zip(lines, short, strict=True)
    ]
    return fill({key: dues[key.number].quantity for key in keys}, wanted)
