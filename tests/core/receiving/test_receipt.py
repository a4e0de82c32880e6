from __future__ import annotations

from inventory.core.items import Measure
from inventory.core.lists.packing import CountRule, PackingLine
from inventory.core.receiving.counts import Count
from inventory.core.receiving.findings import Addressee, Comparison, FindingKind, OpenCodes
from inventory.core.receiving.receipt import Packages, findings
from inventory.core.receiving.tally import tally
from tests.core.received import LEFT, NONE, RIGHT, counted, kinds, line


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
    assert (found.kind, found.hand, found.pieces) == (FindingKind.WRONG_HAND, LEFT, 1)
    assert found.words == "1 came LEFT, listed RIGHT"
    assert (found.listed, found.counted) == (2, 3)


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
        (FindingKind.WRONG_HAND, LEFT, 1),
        (FindingKind.OVER, LEFT, 2),
    ]


def test_two_rights_short_and_one_left_over_is_one_wrong_hand_and_one_short() -> None:
    lines = [line(shipped=2, hand=LEFT), line(shipped=2, hand=RIGHT)]
    counts = [counted(3, hand=LEFT)]
    assert kinds(findings(lines, counts)) == [
        (FindingKind.WRONG_HAND, LEFT, 1),
        (FindingKind.SHORT, RIGHT, 1),
    ]


def test_hand_that_is_not_listed_is_a_wrong_hand() -> None:
    (found,) = findings([line(shipped=1, hand=RIGHT)], [counted(1, hand=LEFT)])
    assert (found.kind, found.hand, found.row, found.words) == (
        FindingKind.WRONG_HAND,
        LEFT,
        12,
        "1 came LEFT, listed RIGHT",
    )
    assert (found.listed, found.counted) == (0, 1)


def test_numbers_that_say_their_hand_are_held_together() -> None:
    lines = [line("T2-FL-3-LH", 2, hand=LEFT), line("T2-FL-3-RH", 2, hand=RIGHT)]
    counts = [counted(3, "T2-FL-3-LH", hand=LEFT), counted(1, "T2-FL-3-RH", hand=RIGHT)]
    assert kinds(findings(lines, counts)) == [(FindingKind.WRONG_HAND, LEFT, 1)]


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
    assert found.words == "crate 3 never came, with 2 lines of the list"


def test_short_in_a_broken_crate_goes_to_both() -> None:
    (found,) = findings([line()], [counted(7)], Packages(harmed=frozenset({"1"})))
    assert found.addressee is Addressee.BOTH


def test_wrong_hand_in_a_broken_crate_goes_to_the_supplier_who_packed_it() -> None:
    lines = [line(shipped=2, hand=LEFT), line(shipped=2, hand=RIGHT)]
    counts = [counted(3, hand=LEFT)]
    wrong_hand, short = findings(lines, counts, Packages(harmed=frozenset({"1"})))
    assert (wrong_hand.kind, wrong_hand.addressee) == (FindingKind.WRONG_HAND, Addressee.SUPPLIER)
    assert (short.kind, short.addressee) == (FindingKind.SHORT, Addressee.BOTH)


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


def test_hand_that_nobody_listed_is_told_with_the_hands_that_are() -> None:
    lines = [line(shipped=1, hand=LEFT), line(shipped=1, hand=RIGHT)]
    counts = [counted(1, hand=LEFT), counted(1, hand=RIGHT), counted(1)]
    (found,) = findings(lines, counts)
    assert (found.kind, found.words) == (
        FindingKind.NOT_LISTED,
        "listed LEFT and RIGHT only, counted without a hand",
    )


def test_what_turned_up_of_a_missing_crate_is_not_claimed_with_it() -> None:
    # 3 of crate 3 are listed; one of them lay in crate 1.
    lines = [line("T2-FL-7", 3, crate="3")]
    (found,) = findings(lines, [counted(1, "T2-FL-7")], Packages(missing=frozenset({"3"})))
    assert (found.part, found.listed, found.counted, found.pieces) == ("", 3, 1, 2)


def test_one_piece_less_than_ordered_is_a_finding_and_none_less_is_not() -> None:
    (found,) = findings([line(ordered=9)], [counted()])
    assert (found.pieces, found.words) == (1, "1 of 9 ordered neither shipped nor to follow")
    assert findings([line(ordered=8)], [counted()]) == []


def test_quantities_against_the_order_are_told_in_full() -> None:
    (due,) = findings([line(back_ordered=2)], [counted()])
    assert due.words == "2 to follow"
    (over,) = findings([line(ordered=6)], [counted()])
    assert over.words == "8 shipped by the list, 6 ordered"
