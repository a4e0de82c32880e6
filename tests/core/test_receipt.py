from __future__ import annotations

import datetime as dt

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.counts import Count, Method, Remark
from inventory.core.findings import Addressee, Comparison, Finding, FindingKind, OpenCodes
from inventory.core.items import Hand, Measure
from inventory.core.packing import CountRule, PackingLine
from inventory.core.receipt import Packages, findings
from inventory.core.tally import tally

LEFT, RIGHT, NONE = Hand.LEFT, Hand.RIGHT, Hand.NONE


def line(
    part: str = "T2-FL-0412",
    shipped: int = 8,
    *,
    row: int = 12,
    ordered: int | None = None,
    back_ordered: int = 0,
    hand: Hand = NONE,
    crate: str = "1",
    bag: str = "",
    rule: CountRule = CountRule.COUNTED,
    revision: str = "",
    length: int = 0,
) -> PackingLine:
    return PackingLine(
        sheet="Floats",
        row=row,
        part=part,
        printed=part,
        description="frame",
        hand=hand,
        ordered=shipped + back_ordered if ordered is None else ordered,
        shipped=shipped,
        back_ordered=back_ordered,
        crate=crate,
        bag=bag,
        count_rule=rule,
        revision=revision,
        length=length,
    )


def counted(
    good: int = 8,
    part: str = "T2-FL-0412",
    *,
    crate: str = "1",
    hand: Hand = NONE,
    damaged: int = 0,
) -> Count:
    return Count(part=part, hand=hand, crate=crate, pieces_good=good, pieces_damaged=damaged)


def kinds(found: list[Finding]) -> list[tuple[FindingKind, Hand, int]]:
    return [(finding.kind, finding.hand, finding.pieces) for finding in found]


def test_list_and_count_that_agree_show_nothing() -> None:
    assert findings([line()], [counted()]) == []


def test_one_missing_one_bent_two_to_follow() -> None:
    # Need 10; ordered 10, shipped 8, back-ordered 2; 7 counted, 1 of them bent:
    # 1 short, 2 to follow, 1 damaged; 6 usable, 4 = 1 + 2 + 1 still needed.
    lines = [line(ordered=10, back_ordered=2)]
    counts = [counted(6, damaged=1)]
    found = findings(lines, counts)
    assert kinds(found) == [
        (FindingKind.DAMAGED, NONE, 1),
        (FindingKind.SHORT, NONE, 1),
        (FindingKind.BACK_ORDER, NONE, 2),
    ]
    assert [finding.claimed for finding in found] == [True, True, False]
    assert [finding.codes for finding in found] == [
        OpenCodes("C1", "AF"),
        OpenCodes("S1", ""),
        OpenCodes("", "BP"),
    ]
    (tallied,) = tally(lines, counts).lines
    assert (tallied.pieces_good, 10 - tallied.pieces_good) == (6, 4)
    assert sum(finding.pieces for finding in found) == 4


def test_three_left_and_one_right_of_two_pairs_is_a_wrong_hand_though_the_total_agrees() -> None:
    lines = [line(shipped=2, hand=LEFT), line(shipped=2, hand=RIGHT)]
    counts = [counted(3, hand=LEFT), counted(1, hand=RIGHT)]
    assert sum(count.pieces_good for count in counts) == sum(one.shipped for one in lines)
    left, right = tally(lines, counts).lines
    assert (left.pieces_over, left.pieces_short) == (1, 0)
    assert (right.pieces_over, right.pieces_short) == (0, 1)
    (found,) = findings(lines, counts)
    assert (found.kind, found.hand, found.pieces) == (FindingKind.WRONG_HAND, RIGHT, 1)
    assert found.words == "1 came LEFT, listed RIGHT"
    assert (found.listed, found.counted) == (2, 1)


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


def test_nine_of_eight_is_a_finding() -> None:
    (found,) = findings([line()], [counted(9)])
    assert (found.kind, found.pieces) == (FindingKind.OVER, 1)
    assert found.words == "9 counted, 8 listed"
    assert found.codes == OpenCodes("O1", "AC")


