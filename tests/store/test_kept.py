"""Stores of earlier schemas open, are brought up to date, and hold what they held."""

from __future__ import annotations

import gzip
import sqlite3
from contextlib import closing, suppress
from pathlib import Path

import pytest

from inventory.core.errors import InventoryError, StoreError
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.jobs.record.exporting import RECORD, export, export_what_reads
from inventory.jobs.record.verifying import verify
from inventory.jobs.stores import open_store
from inventory.store.ledger.slips import all_slips, undone_slips
from inventory.store.ledger.stock import lying
from inventory.store.opening.database import SCHEMA
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.counts import all_counts
from inventory.store.receiving.packing_lists import lines_of
from inventory.store.record.backup_files import backups_in


def schema_of_kept(path: Path) -> int:
    return int(path.name.removeprefix("schema_").partition(".")[0])


KEPT = sorted((Path(__file__).parent / "kept").glob("schema_*.kitwright.gz"), key=schema_of_kept)
RIB = Item("T2-RU-0412", Hand.LEFT, lot="Lös 7")
TUBE = Item("T2-TU-1", length=1_219_200_000)
HELD = {
    (Place(PlaceKind.BIN, "B-07"), RIB): 2,
    (Place(PlaceKind.BIN, "B-07"), Item(RIB.part, RIB.hand, RIB.lot, state=State.WORKED)): 1,
    (Place(PlaceKind.BIN, "B-07"), TUBE): 2,
    (Place(PlaceKind.HOLD, "HOLD"), RIB): 1,
    (Place(PlaceKind.MADE), RIB): 1,
    (Place(PlaceKind.MADE), Item(RIB.part, RIB.hand, RIB.lot, state=State.WORKED)): -1,
    (Place(PlaceKind.SUPPLIER), RIB): -4,
    (Place(PlaceKind.SUPPLIER), TUBE): -2,
}
"""Four ribs came, one on hold, one trimmed; two tubes came. Issued pieces were taken back."""


@pytest.mark.parametrize("kept", KEPT, ids=[path.name.partition(".")[0] for path in KEPT])
def test_a_kept_store_is_brought_up_with_equal_balances(kept: Path, tmp_path: Path) -> None:
    path = tmp_path / "kits.kitwright"
    path.write_bytes(gzip.decompress(kept.read_bytes()))
    with closing(open_store(str(path))) as store:
        assert verify(store).problems == ()
        with store.reading() as db:
            assert {(lies.place, lies.item): lies.quantity for lies in lying(db, 1)} == HELD
            assert [each.act for each in all_slips(db, 1)][-2:] == ["undo", "take-back"]
            assert undone_slips(db, 1) == {6}
            assert [line.printed for line in lines_of(db, 1, 1)] == ["T2‑RU‑0412"]
            assert [step.code for step in current_plan(db, 1).steps] == ["10-01", "10-02"]
            assert [each.count.pieces_good for each in all_counts(db, 1)] == [3]
    made = [note.schema for _, note in backups_in(tmp_path / "backups")]
    assert made == [each for each in [schema_of_kept(kept)] if each < SCHEMA]


def test_a_store_that_was_brought_up_is_not_brought_down(tmp_path: Path) -> None:
    """An older program meets a higher number, and refuses it untouched."""
    path = tmp_path / "kits.kitwright"
    path.write_bytes(gzip.decompress(KEPT[0].read_bytes()))
    with closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA user_version = {SCHEMA + 1}")
    before = path.read_bytes()
    with pytest.raises(StoreError, match="of a newer Kitwright"):
        open_store(str(path))
    assert path.read_bytes() == before


def test_a_store_of_every_schema_is_kept() -> None:
    """Since the fourth; the sixth came together with the seventh and was never the newest."""
    assert [schema_of_kept(path) for path in KEPT] == [4, 5, *range(7, SCHEMA + 1)]


@pytest.mark.parametrize("share", [50, 90])
@pytest.mark.parametrize("kept", KEPT, ids=[path.name.partition(".")[0] for path in KEPT])
def test_of_a_kept_store_brought_up_and_cut_off_only_true_rows_come_out(
    kept: Path, share: int, tmp_path: Path
) -> None:
    """Its tables lie elsewhere than those of a store begun anew."""
    path = tmp_path / "kits.kitwright"
    path.write_bytes(gzip.decompress(kept.read_bytes()))
    with closing(open_store(str(path))) as store:
        export(store, tmp_path / "whole", lambda _: b"")
    whole = (tmp_path / "whole" / RECORD).read_bytes().splitlines()
    content = path.read_bytes()
    path.write_bytes(content[: len(content) * share // 100])
    saved: list[bytes] = []
    with suppress(InventoryError):
        export_what_reads(str(path), tmp_path / "saved")
        saved = (tmp_path / "saved" / RECORD).read_bytes().splitlines()[1:-1]
    assert set(saved) <= set(whole)
