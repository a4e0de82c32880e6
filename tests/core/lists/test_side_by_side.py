from __future__ import annotations

from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingLine
from inventory.core.lists.side_by_side import Row, side_by_side

LEFT, RIGHT, NONE = Hand.LEFT, Hand.RIGHT, Hand.NONE


def line(part: str, hand: Hand = NONE, **more: Any) -> PackingLine:  # noqa: ANN401
    return PackingLine(
        sheet="List", row=1, part=part, printed=part, ordered=1, shipped=1, hand=hand, **more
    )


def test_both_hands_of_one_number_stand_side_by_side() -> None:
    left, spar, right = line("RIB", LEFT), line("SPAR"), line("RIB", RIGHT)
    assert side_by_side([left, spar, right]) == [Row(left=left, right=right), Row(spar)]


def test_right_before_left_makes_the_same_pair() -> None:
    left, right = line("RIB", LEFT), line("RIB", RIGHT)
    assert side_by_side([right, left]) == [Row(left=left, right=right)]


def test_numbers_that_name_their_hand_are_a_pair() -> None:
    left, right = line("NR-1042-LH", LEFT), line("NR-1042-RH", RIGHT)
    assert side_by_side([left, right]) == [Row(left=left, right=right)]


def test_numbers_without_a_side_are_never_a_pair() -> None:
    one, other = line("NR-1042-L"), line("NR-1042-R")
    assert side_by_side([one, other]) == [Row(one), Row(other)]


def test_another_bag_is_another_row() -> None:
    left, right = line("RIB", LEFT, bag="B1"), line("RIB", RIGHT, bag="B2")
    assert side_by_side([left, right]) == [Row(left=left), Row(right=right)]


def test_second_line_of_the_same_hand_opens_a_row_of_its_own() -> None:
    one, two, right = line("RIB", LEFT), line("RIB", LEFT, revision="B"), line("RIB", RIGHT)
    assert side_by_side([one, two, right]) == [Row(left=one), Row(left=two, right=right)]


def test_first_line_names_the_row() -> None:
    left, right = line("NR-1042-LH", LEFT), line("NR-1042-RH", RIGHT)
    assert Row(right=right).first is right
    assert Row(left=left, right=right).first is left


@given(st.lists(st.builds(line, st.sampled_from(["A", "B-L", "B-R"]), st.sampled_from(Hand))))
def test_every_line_stands_in_exactly_one_row(lines: list[PackingLine]) -> None:
    rows = side_by_side(lines)
    assert sorted(map(id, lines)) == sorted(id(each) for row in rows for each in row.lines)
