from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand, Measure
from inventory.core.receiving.findings import Addressee, FindingKind
from inventory.jobs.bench.undoing import undo
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.receiving.deliveries import record_delivery
from inventory.jobs.receiving.findings_today import numbers_of
from inventory.jobs.receiving.letters import (
    Wording,
    default_text,
    report_by_number,
    report_for,
    reports,
)
from inventory.jobs.receiving.photographs import PhotoOf, photograph
from inventory.jobs.receiving.receiving import found
from tests.jobs.conftest import line
from tests.jobs.received import FACTS, a_list, counted, received
from tests.jobs.receiving.test_photographs import jpeg

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.reports import Report

    Slips = Callable[..., Slip]

SUPPLIER, CARRIER = Addressee.SUPPLIER, Addressee.CARRIER


def to_supplier(bench: Bench, slip: Slips, **said: str) -> Report:
    return report_for(bench, SUPPLIER, Wording(**said), slip())


def test_report_says_what_differs_with_its_evidence(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    letter = to_supplier(bench, slip).letter
    came, missing, bolts = letter.lines
    assert (came.kind, came.hand, came.pieces, came.to_send) == (
        FindingKind.WRONG_HAND, Hand.LEFT, 1, 0,
    )  # fmt: skip
    assert (missing.hand, missing.to_send, missing.wanted) == (Hand.RIGHT, 1, "send it")
    assert (bolts.part, bolts.shipped, bolts.received, bolts.difference, bolts.code) == (
        "AN3-5A", "12", "10", "2", "SF 364 S1",
    )  # fmt: skip
    assert bolts.evidence == "counted 10 by Ana on 2026-03-14"
    assert (letter.recipient, letter.shipment) == ("Curlew Slip Kit Works", "bill of lading BL-9")
    assert [(due.printed, due.quantity, due.promised) for due in letter.due] == [
        ("HORN", "2", "no date")
    ]


def test_what_is_counted_by_volume_is_told_in_the_lists_unit(bench: Bench, slip: Slips) -> None:
    paint = line("PAINT", 9, 6 * 10**12, crate="2 OF 2", measure=Measure.VOLUME, unit="MLT")
    take_in(bench, a_list(8, paint), slip())
    received(bench, slip)
    counted(bench, slip, "2", "PAINT", "4500 ML")
    (told,) = [each for each in to_supplier(bench, slip).letter.lines if each.part == "PAINT"]
    assert (told.unit, told.shipped, told.received, told.difference) == (
        "millilitre", "6000", "4500", "1500",
    )  # fmt: skip
    assert told.evidence == "counted 4500 millilitre by Ana on 2026-03-14"
    short = sorted(found(bench, "2"), key=lambda one: one.part)
    assert numbers_of(bench, [short[0], short[-1]]) == [
        ("12", "10", "2"),
        ("6000", "4500", "1500"),
    ]


def test_back_order_is_no_matter_of_the_carrier(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    report = report_for(bench, CARRIER, Wording(), slip())
    assert (report.letter.due, report.letter.recipient) == ((), "Tern Freight")
    assert [line.part for line in report.letter.lines] == ["SPAR"]


def test_nothing_new_to_say_keeps_the_number(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    first = to_supplier(bench, slip)
    again = to_supplier(bench, slip)
    assert (first.number, again.number, len(reports(bench))) == (1, 1, 1)
    counted(bench, slip, "2", "STRAY", 1)
    assert to_supplier(bench, slip).number == 2


def test_old_report_prints_as_it_was_written(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    first = to_supplier(bench, slip)
    counted(bench, slip, "2", "STRAY", 1)
    assert report_by_number(bench, 1) == first


def test_own_words_are_kept_for_the_next_letter(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    assert "not claimed here" in default_text(bench, SUPPLIER)
    to_supplier(bench, slip, text="Dear Curlew", recipient="Curlew\nSlipway 1", sender="Class")
    counted(bench, slip, "2", "STRAY", 1)
    letter = to_supplier(bench, slip).letter
    assert (letter.text, letter.recipient, letter.sender) == (
        "Dear Curlew", "Curlew\nSlipway 1", "Class",
    )  # fmt: skip
    assert default_text(bench, SUPPLIER) == "Dear Curlew"


def test_photos_of_its_crates_and_parts_go_into_the_report(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    photograph(bench, [("a.jpg", jpeg("red"))], PhotoOf(crate="1", caption="lid"), slip())
    photograph(bench, [("b.jpg", jpeg("blue"))], PhotoOf(part="ANGLE"), slip())
    photograph(bench, [("c.jpg", jpeg("green"))], PhotoOf(delivery=1), slip())
    photos = report_for(bench, CARRIER, Wording(), slip()).letter.photos
    assert [each.caption for each in photos] == ["1 OF 2 lid", "c.jpg"]


def test_report_to_nobody_is_refused(bench: Bench, slip: Slips) -> None:
    with pytest.raises(NotFoundError, match="nothing to tell the supplier"):
        to_supplier(bench, slip)
    with pytest.raises(NotFoundError, match="there is no report 9"):
        report_by_number(bench, 9)
    counted(bench, slip, "1", "SPAR", 1, damaged=1)
    with pytest.raises(InventoryError, match="who is the carrier"):
        report_for(bench, CARRIER, Wording(), slip())
    assert reports(bench) == []


def test_several_deliveries_ask_which_is_meant(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    record_delivery(bench, lambda _: FACTS, slip(), lists=[2])
    counted(bench, slip, "2", "HORN", 2, bag="X")
    with pytest.raises(InventoryError, match="several deliveries: 1, 2"):
        to_supplier(bench, slip)
    assert report_for(bench, SUPPLIER, Wording(), slip(), 2).delivery == 2


def test_undone_report_gives_its_number_back_to_nobody(bench: Bench, slip: Slips) -> None:
    received(bench, slip)
    to_supplier(bench, slip)
    undo(bench, slip())
    assert reports(bench) == []
    assert to_supplier(bench, slip).number == 2