def test_over_on_a_line_with_a_back_order_asks_whether_it_came_already() -> None:
    found = findings([line(back_ordered=2)], [counted(10)])
    assert kinds(found) == [(FindingKind.OVER, NONE, 2), (FindingKind.BACK_ORDER, NONE, 2)]
    assert found[0].words == "10 counted, 8 listed; 2 on back-order: came they already?"


def test_left_over_left_over_stays_over_beside_the_wrong_hand() -> None:
    lines = [line(shipped=2, hand=LEFT), line(shipped=2, hand=RIGHT)]
    counts = [counted(5, hand=LEFT), counted(1, hand=RIGHT)]
    assert kinds(findings(lines, counts)) == [
        (FindingKind.WRONG_HAND, RIGHT, 1),
        (FindingKind.OVER, LEFT, 2),
    ]


def test_two_rights_short_and_one_left_over_is_one_wrong_hand_and_one_short() -> None:
    lines = [line(shipped=2, hand=LEFT), line(shipped=2, hand=RIGHT)]
    counts = [counted(3, hand=LEFT)]
    assert kinds(findings(lines, counts)) == [
        (FindingKind.WRONG_HAND, RIGHT, 1),
        (FindingKind.SHORT, RIGHT, 1),
    ]


def test_hand_that_is_not_listed_is_a_wrong_hand() -> None:
    (found,) = findings([line(shipped=1, hand=RIGHT)], [counted(1, hand=LEFT)])
    assert (found.kind, found.hand, found.words) == (
        FindingKind.WRONG_HAND,
        RIGHT,
        "1 came LEFT, listed RIGHT",
    )


def test_numbers_that_say_their_hand_are_held_together() -> None:
    lines = [line("T2-FL-3-LH", 2, hand=LEFT), line("T2-FL-3-RH", 2, hand=RIGHT)]
    counts = [counted(3, "T2-FL-3-LH", hand=LEFT), counted(1, "T2-FL-3-RH", hand=RIGHT)]
    assert kinds(findings(lines, counts)) == [(FindingKind.WRONG_HAND, RIGHT, 1)]


def test_odd_and_even_numbers_are_not_a_pair() -> None:
    lines = [line("T2-FL-31", 2), line("T2-FL-32", 2)]
    counts = [counted(3, "T2-FL-31"), counted(1, "T2-FL-32")]
    assert kinds(findings(lines, counts)) == [
        (FindingKind.SHORT, NONE, 1),
        (FindingKind.OVER, NONE, 1),
    ]


def test_none_counted_is_short_by_all() -> None:
    (found,) = findings([line()], [])
    assert (found.kind, found.pieces, found.words) == (
        FindingKind.SHORT,
        8,
        "0 counted, 8 listed",
    )
    assert (found.sheet, found.row, found.crate, found.part) == ("Floats", 12, "1", "T2-FL-0412")


def test_piece_in_another_crate_is_not_missing() -> None:
    lines = [line(shipped=2, crate="1"), line(shipped=2, crate="2")]
    counts = [counted(1, crate="1"), counted(3, crate="2")]
    assert findings(lines, counts) == []


def test_own_crate_is_filled_first() -> None:
    lines = [line(shipped=2, crate="1", row=1), line(shipped=2, crate="2", row=2)]
    (found,) = findings(lines, [counted(3, crate="2")])
    assert (found.kind, found.row, found.pieces) == (FindingKind.SHORT, 1, 1)


def test_same_part_on_two_lines_of_one_crate_is_added() -> None:
    lines = [line(shipped=12, row=1), line(shipped=8, row=2)]
    (found,) = findings(lines, [counted(15)])
    assert (found.kind, found.row, found.pieces) == (FindingKind.SHORT, 2, 5)


def test_damaged_pieces_are_on_the_list_and_claimed_from_the_carrier() -> None:
    (found,) = findings([line()], [counted(6, damaged=2)])
    assert (found.kind, found.pieces, found.addressee) == (
        FindingKind.DAMAGED,
        2,
        Addressee.CARRIER,
    )
    assert found.words == "2 of 8 counted: damaged"


def test_defective_pieces_are_claimed_from_the_supplier() -> None:
    count = Count(
        part="T2-FL-0412",
        crate="1",
        pieces_good=6,
        pieces_damaged=2,
        remarks=frozenset({Remark.DEFECTIVE}),
    )
    (found,) = findings([line()], [count])
    assert (found.kind, found.addressee) == (FindingKind.DEFECTIVE, Addressee.SUPPLIER)


