from __future__ import annotations

from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.lists.packing import CountRule
from inventory.core.receiving.counts import Count, Method
from inventory.core.receiving.findings import FindingKind
from inventory.core.receiving.receipt import findings
from inventory.core.receiving.tally import tally
from tests.core.received import LEFT, NONE, RIGHT, counted, kinds, line

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine


def test_weighed_count_whose_doubt_reaches_the_list_is_not_short() -> None:
    # 99.2 pieces by weight, give or take 1: can't be told from 100.
    lines = [line(shipped=100)]
    weighed = Count(part="T2-FL-0412", crate="1", pieces_good=99, about=1, method=Method.WEIGHED)
    assert findings(lines, [weighed]) == []


def test_weighed_count_is_short_by_what_its_doubt_leaves() -> None:
    weighed = Count(part="T2-FL-0412", crate="1", pieces_good=90, about=3, method=Method.WEIGHED)
    (found,) = findings([line(shipped=100)], [weighed])
    assert (found.kind, found.pieces) == (FindingKind.SHORT, 7)
    assert found.words == "about 90 (± 3) counted, 100 listed"


def test_weighed_bag_of_two_lines_puts_its_doubt_on_both() -> None:
    lines = [line(shipped=50, row=1), line(shipped=50, row=2)]
    weighed = Count(part="T2-FL-0412", crate="1", pieces_good=98, about=2, method=Method.WEIGHED)
    assert findings(lines, [weighed]) == []


def test_doubt_of_one_bag_hides_nothing_in_another() -> None:
    lines = [line(shipped=100, bag="A"), line(shipped=10, bag="B")]
    weighed = Count(part="T2-FL-0412", crate="1", bag="A", pieces_good=100, about=2)
    exact = Count(part="T2-FL-0412", crate="1", bag="B", pieces_good=9)
    assert kinds(findings(lines, [weighed, exact])) == [(FindingKind.SHORT, NONE, 1)]


def test_piece_over_in_another_crate_is_shown_with_both_and_not_claimed() -> None:
    lines = [line(shipped=2, crate="1", row=1), line(shipped=2, crate="2", bag="B", row=2)]
    counts = [counted(1, crate="1"), counted(3, crate="2")]
    short, over = findings(lines, counts)
    assert (short.kind, short.pieces, short.elsewhere, short.claimed) == (
        FindingKind.SHORT,
        1,
        1,
        False,
    )
    assert short.words == "1 counted, 2 listed; over in 2/B"
    assert (over.kind, over.elsewhere, over.claimed) == (FindingKind.OVER, 1, False)
    assert over.words == "3 counted, 2 listed; lacking in 1"


def test_what_no_other_bag_explains_stays_claimed() -> None:
    lines = [line(shipped=4, crate="1"), line(shipped=2, crate="")]
    counts = [counted(1, crate="1"), counted(3, crate="")]
    short, over = findings(lines, counts)
    assert (short.pieces, short.elsewhere, short.claimed) == (3, 1, True)
    assert short.words == "1 counted, 4 listed; over in another place"
    assert (over.pieces, over.claimed) == (1, False)


def test_wrong_hand_in_the_bag_goes_before_the_same_hand_elsewhere() -> None:
    lines = [
        line(shipped=1, hand=LEFT, bag="A"),
        line(shipped=1, hand=RIGHT, bag="A"),
        line(shipped=1, hand=LEFT, bag="B"),
    ]
    counts = [Count(part="T2-FL-0412", crate="1", bag="A", hand=LEFT, pieces_good=2)]
    assert kinds(findings(lines, counts)) == [
        (FindingKind.WRONG_HAND, LEFT, 1),
        (FindingKind.SHORT, LEFT, 1),
    ]


def test_other_hand_in_another_bag_is_a_wrong_hand_too() -> None:
    lines = [line(shipped=1, hand=LEFT, bag="A"), line(shipped=1, hand=RIGHT, bag="B")]
    counts = [Count(part="T2-FL-0412", crate="1", bag="A", hand=LEFT, pieces_good=2)]
    assert kinds(findings(lines, counts)) == [(FindingKind.WRONG_HAND, LEFT, 1)]


def test_part_that_lay_where_no_line_lists_it_fills_its_line_elsewhere() -> None:
    assert findings([line(shipped=2, crate="1")], [counted(2, crate="2")]) == []


def test_same_part_on_two_lines_of_one_crate_is_added() -> None:
    lines = [line(shipped=12, row=1), line(shipped=8, row=2)]
    (found,) = findings(lines, [counted(15)])
    assert (found.kind, found.row, found.pieces) == (FindingKind.SHORT, 2, 5)


