from __future__ import annotations

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.receiving.arrivals import (
    ListedLine,
    Wanted,
    match_arrivals,
    settled_finding,
    settled_lines,
)
from inventory.core.receiving.findings import Finding, FindingKind
from inventory.core.receiving.still_to_come import still_coming
from tests.core.expected import RIB, came, open_line, slip_line, wanted
from tests.core.received import LEFT, RIGHT, line


def short(pieces: int = 2) -> Finding:
    return Finding(
        kind=FindingKind.SHORT, sheet="Floats", row=12, crate="1", part=RIB.part, pieces=pieces,
        words="2 missing",
    )  # fmt: skip


def test_back_order_that_came_in_part_is_open_for_the_rest() -> None:
    (each,) = settled_lines([open_line(back_ordered=4)], [came(1)])
    assert (each.line.shipped, each.line.back_ordered, each.line.ordered) == (6, 3, 9)


def test_line_that_came_for_others_asks_for_nothing_itself() -> None:
    later = ListedLine(9, 2, line(shipped=2, ordered=10, back_ordered=3))
    (_, each) = settled_lines([open_line(), later], [came(2)])
    assert (each.line.ordered, each.line.shipped, each.line.back_ordered) == (2, 2, 0)


def test_line_nothing_came_for_stays_as_it_is() -> None:
    assert settled_lines([open_line()], []) == [open_line()]


def test_what_came_fills_the_same_part_of_a_revised_list() -> None:
    revised = ListedLine(20, 3, line(shipped=8, back_ordered=2))
    (each,) = settled_lines([revised], [came(1, closes=1)])
    assert each.line.back_ordered == 1


def test_what_came_for_a_finding_fills_no_back_order() -> None:
    (each,) = settled_lines([open_line()], [came(1, closes=None, expected=7)])
    assert each.line.back_ordered == 2


def test_slip_closes_the_oldest_open_line_first_and_the_rest_fits_nothing() -> None:
    due = still_coming([open_line(1), open_line(2)], [], [], [])
    matched, rest = match_arrivals([slip_line(8, 3), slip_line(9, 2)], due)
    assert [(one.line.id, one.coming.line, one.pieces) for one in matched] == [
        (8, 1, 2),
        (8, 2, 1),
        (9, 2, 1),
    ]
    assert [(one.id, pieces) for one, pieces in rest] == [(9, 1)]


def test_a_right_part_closes_no_left_back_order() -> None:
    due = still_coming([open_line(hand=LEFT)], [], [], [])
    matched, rest = match_arrivals([slip_line(8, 2, RIGHT)], due)
    assert (matched, [pieces for _, pieces in rest]) == ([], [2])


def test_another_length_closes_nothing() -> None:
    stock = ListedLine(1, 1, line(shipped=0, back_ordered=1, length=1_219_200_000))
    other = ListedLine(8, 2, line(shipped=1, length=1_828_800_000))
    assert match_arrivals([other], still_coming([stock], [], [], []))[0] == []


def test_finding_is_less_by_what_was_sent_for_it() -> None:
    left = settled_finding(1, short(2), [wanted(2)], [came(1, closes=None, expected=7)])
    assert left is not None
    assert (left.pieces, left.words) == (1, "2 missing; 1 came since")
    assert settled_finding(1, short(1), [wanted()], [came(1, closes=None, expected=7)]) is None


def test_the_other_hand_that_was_sent_settles_a_wrong_hand() -> None:
    came_right = replace(short(1), kind=FindingKind.WRONG_HAND, hand=RIGHT)
    left = replace(wanted(), kind=FindingKind.WRONG_HAND, wanted=Wanted(RIB.part, LEFT))
    came_left = [replace(came(1, closes=None, expected=7), wanted=left.wanted)]
    assert settled_finding(1, came_right, [left], came_left) is None


def test_finding_of_another_list_or_row_is_left_alone() -> None:
    came_since = [came(1, closes=None, expected=7)]
    assert settled_finding(2, short(), [wanted()], came_since) == short()
    elsewhere = replace(short(), row=13)
    assert settled_finding(1, elsewhere, [wanted()], came_since) == elsewhere


@given(
    open_=st.lists(st.integers(1, 9), max_size=4),
    coming=st.lists(st.integers(0, 9), max_size=4),
)
def test_every_piece_that_came_closes_something_or_is_left_over(
    open_: list[int], coming: list[int]
) -> None:
    lines = [
        ListedLine(number, 1, line(shipped=0, back_ordered=pieces))
        for number, pieces in enumerate(open_, 1)
    ]
    slips = [slip_line(100 + number, pieces) for number, pieces in enumerate(coming)]
    matched, rest = match_arrivals(slips, still_coming(lines, [], [], []))
    closed = sum(one.pieces for one in matched)
    assert closed + sum(pieces for _, pieces in rest) == sum(coming)
    assert closed == min(sum(open_), sum(coming))


def test_what_came_is_taken_off_one_line_of_a_revised_list_only() -> None:
    # 3 came for a line of the list before: 2 fill the first line, 1 of 2 the second.
    revised = [open_line(20, 2), open_line(21, 2), open_line(22, 3, LEFT)]
    settled = settled_lines(revised, [came(1, closes=None, expected=7), came(3, closes=1)])
    assert [each.line.back_ordered for each in settled] == [0, 1, 3]


def test_what_came_for_the_line_itself_leaves_no_room_for_more() -> None:
    # 2 of 5 came for the line, 10 more for one of an earlier list: no line is filled beyond 5.
    (each,) = settled_lines([open_line(20, 5)], [came(2, closes=20), came(10, closes=1)])
    assert (each.line.back_ordered, each.line.ordered) == (0, 5)


def test_three_slips_fill_two_lines_in_the_order_of_the_record() -> None:
    due = still_coming([open_line(1, 4), open_line(2, 2)], [], [], [])
    matched, _ = match_arrivals([slip_line(number, 2) for number in (7, 8, 9)], due)
    assert [(one.line.id, one.coming.line) for one in matched] == [(7, 1), (8, 1), (9, 2)]
