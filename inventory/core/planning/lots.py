"""Which lot each step takes, so that as little as possible expires unused."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence


class DatedLot(NamedTuple):
    """What is there of one lot, and its last day of use."""

    lot: str
    quantity: int
    expires: dt.date | None = None
    """None where it doesn't expire."""


class DatedNeed(NamedTuple):
    """What a step takes, and the day it does so."""

    step: str
    day: dt.date
    quantity: int


class LotUse(NamedTuple):
    """What a step gets from which lots, and what it lacks."""

    step: str
    lots: tuple[tuple[str, int], ...]
    short: int


def earliest_expiry_first(
    lots: Iterable[DatedLot], needs: Sequence[DatedNeed]
) -> tuple[LotUse, ...]:
    """Return which lots the needs, given by day, take: always the lot that expires first.

    A lot is in date up to and with its last day; expired lots are never taken silently. Taking
    the earliest that is still in date leaves later steps the most they can have (an exchange
    shows it): newest first would let old lots expire.
    """
    left = sorted(lots, key=lambda each: (each.expires is None, str(each.expires), each.lot))
    there = [each.quantity for each in left]
    uses = []
    for need in needs:
        rest = need.quantity
        taken = []
        for place, each in enumerate(left):
            part = min(rest, there[place]) if _in_date(each, need.day) else 0
            if part:
                there[place] -= part
                rest -= part
                taken.append((each.lot, part))
        uses.append(LotUse(need.step, tuple(taken), rest))
    return tuple(uses)


def _in_date(lot: DatedLot, day: dt.date) -> bool:
    return lot.expires is None or day <= lot.expires