def told(lines: list[PackingLine], counts: list[Count]) -> list[tuple[int, int, int]]:
    """Return good, damaged and wrong pieces of each line."""
    return [
        (one.pieces_good, one.pieces_damaged, one.pieces_wrong)
        for one in tally(lines, counts).lines
    ]


def test_second_count_goes_where_the_first_left_room() -> None:
    # 3 good and 1 bent fill the first line but for 1; of the 3 counted next, 1 goes there.
    lines = [line(shipped=5, row=1), line(shipped=4, row=2)]
    assert told(lines, [counted(3, damaged=1), counted(3)]) == [(4, 1, 0), (2, 0, 0)]


def test_damaged_pieces_take_the_room_of_the_list_before_good_ones() -> None:
    lines = [line(shipped=5, row=1), line(shipped=5, row=2)]
    assert told(lines, [counted(7, damaged=3)]) == [(2, 3, 0), (5, 0, 0)]


def test_what_is_too_much_and_what_is_wrong_stay_with_the_first_line() -> None:
    # Room for 2 and 2; 5 bent and 1 good came: 1 bent and 1 good too many, 1 of another part.
    lines = [line(shipped=2, row=1), line(shipped=2, row=2)]
    count = Count(part="T2-FL-0412", crate="1", pieces_good=1, pieces_damaged=5, pieces_wrong=1)
    assert told(lines, [count]) == [(1, 3, 1), (0, 2, 0)]


def test_part_as_required_is_neither_short_nor_over() -> None:
    lines = [line(shipped=0, rule=CountRule.AS_REQUIRED)]
    (one,) = tally(lines, [counted(3)]).lines
    assert (one.pieces_received, one.pieces_short, one.pieces_over) == (3, 0, 0)


def test_other_places_are_each_named_once() -> None:
    lines = [line(shipped=6), line(shipped=1, crate="2"), line(shipped=1, crate="3", bag="B")]
    counts = [counted(2), counted(3, crate="2"), counted(2, crate="3")]
    short = findings(lines, counts)[0]
    assert short.words == "2 counted, 6 listed; over in 2, 3/B"


def test_other_length_is_not_the_listed_stock() -> None:
    listed = line(shipped=2, length=2_438_400_000)
    shorter = Count(part="T2-FL-0412", crate="1", pieces_good=2, length=1_828_800_000)
    found = findings([listed], [shorter])
    assert kinds(found) == [(FindingKind.SHORT, NONE, 2), (FindingKind.NOT_LISTED, NONE, 2)]
    assert found[1].words == "listed in another length only"
    assert findings([listed], [counted(2)]) == []


hands = st.sampled_from([LEFT, RIGHT, NONE])
lines_of_two_parts = st.lists(
    st.builds(
        line,
        st.sampled_from(["P", "Q"]),
        st.integers(0, 5),
        hand=hands,
        crate=st.sampled_from(["1", "2"]),
    ),
    max_size=6,
)
counts_of_two_parts = st.lists(
    st.builds(
        counted,
        st.integers(0, 5),
        st.sampled_from(["P", "Q"]),
        crate=st.sampled_from(["1", "2"]),
        hand=hands,
    ),
    max_size=6,
)


@given(lines_of_two_parts, counts_of_two_parts)
def test_no_piece_is_lost_or_counted_twice(lines: list[PackingLine], counts: list[Count]) -> None:
    tallied = tally(lines, counts)
    strays = [
        count.pieces_counted
        for count, of_line in zip(counts, tallied.line_of, strict=True)
        if of_line is None
    ]
    received = sum(one.pieces_received for one in tallied.lines)
    assert received + sum(strays) == sum(count.pieces_counted for count in counts)


@given(lines_of_two_parts, counts_of_two_parts)
def test_left_never_fills_right(lines: list[PackingLine], counts: list[Count]) -> None:
    shipped = sum(one.shipped for one in lines if one.hand is RIGHT and one.part == "P")
    came = sum(one.pieces_good for one in counts if one.hand is RIGHT and one.part == "P")
    right = [one for one in findings(lines, counts) if one.part == "P" and one.hand is RIGHT]
    short = sum(one.pieces - one.elsewhere for one in right if one.kind is FindingKind.SHORT)
    over = sum(one.pieces - one.elsewhere for one in right if one.kind is not FindingKind.SHORT)
    swapped = sum(
        one.pieces
        for one in findings(lines, counts)
        if one.part == "P" and one.words.endswith("listed RIGHT")
    )
    assert short + swapped - over == shipped - came
