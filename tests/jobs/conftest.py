"""A small kit on a migrated store: two crates, three steps, everything counted by hand."""

from __future__ import annotations

import shutil
from datetime import UTC, date, datetime
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.items import Hand
from inventory.core.lists.packing import PackingLine, PackingList, RowClass, SourceRow
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.record.slips import Slip
from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.jobs.lists.unpacking import take_in
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.record.exporting import export
from inventory.jobs.stores import open_or_begin
from tests.jobs.recorded import as_csv, opened, recorded

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

NOW = datetime(2026, 3, 14, 10, 0, tzinfo=UTC)
_numbers = count(1)


def make_slip(note: str = "", key: str = "") -> Slip:
    return Slip(
        key=key or f"slip-{next(_numbers)}",
        recorded_at=NOW,
        happened_on=date(2026, 3, 14),
        person="Ana",
        note=note,
    )


@pytest.fixture
def slip() -> Callable[..., Slip]:
    return make_slip


def line(part: str, row: int, pieces: int, **more: Any) -> PackingLine:  # noqa: ANN401
    return PackingLine(
        sheet="List", row=row, part=part, printed=part, ordered=pieces, shipped=pieces, **more
    )


LINES = (
    line("RIB-1", 2, 2, hand=Hand.LEFT, crate="1 OF 2"),
    line("RIB-1", 2, 2, hand=Hand.RIGHT, crate="1 OF 2"),
    line("SPAR", 3, 1, crate="1 OF 2"),
    line("AN3-5A", 4, 12, crate="2 OF 2", bag="H1"),
    line("ANGLE", 5, 1, crate="2 OF 2", length=1_219_200_000),
)

PACKING_LIST = PackingList(
    source="list.xlsx",
    sha256="a" * 64,
    supplier="Curlew Slip Kit Works",
    rows=(
        SourceRow("List", 1, RowClass.HEAD, "column headings", ("PART", "QTY")),
        *(
            SourceRow("List", row, RowClass.PART, "a part number", (part, "1"))
            for row, part in ((2, "RIB-1"), (3, "SPAR"), (4, "AN3-5A"), (5, "ANGLE"))
        ),
    ),
    lines=LINES,
)

PLAN = Plan(
    source="plan.xlsx",
    sha256="b" * 64,
    steps=(
        Step(code="10-01", title="Rivet the ribs", makes="FRAME"),
        Step(code="10-02", title="Bolt the spar", after=("10-01",)),
        Step(code="10-03", title="Close"),
    ),
    needs=(
        Need(step="10-01", part="RIB-1", hand=Hand.LEFT, quantity=2, sheet="S1", find_number="3"),
        Need(step="10-01", part="RIB-1", hand=Hand.RIGHT, quantity=2),
        Need(step="10-02", part="SPAR", quantity=1),
        Need(step="10-02", part="AN3-5A", quantity=8, spare=1),
        Need(step="10-02", part="FRAME", quantity=1),
        Need(step="10-03", part="AN3-5A", quantity=6),
    ),
)


@pytest.fixture(scope="session")
def recorded_folder(migrated_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """Record a store with a photograph once; tests copy the folder."""
    folder = tmp_path_factory.mktemp("recorded")
    with opened(str(shutil.copy(migrated_file, folder / "kits.kitwright"))) as store:
        recorded(store)
        export(store, folder / "record", as_csv)
    return folder


@pytest.fixture
def kept(recorded_folder: Path, tmp_path: Path) -> str:
    """Return the address of a recorded store of the test's own."""
    shutil.copytree(recorded_folder, tmp_path / "kept")
    return str(tmp_path / "kept" / "kits.kitwright")


@pytest.fixture
def bench(tmp_path: Path) -> Iterator[Bench]:
    store = open_or_begin(str(tmp_path / "kits.kitwright"))
    kit = begin_kit(store, "Tarn T2", "T2", NOW)
    at = Bench(store, kit)
    take_in(at, PACKING_LIST, make_slip())
    take_in_plan(at, PLAN, make_slip())
    yield at
    store.close()


@pytest.fixture
def exported(kept: str) -> Path:
    return Path(kept).parent / "record"
