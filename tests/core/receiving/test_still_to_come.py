from __future__ import annotations

import datetime as dt
from dataclasses import replace

from inventory.core.receiving.arrivals import ListedLine, Promise, Wanted
from inventory.core.receiving.still_to_come import Coming, still_coming
from tests.core.expected import JUNE, MAY, RIB, came, open_line, wanted
from tests.core.received import LEFT, RIGHT


def test_back_orders_and_replacements_are_still_to_come() -> None:
    due = still_coming([open_line()], [wanted()], [], [])
    assert [(each.pieces, each.source, each.line, each.expected) for each in due] == [
        (2, "back-order, row 12 of packing list 1", 1, None),
        (1, "to be sent, report 3", None, 7),
    ]


def test_remark_of_the_line_goes_with_its_back_order() -> None:
    told = ListedLine(1, 1, replace(open_line().line, remark="week 20"))
    assert still_coming([told], [], [], [])[0].source.endswith("(week 20)")


def test_replacement_that_came_is_no_longer_expected() -> None:
    assert still_coming([], [wanted(2)], [came(2, closes=None, expected=7)], []) == []
    (left,) = still_coming([], [wanted(2)], [came(1, closes=None, expected=7)], [])
    assert left.pieces == 1


def test_promise_in_parts_splits_what_is_to_come() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=1, promised=JUNE, latest=dt.date(2027, 6, 20)),
        Promise(slip=2, wanted=RIB, pieces=2, promised=MAY),
    ]
    due = still_coming([open_line(back_ordered=4)], [], [], promises)
    assert [(each.pieces, each.promised, each.latest) for each in due] == [
        (2, MAY, None),
        (1, JUNE, dt.date(2027, 6, 20)),
        (1, None, None),
    ]


def test_promise_for_all_dates_all() -> None:
    due = still_coming([open_line(1), open_line(2)], [], [],
                       [Promise(slip=2, wanted=RIB, promised=MAY)])  # fmt: skip
    assert [(each.line, each.promised) for each in due] == [(1, MAY), (2, MAY)]


def test_promise_of_some_pieces_goes_on_to_the_next_open_line() -> None:
    due = still_coming(
        [open_line(1, 2), open_line(2, 2)], [], [],
        [
            Promise(slip=2, wanted=RIB, pieces=3, promised=MAY),
            Promise(slip=2, wanted=RIB, pieces=9, promised=JUNE),
        ],
    )  # fmt: skip
    assert [(each.line, each.pieces, each.promised) for each in due] == [
        (1, 2, MAY),
        (2, 1, MAY),
        (2, 1, JUNE),
    ]


def test_answer_to_a_report_dates_what_that_report_brings_and_no_back_order() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=1, promised=JUNE),
        Promise(slip=2, wanted=RIB, pieces=1, promised=MAY, report=3),
        Promise(slip=2, wanted=RIB, pieces=1, promised=JUNE, report=4),
    ]
    due = still_coming([open_line()], [wanted()], [], promises)
    assert [(each.source[:10], each.pieces, each.promised) for each in due] == [
        ("back-order", 1, JUNE),
        ("back-order", 1, None),
        ("to be sent", 1, MAY),
    ]


def test_newest_word_about_an_item_takes_the_place_of_earlier_ones() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, promised=MAY),
        Promise(slip=4, wanted=RIB, promised=None),
    ]
    (each,) = still_coming([open_line()], [], [], promises)
    assert each.promised is None


def test_what_came_since_is_taken_off_the_earliest_promise() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=2, promised=MAY),
        Promise(slip=2, wanted=RIB, pieces=2, promised=JUNE),
    ]
    due = still_coming([open_line(back_ordered=4)], [], [came(3)], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, JUNE)]


def test_promise_made_after_an_arrival_stands_whole() -> None:
    promises = [Promise(slip=6, wanted=RIB, pieces=1, promised=JUNE)]
    due = still_coming([open_line()], [], [came(1)], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, JUNE)]


def test_back_order_that_came_leaves_the_answer_to_a_report_alone() -> None:
    promises = [Promise(slip=2, wanted=RIB, pieces=1, promised=MAY, report=3)]
    due = still_coming([open_line()], [wanted()], [came(1)], promises)
    assert [(each.source[:10], each.promised) for each in due] == [
        ("back-order", None),
        ("to be sent", MAY),
    ]


def test_replacement_that_came_is_taken_off_the_answer_to_its_report() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=1, promised=MAY, report=3),
        Promise(slip=2, wanted=RIB, pieces=1, promised=JUNE, report=3),
    ]
    due = still_coming([], [wanted(2)], [came(1, closes=None, expected=7)], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, JUNE)]


def test_answer_to_a_report_goes_before_a_promise_for_anything() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=1, promised=MAY),
        Promise(slip=2, wanted=RIB, pieces=1, promised=JUNE, report=3),
    ]
    due = still_coming([], [wanted()], [], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, JUNE)]


def test_pieces_without_a_day_come_after_those_with_one() -> None:
    promises = [
        Promise(slip=2, wanted=RIB, pieces=1, promised=None),
        Promise(slip=2, wanted=RIB, pieces=1, promised=MAY),
    ]
    due = still_coming([open_line()], [], [], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, MAY), (1, None)]


def test_promise_is_used_up_over_several_open_lines() -> None:
    promises = [Promise(slip=2, wanted=RIB, pieces=3, promised=MAY)]
    due = still_coming([open_line(1, 2), open_line(2, 2)], [], [], promises)
    assert [(each.line, each.pieces, each.promised) for each in due] == [
        (1, 2, MAY),
        (2, 1, MAY),
        (2, 1, None),
    ]


def test_promise_given_with_the_slip_that_came_is_about_the_rest() -> None:
    promises = [Promise(slip=5, wanted=RIB, pieces=1, promised=JUNE)]
    due = still_coming([open_line()], [], [came(1)], promises)
    assert [(each.pieces, each.promised) for each in due] == [(1, JUNE)]


def test_promise_of_one_hand_dates_no_other() -> None:
    left = Promise(slip=2, wanted=Wanted(RIB.part, LEFT), promised=MAY)
    due = still_coming([open_line(hand=RIGHT)], [], [], [left])
    assert [each.promised for each in due] == [None]


def test_promise_is_overdue_once_its_late_end_is_past() -> None:
    due = Coming(wanted=RIB, printed="P", pieces=1, source="s", promised=MAY)
    ranged = Coming(wanted=RIB, printed="P", pieces=1, source="s", promised=MAY, latest=JUNE)
    assert (due.overdue(MAY), due.overdue(dt.date(2027, 5, 2))) == (False, True)
    assert not ranged.overdue(dt.date(2027, 5, 2))
    assert not Coming(wanted=RIB, printed="P", pieces=1, source="s").overdue(JUNE)
