"""Open lines, slips and replacements that the tests of what is to come are written with."""

from __future__ import annotations

import datetime as dt

from inventory.core.items import Hand
from inventory.core.receiving.arrivals import Arrival, Expected, ListedLine, Wanted
from inventory.core.receiving.findings import FindingKind
from tests.core.received import line

RIB = Wanted("T2-FL-0412")
MAY, JUNE = dt.date(2027, 5, 1), dt.date(2027, 6, 1)


def open_line(number: int = 1, back_ordered: int = 2, hand: Hand = Hand.NONE) -> ListedLine:
    """Ten ordered, the rest shipped."""
    listed = line(shipped=10 - back_ordered, back_ordered=back_ordered, hand=hand)
    return ListedLine(number, 1, listed)


def slip_line(number: int, shipped: int, hand: Hand = Hand.NONE) -> ListedLine:
    return ListedLine(number, 2, line(shipped=shipped, hand=hand, crate=""))


def came(pieces: int, *, closes: int | None = 1, expected: int | None = None) -> Arrival:
    return Arrival(slip=5, line=9, closes=closes, expected=expected, pieces=pieces, wanted=RIB)


def wanted(pieces: int = 1) -> Expected:
    return Expected(
        id=7, report=3, kind=FindingKind.SHORT, wanted=RIB, printed="T2-FL-0412", pieces=pieces,
        packing_list=1, sheet="Floats", row=12, crate="1",
    )  # fmt: skip
