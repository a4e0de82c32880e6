"""A small kit for the command line: stowed, planned, with something short of every kind."""

from __future__ import annotations

from datetime import UTC, date, datetime
from itertools import count
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingLine, PackingList, RowClass, SourceRow
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.putting_away import Putting, add_bins, put
from inventory.jobs.kits import begin_kit
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.stores import open_or_begin
from tests.jobs.shelf import OPENING

if TYPE_CHECKING:
    from pathlib import Path

NOW = datetime(2026, 3, 14, 10, 0, tzinfo=UTC)
_numbers = count(1)

ROWS = (
    ("T2-RIB", 2, Hand.LEFT, 0, "rib, nose"),
    ("T2-RIB", 2, Hand.RIGHT, 0, "rib, nose"),
    ("T2-SPAR", 1, Hand.NONE, 0, "spar, front"),
    ("AN3-5A", 12, Hand.NONE, 0, "bolt"),
    ("T2-ANGLE", 2, Hand.NONE, 1_219_200_000, "angle 3/4 x 3/4"),
)
PACKING_LIST = PackingList(
    source="list.xlsx",
    sha256="a" * 64,
    supplier="Curlew Slip Kit Works",
    rows=tuple(
        SourceRow("List", row, RowClass.PART, "a part number", (part[0], "1"))
        for row, part in enumerate(ROWS, 2)
    ),
    lines=(
        *(
            PackingLine(
                sheet="List", row=row, part=part, printed=part, description=words, hand=hand,
                ordered=pieces, shipped=pieces, length=length, crate="1 OF 1",
            )
            for row, (part, pieces, hand, length, words) in enumerate(ROWS, 2)
        ),
        PackingLine(
            sheet="List", row=9, part="T2-SKIN", printed="T2-SKIN", description="skin",
            ordered=1, shipped=0, back_ordered=1, remark="B/O",
        ),
    ),
)  # fmt: skip
PLAN = Plan(
    source="plan.xlsx",
    sha256="b" * 64,
    steps=(
        Step(code="10-01", title="Rivet the ribs", section="10", makes="T2-FRAME", days=2),
        Step(code="10-02", title="Bolt the spar", section="10", after=("10-01",), days=1),
        Step(code="10-03", title="Close", section="11", days=3),
        Step(code="10-04", title="Clips", section="11"),
    ),
    needs=(
        Need(step="10-01", part="T2-RIB", hand=Hand.LEFT, quantity=2, sheet="S1", find_number="3"),
        Need(step="10-01", part="T2-RIB", hand=Hand.RIGHT, quantity=2, sheet="S1", find_number="3"),
        Need(step="10-02", part="T2-SPAR", quantity=1, sheet="S1", find_number="4"),
        Need(step="10-02", part="AN3-5A", quantity=8, kind=NeedKind.HARDWARE),
        Need(step="10-02", part="T2-FRAME", quantity=1),
        Need(step="10-03", part="AN3-5A", quantity=6, kind=NeedKind.HARDWARE),
        Need(step="10-03", part="T2-SKIN", quantity=1, prepared="primed"),
        Need(
            step="10-04", part="T2-ANGLE", quantity=31, kind=NeedKind.CUT, length=75_000_000,
            sheet="S2",
        ),
    ),
)  # fmt: skip
BINS = (
    ("A", "T2-RIB", 2, Hand.LEFT),
    ("B", "T2-RIB", 1, Hand.RIGHT),
    ("C", "AN3-5A", 12, Hand.NONE),
    ("C", "T2-SPAR", 1, Hand.NONE),
    ("RACK", "T2-ANGLE", 2, Hand.NONE),
)


def new_slip(note: str = "") -> Slip:
    return Slip(
        key=f"small-{next(_numbers)}",
        recorded_at=NOW,
        happened_on=date(2026, 3, 14),
        person="Ana",
        note=note,
    )


def build(path: Path) -> None:
    """Make the store: T2-RIB RIGHT and AN3-5A are short, T2-SKIN is on back-order."""
    store = open_or_begin(str(path))
    bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
    take_in(bench, PACKING_LIST, new_slip())
    take_in_plan(bench, PLAN, new_slip())
    add_bins(bench, sorted({row[0] for row in BINS}), "", new_slip())
    puttings = [
        Putting(Taking(Asked(part=part, hand=hand), pieces, OPENING), bin_)
        for bin_, part, pieces, hand in BINS
    ]
    put(bench, puttings, new_slip())
    store.close()
