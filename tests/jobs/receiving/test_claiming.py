from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.core.receiving.findings import Addressee, FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.undoing import undo
from inventory.jobs.lists.later_lists import record_match
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.claim_answers import Answer, mark_answered, mark_sent
from inventory.jobs.receiving.claiming import claims, other_clocks
from inventory.jobs.receiving.deliveries import add_lists, record_delivery
from inventory.jobs.receiving.findings_today import against_plan, line_tallies
from inventory.jobs.receiving.letters import Wording, report_for, reports
from inventory.jobs.receiving.receiving import close_crate, found
from inventory.jobs.receiving.still_coming import coming
from tests.jobs.conftest import LINES, line
from tests.jobs.received import FACTS, a_list, counted, received

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.reports import Report

    Slips = Callable[..., Slip]

TODAY = date(2026, 3, 14)
SUPPLIER, CARRIER = Addressee.SUPPLIER, Addressee.CARRIER


def to_supplier(bench: Bench, slip: Slips, **said: str) -> Report:
    return report_for(bench, SUPPLIER, Wording(**said), slip())


def test_carrier_is_told_of_damage_and_the_supplier_of_the_rest(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    told = {one.claim.addressee: one for one in claims(bench, TODAY)}
    assert [each.kind for each in told[CARRIER].claim.findings] == [FindingKind.DAMAGED]
    assert [each.kind for each in told[SUPPLIER].claim.findings] == [
        FindingKind.WRONG_HAND,
        FindingKind.SHORT,
    ]
    assert {one.delivery.number for one in told.values() if one.delivery} == {1}


def test_the_most_urgent_claim_stands_first(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    first, second = claims(bench, TODAY)
    # Five business days from Thu 12 March end on Thu 19; no calendar, so one day earlier.
    assert first.claim.next is not None
    assert (first.claim.addressee, first.claim.next.send_by) == (CARRIER, date(2026, 3, 18))
    # 30 calendar days end on Sat 11 April: Fri 10, one working day earlier without a calendar.
    assert second.claim.next is not None
    assert second.claim.next.send_by == date(2026, 4, 9)


def test_without_a_delivery_there_is_a_claim_and_no_date(bench: Bench, slip: Slips) -> None:
    counted(bench, slip, "1", "SPAR", 1, damaged=1)
    (claim,) = claims(bench, TODAY)
    assert (claim.delivery, claim.claim.next) == (None, None)


def test_list_of_another_delivery_runs_by_that_ones_clock(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    by_air = replace(FACTS, carriage="air", delivered_on=date(2026, 3, 13), window_days=0)
    record_delivery(bench, lambda _: by_air, slip())
    add_lists(bench, 2, [1], slip())
    assert {(one.delivery.number, one.claim.addressee) for one in claims(bench, TODAY)
            if one.delivery} == {(2, CARRIER), (2, SUPPLIER)}  # fmt: skip


def test_revised_list_stays_with_its_delivery_and_keeps_what_is_expected(
    bench: Bench, slip: Slips
) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    mark_answered(bench, 1, Answer(sends=True), slip())
    came = line("AN3-5A", 2, 2)
    record_match(bench, take_in(bench, a_list(8, came), slip()), slip())
    revised = a_list(9, *(replace(each, row=each.row + 20) for each in LINES))
    number = take_in(bench, revised, slip(), replaces=1)
    told = next(one for one in claims(bench, TODAY) if one.claim.addressee is SUPPLIER)
    assert told.delivery is not None
    assert number in told.delivery.lists
    assert [(each.kind, each.row) for each in told.claim.findings] == [(FindingKind.WRONG_HAND, 22)]


def test_carriers_own_clocks_run_from_its_receipt_of_the_claim(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    assert other_clocks(bench, TODAY) == []
    record_delivery(
        bench, lambda facts: replace(facts, dates={"claim received": date(2026, 3, 13)}), slip(), 1
    )
    # 49 CFR 370: acknowledged within 30 days, answered within 120, then every 60.
    assert [each.deadline.last for each in other_clocks(bench, TODAY)][:2] == [
        date(2026, 4, 12),
        date(2026, 7, 11),
    ]


def test_claim_is_told_once_a_report_that_says_it_all_was_sent(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    mark_sent(bench, 1, "e-mail", "", slip())
    told = {one.claim.addressee: one.told for one in claims(bench, TODAY)}
    assert told == {SUPPLIER: True, CARRIER: False}
    counted(bench, slip, "2", "STRAY", 1)
    assert not any(one.told for one in claims(bench, TODAY))


@pytest.mark.parametrize(
    ("how", "day", "why"),
    [("", TODAY, "by which way"), ("mail", date(2026, 3, 13), "was written on 2026-03-14")],
)
def test_report_is_sent_by_some_way_and_not_before_it_was_written(
    bench: Bench, slip: Slips, how: str, day: date, why: str
) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    with pytest.raises(InventoryError, match=why):
        mark_sent(bench, 1, how, "", replace(slip(), happened_on=day))
    assert reports(bench)[0].events == ()


def test_what_they_will_send_is_expected_by_its_day(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    may = date(2026, 5, 1)
    expected = mark_answered(bench, 1, Answer(sends=True, promised=may), slip())
    assert [(each.wanted.part, each.wanted.hand, each.pieces) for each in expected] == [
        ("RIB-1", Hand.RIGHT, 1),
        ("AN3-5A", Hand.NONE, 2),
    ]
    assert [(each.printed, each.pieces, each.promised) for each in coming(bench)] == [
        ("AN3-5A", 2, may),
        ("RIB-1", 1, may),
        ("HORN", 2, None),
    ]


def test_answer_for_one_line_expects_that_line_only_and_not_twice(
    bench: Bench, slip: Slips
) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    one = Answer(sends=True, only=Asked(part="AN3-5A"), pieces=1)
    for _ in range(2):
        assert [each.pieces for each in mark_answered(bench, 1, one, slip())] == [1]
    with pytest.raises(InventoryError, match="asks for nothing more to be sent"):
        mark_answered(bench, 1, one, slip())


def test_answers_that_make_no_sense_are_refused(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    june, may = date(2026, 6, 1), date(2026, 5, 1)
    for answer, why in (
        (Answer(promised=may), "a date without anything to come"),
        (Answer(sends=True, promised=june, latest=may), "before the promise"),
        (Answer(sends=True, only=Asked(part="NO-SUCH")), "says nothing of NO-SUCH"),
        (Answer(refused=True, only=Asked(part="NO-SUCH")), "says nothing of NO-SUCH"),
        (Answer(sends=True, refused=True), "what is refused isn't sent"),
        (Answer(sends=True, pieces=1), "1 pieces of what"),
        (Answer(sends=True, only=Asked(part="AN3-5A"), pieces=-1), "-1 pieces of what"),
        (Answer(sends=True, only=Asked(part="AN3-5A"), pieces=3), "3 of 2 that are still asked"),
    ):
        with pytest.raises(InventoryError, match=why):
            mark_answered(bench, 1, answer, slip())
    assert reports(bench)[0].events == ()


def test_written_refusal_of_the_carrier_starts_the_time_for_a_suit(
    bench: Bench, slip: Slips
) -> None:
    received(bench, slip)
    report_for(bench, CARRIER, Wording(), slip())
    mark_answered(bench, 1, Answer(refused=True, how="letter"), slip())
    claim = next(one for one in claims(bench, TODAY) if one.claim.addressee is CARRIER)
    # 49 USC 14706(e): not less than two years from the written refusal.
    suits = {each.rule.code: each.last for each in claim.claim.deadlines}
    assert suits["us-truck-suit"] == date(2028, 3, 14)


def test_refused_line_is_named_in_the_record(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    rib = Asked(part="rib-1", hand=Hand.RIGHT)
    mark_answered(bench, 1, Answer(words="none left", refused=True, only=rib), slip())
    mark_answered(bench, 1, Answer(refused=True), slip())
    assert [each.words for each in reports(bench)[0].events] == [
        "REFUSED RIB-1 RIGHT; none left",
        "REFUSED",
    ]


def test_what_was_promised_is_refused_only_after_the_promise_is_undone(
    bench: Bench, slip: Slips
) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    mark_answered(bench, 1, Answer(sends=True), slip())
    no = Answer(refused=True, only=Asked(part="AN3-5A"))
    with pytest.raises(InventoryError, match="an earlier answer to report 1 promised AN3-5A"):
        mark_answered(bench, 1, no, slip())
    undo(bench, slip())
    mark_answered(bench, 1, no, slip())
    assert [each.printed for each in coming(bench)] == ["HORN"]


def test_other_part_in_its_place_is_asked_for_once(bench: Bench, slip: Slips) -> None:
    # Two listed, one of them was another part: one is missing, and one is over.
    received(bench, slip)
    take_in(bench, a_list(9, line("CLIP", 2, 2, crate="3 OF 3")), slip())
    counted(bench, slip, "3", "CLIP", 2, wrong=1)
    close_crate(bench, "3", slip())
    add_lists(bench, 1, [3], slip())
    letter = to_supplier(bench, slip).letter
    clips = [each for each in letter.lines if each.part == "CLIP"]
    assert [(each.kind, each.pieces, each.to_send, each.wanted) for each in clips] == [
        (FindingKind.WRONG_PART, 1, 0, "say what to do with what came"),
        (FindingKind.SHORT, 1, 1, "send what is missing"),
    ]
    assert clips[0].words == "1 piece of another part lay in its place"


def test_six_quantities_of_a_line_with_damage(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    spar = next(each.tally for each in line_tallies(bench) if each.tally.line.part == "SPAR")
    assert (spar.line.ordered, spar.line.shipped, spar.line.back_ordered) == (1, 1, 0)
    assert (spar.pieces_good, spar.pieces_damaged, spar.pieces_wrong) == (0, 1, 0)


def test_list_is_compared_with_the_plan(bench: Bench) -> None:
    # Steps need 8 + 6 bolts, the list holds 12; the spare bolt is left out.
    assert [(one.part, one.pieces) for one in against_plan(bench)] == [("AN3-5A", 2)]


def test_findings_of_one_crate_can_be_asked_for(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    assert {one.part for one in found(bench, "2")} == {"AN3-5A", "HORN"}
