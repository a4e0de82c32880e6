from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand
from inventory.core.lists.list_revision import Conflict, conflicts, list_changes
from inventory.core.lists.packing import CountRule, PackingLine
from inventory.core.receiving.counts import Count

LINE = PackingLine(
    sheet="L", row=2, part="T2-1", printed="T2-1", ordered=4, shipped=4, item_number="1",
    crate="1", bag="A", sub_kit="11",
)  # fmt: skip


def test_same_list_again_changes_nothing() -> None:
    changes = list_changes([LINE], [LINE])
    assert (changes.added, changes.removed, changes.changed, changes.renumbered) == ((), (), (), ())
    assert changes.unchanged == 1


def test_line_that_is_new_or_gone_is_named() -> None:
    other = replace(LINE, part="T2-2")
    changes = list_changes([LINE], [other])
    assert changes.added == (other,)
    assert changes.removed == (LINE,)


def test_changed_line_says_in_what() -> None:
    later = replace(LINE, ordered=6, shipped=5, back_ordered=1, revision="B")
    (change,) = list_changes([LINE], [later]).changed
    assert change.fields == ("ordered", "shipped", "back_ordered", "revision")


@pytest.mark.parametrize(
    ("name", "later"),
    [
        ("ordered", 6), ("shipped", 3), ("back_ordered", 1), ("unit", "PR"),
        ("count_rule", CountRule.REFERENCE), ("revision", "B"), ("crate", "2"), ("bag", "B"),
        ("sub_kit", "12"), ("description", "RIB"),
    ],
)  # fmt: skip
def test_line_is_changed_by_each_thing_that_is_compared(name: str, later: object) -> None:
    (change,) = list_changes([LINE], [replace(LINE, **{name: later})]).changed  # type: ignore[arg-type]
    assert change.fields == (name,)


def test_other_remark_or_printing_is_no_change() -> None:
    later = replace(LINE, remark="new", printed="T2 - 1", rounded=True, unit_word="each")
    assert list_changes([LINE], [later]).unchanged == 1


def test_changes_stand_in_the_order_of_the_later_list() -> None:
    # The second line is found by its bag, the first only by its part.
    second = replace(LINE, part="T2-2", row=9)
    moved, revised = replace(LINE, sub_kit="12", bag="B"), replace(second, revision="B")
    changes = list_changes([LINE, second], [moved, revised])
    assert [change.after for change in changes.changed] == [moved, revised]


def test_line_that_was_given_a_number_is_renumbered() -> None:
    plain = replace(LINE, item_number="")
    for before, after in ((plain, LINE), (LINE, plain)):
        (change,) = list_changes([before], [after]).renumbered
        assert (change.before, change.after) == (before, after)


def test_line_with_another_number_is_renumbered_and_not_changed() -> None:
    later = replace(LINE, item_number="7", row=9)
    changes = list_changes([LINE], [later])
    assert changes.changed == ()
    assert [change.after for change in changes.renumbered] == [later]


def test_list_without_numbers_is_renumbered_by_its_rows() -> None:
    plain = replace(LINE, item_number="")
    assert list_changes([plain], [replace(plain, row=9)]).renumbered != ()
    assert list_changes([plain], [plain]).renumbered == ()


def test_left_and_right_are_different_lines() -> None:
    left, right = replace(LINE, hand=Hand.LEFT), replace(LINE, hand=Hand.RIGHT)
    changes = list_changes([left], [right])
    assert (changes.added, changes.removed) == ((right,), (left,))


def test_same_part_in_two_sub_kits_keeps_its_lines_apart() -> None:
    other = replace(LINE, sub_kit="12", row=9, item_number="8", ordered=2, shipped=2)
    later = replace(other, ordered=3, shipped=3)
    (change,) = list_changes([LINE, other], [LINE, later]).changed
    assert (change.before, change.after) == (other, later)


def test_moved_line_is_changed_not_lost() -> None:
    moved = replace(LINE, sub_kit="12", bag="B")
    (change,) = list_changes([LINE], [moved]).changed
    assert change.fields == ("bag", "sub_kit")


LINES = st.builds(
    lambda part, hand, kit, ordered: replace(
        LINE, part=part, hand=hand, sub_kit=kit, ordered=ordered
    ),
    st.sampled_from(["T2-1", "T2-2", "T2-3"]),
    st.sampled_from([Hand.LEFT, Hand.RIGHT]),
    st.sampled_from(["11", "12"]),
    st.integers(0, 3),
)


@given(st.lists(LINES, max_size=8), st.lists(LINES, max_size=8))
def test_every_line_of_both_lists_is_accounted_for(
    before: list[PackingLine], after: list[PackingLine]
) -> None:
    changes = list_changes(before, after)
    kept = changes.unchanged + len(changes.changed)
    assert kept + len(changes.removed) == len(before)
    assert kept + len(changes.added) == len(after)


def count(pieces: int, **where: str) -> Count:
    return Count(part="T2-1", crate="1", bag=where.get("bag", "A"), pieces_good=pieces)


def test_counted_line_that_is_gone_moved_or_lowered_is_a_conflict() -> None:
    lowered = replace(LINE, shipped=2)
    moved = replace(LINE, bag="B")
    gone = list_changes([LINE], [])
    elsewhere = replace(LINE, crate="2")
    assert conflicts(gone, [count(3), count(1)]) == [
        Conflict(LINE, 4, "it was counted, and the later list doesn't have it any more")
    ]
    assert conflicts(list_changes([LINE], [lowered]), [count(3)]) == [
        Conflict(LINE, 3, "more were counted than the 2 that the later list has shipped")
    ]
    for other in (moved, elsewhere):
        assert conflicts(list_changes([LINE], [other]), [count(1)]) == [
            Conflict(LINE, 1, "it was counted where the later list has it not")
        ]


def test_change_that_leaves_the_count_true_is_no_conflict() -> None:
    lowered = list_changes([LINE], [replace(LINE, shipped=3)])
    other = list_changes([LINE], [replace(LINE, revision="B")])
    gone = list_changes([LINE], [])
    assert conflicts(lowered, [count(3)]) == []
    assert conflicts(other, [count(9)]) == []
    assert conflicts(gone, [count(2, bag="B")]) == []
    assert conflicts(lowered, []) == []
