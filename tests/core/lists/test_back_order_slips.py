from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand
from inventory.core.lists.back_order_slips import match_slip
from inventory.core.lists.packing import PackingLine

OPEN = PackingLine(
    sheet="L", row=9, part="T2-1", printed="T2-1", ordered=4, shipped=2, back_ordered=2,
    sub_kit="11",
)  # fmt: skip
SLIP = replace(OPEN, row=2, ordered=2, shipped=2, back_ordered=0, sub_kit="")


def test_slip_closes_the_line_that_waits_for_it() -> None:
    match = match_slip([SLIP], [OPEN])
    assert [(c.quantity, c.still_due, c.shared) for c in match.closings] == [(2, 0, False)]
    assert match.unexpected == ()


def test_part_of_a_back_order_leaves_the_rest_due() -> None:
    match = match_slip([replace(SLIP, shipped=1)], [OPEN])
    assert [(c.quantity, c.still_due) for c in match.closings] == [(1, 1)]


def test_left_never_closes_right() -> None:
    match = match_slip([replace(SLIP, hand=Hand.LEFT)], [replace(OPEN, hand=Hand.RIGHT)])
    assert match.closings == ()
    assert [quantity for _, quantity in match.unexpected] == [2]


def test_similar_part_closes_nothing() -> None:
    assert match_slip([replace(SLIP, part="T2-1A")], [OPEN]).closings == ()


def test_more_than_waited_for_is_shown_as_unexpected() -> None:
    match = match_slip([replace(SLIP, shipped=5)], [OPEN])
    assert [quantity for _, quantity in match.unexpected] == [3]


def test_line_of_the_same_sub_kit_comes_first_and_sharing_is_said() -> None:
    other = replace(OPEN, row=20, sub_kit="12")
    match = match_slip([replace(SLIP, shipped=3, sub_kit="12")], [OPEN, other])
    assert [(c.open_line.row, c.quantity, c.shared) for c in match.closings] == [
        (20, 2, True),
        (9, 1, True),
    ]


def test_closed_line_is_not_closed_twice() -> None:
    match = match_slip([SLIP, SLIP], [OPEN])
    assert len(match.closings) == 1
    assert len(match.unexpected) == 1


def test_line_that_waits_for_nothing_is_not_open() -> None:
    assert match_slip([SLIP], [replace(OPEN, back_ordered=0)]).closings == ()


@given(st.lists(st.integers(0, 4), max_size=5), st.lists(st.integers(0, 4), max_size=5))
def test_nothing_is_lost_or_made_up(slip: list[int], due: list[int]) -> None:
    slips = [replace(SLIP, shipped=pieces) for pieces in slip]
    waiting = [replace(OPEN, back_ordered=pieces) for pieces in due]
    match = match_slip(slips, waiting)
    closed = sum(closing.quantity for closing in match.closings)
    assert closed + sum(quantity for _, quantity in match.unexpected) == sum(slip)
    assert closed == min(sum(slip), sum(due))