def test_pieces_of_another_part_in_the_bag_are_short_and_wrong() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=6, pieces_wrong=2)
    assert kinds(findings([line()], [count])) == [
        (FindingKind.WRONG_PART, NONE, 2),
        (FindingKind.SHORT, NONE, 2),
    ]


def test_other_revision_is_a_warning_about_all_pieces() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, revision="C")
    (found,) = findings([line(revision="B")], [count])
    assert (found.kind, found.pieces) == (FindingKind.WRONG_REVISION, 8)
    assert found.words == "revision C came, B is listed"


@pytest.mark.parametrize(("listed", "came"), [("B", "B"), ("", "C"), ("B", "")])
def test_revision_that_agrees_or_nobody_printed_shows_nothing(listed: str, came: str) -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, revision=came)
    assert findings([line(revision=listed)], [count]) == []


def test_part_that_is_not_on_the_list_is_shown_where_it_lay() -> None:
    count = Count(part="T2-RU-9", crate="2", bag="B4", pieces_good=3)
    (found,) = findings([], [count])
    assert (found.kind, found.pieces, found.crate, found.bag, found.row) == (
        FindingKind.NOT_LISTED,
        3,
        "2",
        "B4",
        0,
    )
    assert found.codes == OpenCodes("", "AE")


def test_part_listed_for_reference_only_is_not_missing() -> None:
    lines = [line(rule=CountRule.REFERENCE)]
    assert findings(lines, []) == []
    (found,) = findings(lines, [counted(1)])
    assert found.words == "on the list for reference only"


def test_as_required_is_there_or_not() -> None:
    lines = [line(shipped=0, rule=CountRule.AS_REQUIRED)]
    assert findings(lines, [counted(3)]) == []
    (found,) = findings(lines, [])
    assert (found.kind, found.words) == (FindingKind.SHORT, "as required: none found")


def test_part_sent_for_another_is_a_substitute_and_neither_short_nor_unlisted() -> None:
    count = Count(part="MS20470AD4-5", crate="1", pieces_good=8, instead_of="AN470AD4-5")
    (found,) = findings([line("AN470AD4-5")], [count])
    assert (found.kind, found.part, found.pieces) == (FindingKind.SUBSTITUTE, "MS20470AD4-5", 8)
    assert found.words.startswith("supplied as MS20470AD4-5, listed as AN470AD4-5")


@pytest.mark.parametrize(
    ("expires", "expired"),
    [(dt.date(2026, 6, 30), True), (dt.date(2026, 7, 1), False), (None, False)],
)
def test_expired_is_after_its_last_day(expires: dt.date | None, *, expired: bool) -> None:
    count = Count(
        part="T2-FL-0412", crate="1", pieces_good=8, expires=expires, on=dt.date(2026, 7, 1)
    )
    found = findings([line()], [count])
    assert [one.kind for one in found] == [FindingKind.EXPIRED] * expired


def test_marking_and_papers_are_findings_of_their_own() -> None:
    count = Count(
        part="T2-FL-0412",
        crate="1",
        pieces_good=8,
        remarks=frozenset({Remark.UNMARKED, Remark.MEASURED, Remark.NO_PAPERS}),
    )
    unmarked, papers = findings([line()], [count])
    assert (unmarked.kind, papers.kind) == (FindingKind.UNMARKED, FindingKind.PAPERS_MISSING)
    assert unmarked.words.endswith("identified by measurement")


def test_unmarked_without_measurement_says_only_that() -> None:
    count = Count(part="T2-FL-0412", crate="1", pieces_good=8, remarks=frozenset({Remark.UNMARKED}))
    (found,) = findings([line()], [count])
    assert found.words == "no part number on the pieces or their bag"


def test_second_sending_is_a_duplicate() -> None:
    twice = Count(
        part="T2-FL-0412", crate="1", pieces_good=8, remarks=frozenset({Remark.DUPLICATE})
    )
    assert kinds(findings([line()], [counted(8), twice])) == [(FindingKind.DUPLICATE, NONE, 8)]
    assert kinds(findings([], [twice])) == [(FindingKind.DUPLICATE, NONE, 8)]


