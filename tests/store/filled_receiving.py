"""Rows in every table of receiving, written through the store's own functions."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.measures.days import CountedDays
from inventory.core.parts.measuring import Dimension
from inventory.core.planning.shelf_life import LifeType, ShelfLife
from inventory.core.receiving.arrivals import Arrival, Expected, Promise, Wanted
from inventory.core.receiving.delivery import DeliveryFacts, PackageException, PackageState
from inventory.core.receiving.findings import Addressee, FindingKind
from inventory.core.receiving.reporting import Letter, LetterDue, LetterLine, LetterPhoto
from inventory.core.receiving.weighing import GRAM, Sample, Weighing
from inventory.jobs.acts import acting
from inventory.store.planning.lots import Film, Lot, add_film, save_lot
from inventory.store.receiving.arrivals import add_arrivals, add_expected, add_promises
from inventory.store.receiving.deliveries import add_delivery, add_exception, save_facts, tie_lists
from inventory.store.receiving.identifications import (
    Identification,
    add_identification,
    add_verdict,
)
from inventory.store.receiving.photo_records import PhotoOf, add_photo
from inventory.store.receiving.photos import KeptPhoto
from inventory.store.receiving.reports import ReportEvent, add_report, add_report_event
from inventory.store.receiving.return_notes import ReturnNote, add_return_note
from inventory.store.receiving.weighings import add_weighing
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Act, Bench

RIB = Wanted("T2-RU-0412", Hand.LEFT)

FACTS = DeliveryFacts(
    supplier="Curlew Slip Kit Works",
    carrier="Tern Freight",
    carriage="road",
    sale="sale-international",
    order="4711",
    invoice="R 12, 2026-11-02",
    bill_of_lading="BL 9",
    pro_number="77-1",
    delivered_on=date(2026, 11, 20),
    place="Slipway 3",
    country="DE",
    region="HH",
    packages_advised=3,
    packages_counted=2,
    seals="1 OF 3: 00417",
    late=True,
    window_days=30,
    window_count=CountedDays.BUSINESS,
    dates={"discovery": date(2026, 11, 24)},
)
EXCEPTION = PackageException(
    crate="3 OF 3", state=PackageState.MISSING, words="never came", on_receipt=True
)
LETTER = Letter(
    addressee=Addressee.SUPPLIER,
    recipient="Curlew Slip Kit Works\nSlipway 1",
    sender="Ada",
    text="Größe ½ fehlt.",
    delivered_on=date(2026, 11, 20),
    lines=(
        LetterLine(
            kind=FindingKind.SHORT,
            part=RIB.part,
            printed="T2‑RU‑0412",
            hand=RIB.hand,
            pieces=1,
            packing_list=2,
            sheet="Tabelle 1",
            row=2,
            difference="1",
        ),
    ),
    due=(LetterDue(printed="T2-RU-0412", quantity="1", promised="2027-01-10"),),
    photos=(LetterPhoto("e" * 64, "jpg", "crate 2"),),
)
WEIGHING = Weighing(
    sample=Sample((12 * GRAM, 13 * GRAM), 25, 0.01),
    gross=100 * GRAM,
    tare=2 * GRAM,
    step=GRAM // 10,
    sample_in_batch=True,
)
LOT = Lot(
    part="T2-SEALANT",
    lot="Lös 7",
    certificate="C 12",
    shelf=ShelfLife(
        life=LifeType.EXTENDIBLE,
        made=date(2026, 1, 31),
        months=12,
        expires=date(2026, 12, 31),
        opened=date(2026, 11, 2),
        open_days=90,
        failed_test=True,
    ),
)
MEASURED = Identification(
    number=1,
    crate="1 OF 3",
    bag="H1",
    part=RIB.part,
    hand=RIB.hand,
    pieces=2,
    sizes={Dimension.THICKNESS: 812_800, Dimension.LENGTH: 254_000_000},
    holes=0,
    tail=840_000,
    by="Ada",
)


def fill_receiving(bench: Bench) -> None:
    """Record a delivery, a claim and its answer, a lot, and a part known by its measures."""
    with acting(bench, "delivery record", slip("r-1")) as act:
        _delivery(act)
    with acting(bench, "claims report", slip("r-2")) as act:
        _claim(act)
    with acting(bench, "lot record", slip("r-3")) as act:
        kit, number = act.kit.id, act.recorded.id
        save_lot(act.db, kit, number, LOT)
        add_film(act.db, kit, number, Film(part=RIB.part, hand=RIB.hand, since=date(2026, 11, 1)),
                 on=True)  # fmt: skip
        found = add_identification(act.db, kit, number, MEASURED)
        add_verdict(act.db, kit, number, found, "confirmed")


def _delivery(act: Act) -> None:
    kit, number = act.kit.id, act.recorded.id
    delivery = add_delivery(act.db, kit, number)
    save_facts(act.db, kit, number, delivery, FACTS)
    add_exception(act.db, kit, number, delivery, EXCEPTION)
    tie_lists(act.db, kit, number, delivery, [2])
    kept = KeptPhoto("e" * 64, "jpg", 640, 480, "IMG 1.JPG")
    add_photo(act.db, kit, number, kept, PhotoOf(caption="lid", delivery=delivery, crate="3 OF 3"))
    add_photo(act.db, kit, number, kept, PhotoOf(part=RIB.part))
    add_weighing(act.db, kit, number, 1, WEIGHING)


def _claim(act: Act) -> None:
    kit, number = act.kit.id, act.recorded.id
    report = add_report(act.db, kit, number, 1, LETTER)
    sent = ReportEvent(event="sent", on=date(2026, 11, 24), how="e-mail", words="with photos")
    add_report_event(act.db, kit, number, report, sent)
    expected = Expected(
        id=1, report=report, kind=FindingKind.SHORT, wanted=RIB, printed="T2‑RU‑0412", pieces=1,
        packing_list=2, sheet="Tabelle 1", row=2, crate="1 OF 3", bag="H1",
    )  # fmt: skip
    add_expected(act.db, kit, number, [expected])
    promised = Promise(
        slip=number, wanted=RIB, pieces=1, promised=date(2027, 1, 10), latest=date(2027, 1, 20),
        words="by telephone", report=report,
    )  # fmt: skip
    add_promises(act.db, kit, number, [promised])
    came = Arrival(slip=number, line=2, expected=1, pieces=1, wanted=RIB)
    filled = Arrival(slip=number, line=1, closes=2, pieces=1, wanted=RIB)
    add_arrivals(act.db, kit, number, [came, filled])
    add_return_note(act.db, kit, number, ReturnNote(recipient="Curlew", reference="RMA 5"))
