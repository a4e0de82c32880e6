"""A small store with rows in every table, written through the store's own functions."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.items import Hand, Item, Measure, State
from inventory.core.lists.packing import PackingLine, PackingList, RowClass, SourceRow
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, NeedKind, PartSize, Plan, Step
from inventory.core.receiving.counts import Count, Remark
from inventory.core.record.ledger import Movement, reversal
from inventory.jobs.acts import acting
from inventory.store.devices import add_device, invite
from inventory.store.ledger.answers import StoredAnswer, add_answer
from inventory.store.ledger.events import add_crate_event, add_step_event
from inventory.store.ledger.tags import tags_for
from inventory.store.planning.plans import save_plan
from inventory.store.receiving.counts import RecordedCount, add_counts
from inventory.store.receiving.packing_lists import save_list
from tests.conftest import slip
from tests.store.filled_planning import fill_planning
from tests.store.filled_receiving import fill_receiving

if TYPE_CHECKING:
    from inventory.jobs.acts import Act, Bench

RIB = Item("T2-RU-0412", Hand.LEFT, lot="Lös 7")
TUBE = Item("T2-TU-1", length=1_219_200_000)
SUPPLIER = Place(PlaceKind.SUPPLIER)
CRATE = Place(PlaceKind.CRATE, "1 OF 3")
BIN = Place(PlaceKind.BIN, "B-07")
STEP = Place(PlaceKind.STEP, "10-02")
MADE = Place(PlaceKind.MADE)

PACKING_LIST = PackingList(
    source="Liste für T2.xlsx",
    sha256="a" * 64,
    supplier="Curlew Slip Kit Works",
    order="4711",
    revision="B",
    rows=(
        SourceRow("Tabelle 1", 1, RowClass.HEAD, "column headings", ("PART", "QTY")),
        SourceRow("Tabelle 1", 2, RowClass.PART, "a part number", ("T2-RU-0412", '2 "ea"', "½")),
    ),
    lines=(
        PackingLine(
            sheet="Tabelle 1",
            row=2,
            part=RIB.part,
            printed="T2‑RU‑0412",
            description="Rib, nose — Größe ½ ✈",
            hand=Hand.LEFT,
            ordered=4,
            shipped=3,
            back_ordered=1,
            crate="1 OF 3",
            bag="H1",
            sub_kit="Rudder",
            revision="C",
            remark="to follow",
        ),
    ),
)

PLAN = Plan(
    source="plan.xlsx",
    sha256="b" * 64,
    steps=(
        Step(code="10-01", title="Trim the ribs", makes="T2-FRAME", makes_hand=Hand.RIGHT, row=2),
        Step(
            code="10-02",
            title="Rivet",
            section="10",
            sub_assembly="Nose",
            after=("10-01",),
            days=2,
            row=3,
            where="Steps A3",
        ),
    ),
    needs=(
        Need(
            step="10-02",
            part=RIB.part,
            hand=Hand.LEFT,
            quantity=2,
            spare=1,
            sheet="S 12",
            find_number="3",
            revision="B",
            prepared="deburred, primed",
            kind=NeedKind.HARDWARE,
            printed="T2‑RU‑0412",
            description="Rib, nose — Größe ½ ✈",
            row=9,
            where="Needs B9",
        ),
        Need(
            step="10-02",
            part=TUBE.part,
            length=300_000_000,
            quantity=1,
            as_required=True,
            one_of="tube",
            measure=Measure.LENGTH,
        ),
    ),
    notes=("column WEIGHT: has no meaning for a plan",),
    sizes=(
        PartSize(part=RIB.part, hand=RIB.hand, thickness=812_800, length=254_000_000, holes=0),
        PartSize(part=TUBE.part, width=25_400_000),
    ),
)


COUNT = Count(
    part=RIB.part,
    hand=RIB.hand,
    lot=RIB.lot,
    crate="1 OF 3",
    bag="H1",
    pieces_good=3,
    pieces_damaged=1,
    remarks=frozenset(list(Remark)[:1]),
    expires=date(2028, 2, 29),
    by="Ada",
)


def fill(bench: Bench, *, devices: bool = True) -> None:
    """Record acts of each kind, an undone one among them."""
    kit = bench.kit.id
    with acting(bench, "packing-list read", slip("s-1")) as act:
        save_list(act.db, kit, act.recorded.id, PACKING_LIST)
    with acting(bench, "packing-list read", slip("s-2")) as act:
        save_list(act.db, kit, act.recorded.id, PACKING_LIST, replaces=1)
    with acting(bench, "plan read", slip("s-3")) as act:
        save_plan(act.db, kit, act.recorded.id, PLAN)
    with acting(bench, "crate count", slip("s-4", note="Deckel lose")) as act:
        _count(act)
    with acting(bench, "bin put", slip("s-5")) as act:
        act.move([Movement(RIB, 3, CRATE, BIN), Movement(TUBE, 2, SUPPLIER, BIN)])
    with acting(bench, "issue", slip("s-6", asked="digest")) as act:
        act.move([Movement(RIB, 2, BIN, STEP)])
        add_step_event(act.db, kit, act.recorded.id, "10-02", "started")
        add_answer(act.db, kit, "s-6", StoredAnswer("digest", 200, '{"ok": true}'))
    with acting(bench, "undo", slip("s-7"), undoes=6) as act:
        act.move([reversal(Movement(RIB, 2, BIN, STEP))])
    with acting(bench, "take-back", slip("s-8")) as act:
        worked = Item(RIB.part, RIB.hand, RIB.lot, state=State.WORKED)
        act.move([Movement(RIB, 1, BIN, MADE), Movement(worked, 1, MADE, BIN)])
    with bench.store.writing(kit) as db:
        tags_for(db, bench.kit, [BIN, RIB])
    if not devices:
        return
    with bench.store.writing() as db:
        invite(db, "c" * 64, "2026-11-25T10:10:00+00:00")
        add_device(db, "Phone", "Ada", "d" * 64, "2026-11-25T10:05:00+00:00")
    fill_receiving(bench)
    fill_planning(bench)


def _count(act: Act) -> None:
    add_crate_event(act.db, act.kit.id, act.recorded.id, "1 OF 3", "opened")
    counted = RecordedCount(0, 0, COUNT, "T2-RU-0412", recount=False, note="nass")
    add_counts(act.db, act.kit.id, act.recorded.id, [counted])
    hold = Place(PlaceKind.HOLD, "HOLD")
    act.move([Movement(RIB, 3, SUPPLIER, CRATE), Movement(RIB, 1, SUPPLIER, hold)])