def test_other_length_is_not_the_listed_stock() -> None:
    listed = line(shipped=2, length=2_438_400_000)
    shorter = Count(part="T2-FL-0412", crate="1", pieces_good=2, length=1_828_800_000)
    found = findings([listed], [shorter])
    assert kinds(found) == [(FindingKind.SHORT, NONE, 2), (FindingKind.NOT_LISTED, NONE, 2)]
    assert found[1].words == "listed in another length only"
    assert findings([listed], [counted(2)]) == []


def test_less_shipped_than_ordered_with_nothing_to_follow_is_short_against_the_order() -> None:
    (found,) = findings([line(ordered=10)], [counted()])
    assert (found.kind, found.comparison, found.pieces) == (
        FindingKind.SHORT,
        Comparison.LIST_ORDER,
        2,
    )
    assert found.words == "2 of 10 ordered neither shipped nor to follow"
    assert found.codes == OpenCodes("S2", "CP")


def test_more_shipped_than_ordered_is_over_against_the_order() -> None:
    (found,) = findings([line(ordered=6)], [counted()])
    assert (found.kind, found.comparison, found.pieces) == (
        FindingKind.OVER,
        Comparison.LIST_ORDER,
        2,
    )
    assert found.codes == OpenCodes("O2", "AC")


def test_crate_still_being_counted_lacks_nothing_yet() -> None:
    lines = [line(crate="1", row=1), line("T2-FL-7", crate="2", row=2)]
    (found,) = findings(lines, [], Packages(closed=frozenset({"1"})))
    assert found.row == 1


def test_missing_crate_is_one_finding_against_the_carrier() -> None:
    lines = [line(crate="1"), line("T2-FL-7", 3, crate="3"), line("T2-FL-8", 4, crate="3")]
    (found,) = findings(lines, [counted()], Packages(missing=frozenset({"3"})))
    assert (found.kind, found.addressee, found.pieces) == (
        FindingKind.PACKAGE_MISSING,
        Addressee.CARRIER,
        7,
    )
    assert found.words == "crate 3 never came; 2 lines of the list are in it"


def test_short_in_a_broken_crate_goes_to_both() -> None:
    (found,) = findings([line()], [counted(7)], Packages(harmed=frozenset({"1"})))
    assert found.addressee is Addressee.BOTH


def test_line_by_weight_is_worded_in_its_unit() -> None:
    # 1/4 lb = 113 398 092 500 ng; 100 g came.
    rivets = PackingLine(
        sheet="Hardware",
        row=3,
        part="R",
        printed="R",
        ordered=113_398_092_500,
        shipped=113_398_092_500,
        measure=Measure.MASS,
        unit="LBR",
    )
    (found,) = findings([rivets], [Count(part="R", pieces_good=56_699_046_250)])
    assert found.words == "1/8 pound counted, 1/4 pound listed"


def test_damaged_part_that_is_not_listed_is_told_of_too() -> None:
    found = findings([], [counted(1, damaged=1)])
    assert [one.words for one in found] == ["1 of 2 counted: damaged", "not on the list"]


def test_worst_comes_first_then_the_order_of_the_list() -> None:
    lines = [
        line("A", 1, row=1),
        line("B", 1, row=2),
        line("C", 1, row=3, hand=LEFT),
        line("D", 1, row=4),
    ]
    counts = [
        counted(2, "A"),
        counted(0, "D"),
        counted(1, "C", hand=RIGHT),
    ]
    assert [(one.kind, one.row) for one in findings(lines, counts)] == [
        (FindingKind.WRONG_HAND, 3),
        (FindingKind.SHORT, 2),
        (FindingKind.SHORT, 4),
        (FindingKind.OVER, 1),
    ]


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
    tallied = tally(lines, counts)
    shipped = sum(one.shipped for one in lines if one.hand is RIGHT and one.part == "P")
    came = sum(one.pieces_good for one in counts if one.hand is RIGHT and one.part == "P")
    short = sum(
        one.pieces_short for one in tallied.lines if one.line.hand is RIGHT and one.line.part == "P"
    )
    assert short == max(0, shipped - came)
