"""What is written of receiving is read back as it was written, on both databases."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.receiving.arrivals import Expected, ListedLine, Promise
from inventory.core.receiving.findings import Addressee
from inventory.jobs.acts import acting
from inventory.store.planning.lots import Film, add_film, all_lots, films
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.arrivals import (
    add_promises,
    all_arrivals,
    all_expected,
    all_promises,
)
from inventory.store.receiving.deliveries import all_deliveries, save_facts
from inventory.store.receiving.identifications import WAITING, identifications
from inventory.store.receiving.packing_lists import listed_lines
from inventory.store.receiving.photo_records import all_photos, photo_folder
from inventory.store.receiving.reports import all_reports
from inventory.store.receiving.return_notes import ReturnNote, return_notes
from inventory.store.receiving.weighings import weighings
from tests.conftest import slip
from tests.store.filled import PACKING_LIST, PLAN, fill
from tests.store.filled_receiving import EXCEPTION, FACTS, LETTER, LOT, MEASURED, RIB, WEIGHING

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


def undo(bench: Bench, slip_number: int) -> None:
    with acting(bench, "undo", slip(f"u-{slip_number}"), undoes=slip_number):
        pass


def test_delivery_is_read_back_whole(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (delivery,) = all_deliveries(db, bench.kit.id)
        photos = all_photos(db, bench.kit.id)
    assert (delivery.number, delivery.facts, delivery.exceptions) == (1, FACTS, (EXCEPTION,))
    assert delivery.lists == (2,)
    assert delivery.noted_on_receipt == "crate 3 OF 3: never came"
    assert [(one.of.caption, one.of.delivery, one.of.part) for one in photos] == [
        ("lid", 1, ""),
        ("", None, RIB.part),
    ]


def test_newest_facts_of_a_delivery_count_until_they_are_undone(bench: Bench) -> None:
    fill(bench)
    changed = replace(FACTS, delivered_on=date(2026, 11, 21), dates={})
    with acting(bench, "delivery record", slip("r-9")) as act:
        save_facts(act.db, bench.kit.id, act.recorded.id, 1, changed)
        number = act.recorded.id
    with bench.store.reading() as db:
        assert all_deliveries(db, bench.kit.id)[0].facts == changed
    undo(bench, number)
    with bench.store.reading() as db:
        assert all_deliveries(db, bench.kit.id)[0].facts == FACTS


def test_report_is_read_back_as_it_was_written(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (report,) = all_reports(db, bench.kit.id)
        notes = return_notes(db, bench.kit.id)
    assert (report.number, report.delivery, report.letter) == (1, 1, LETTER)
    assert (report.addressee, report.sent) == (Addressee.SUPPLIER, True)
    assert [str(each) for each in report.events] == ["sent, e-mail: with photos"]
    assert list(notes.values()) == [ReturnNote(recipient="Curlew", reference="RMA 5")]


def test_what_is_expected_promised_and_came_is_read_back(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (expected,) = all_expected(db, bench.kit.id)
        (promise,) = all_promises(db, bench.kit.id)
        came = all_arrivals(db, bench.kit.id)
    assert isinstance(expected, Expected)
    assert (expected.wanted, expected.packing_list, expected.row) == (RIB, 2, 2)
    assert (promise.promised, promise.latest) == (date(2027, 1, 10), date(2027, 1, 20))
    assert (promise.words, promise.report) == ("by telephone", 1)
    assert [(one.line, one.closes, one.expected, one.wanted) for one in came] == [
        (2, None, 1, RIB),
        (1, 2, None, RIB),
    ]


def test_promise_may_be_taken_back(bench: Bench) -> None:
    fill(bench)
    with acting(bench, "claims promised", slip("r-9")) as act:
        none = Promise(slip=0, wanted=RIB, promised=None)
        add_promises(act.db, bench.kit.id, act.recorded.id, [none])
    with bench.store.reading() as db:
        assert [one.promised for one in all_promises(db, bench.kit.id)] == [date(2027, 1, 10), None]


def test_lots_film_weighings_and_measures_are_read_back(bench: Bench) -> None:
    fill(bench)
    kit = bench.kit.id
    with bench.store.reading() as db:
        assert all_lots(db, kit) == {(LOT.part, LOT.lot): LOT}
        assert films(db, kit) == [Film(part=RIB.part, hand=RIB.hand, since=date(2026, 11, 1))]
        assert weighings(db, kit) == {1: WEIGHING}
        assert identifications(db, kit) == [replace(MEASURED, state="confirmed")]
        assert current_plan(db, kit) == PLAN


def test_film_taken_off_is_no_more_on(bench: Bench) -> None:
    fill(bench)
    off = Film(part=RIB.part, hand=RIB.hand, since=date(2026, 11, 20))
    with acting(bench, "lot film", slip("r-9")) as act:
        add_film(act.db, bench.kit.id, act.recorded.id, off, on=False)
    with bench.store.reading() as db:
        assert films(db, bench.kit.id) == []


def test_undone_acts_leave_nothing_of_receiving(bench: Bench) -> None:
    fill(bench)
    kit = bench.kit.id
    for number in (9, 10, 11):
        undo(bench, number)
    with bench.store.reading() as db:
        assert (all_deliveries(db, kit), all_photos(db, kit), all_reports(db, kit)) == ([], [], [])
        assert (all_expected(db, kit), all_promises(db, kit), all_arrivals(db, kit)) == ([], [], [])
        assert (all_lots(db, kit), films(db, kit), identifications(db, kit)) == ({}, [], [])
        assert return_notes(db, kit) == {}


def test_part_without_a_verdict_waits_for_a_second_person(bench: Bench) -> None:
    from inventory.store.receiving.identifications import add_identification  # noqa: PLC0415

    fill(bench)
    with acting(bench, "identify", slip("r-9")) as act:
        add_identification(act.db, bench.kit.id, act.recorded.id, MEASURED)
    with bench.store.reading() as db:
        assert identifications(db, bench.kit.id)[-1].state == WAITING


def test_lines_come_with_their_own_number_and_their_lists(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        lines = listed_lines(db, bench.kit.id)
    assert lines == [ListedLine(2, 2, PACKING_LIST.lines[0])]


def test_photographs_lie_beside_the_stores_file() -> None:
    assert photo_folder("kits.kitwright").name == "kits.kitwright.photos"
    shared = photo_folder("postgresql://ada@localhost/club")
    assert shared.name == "club.photos"
