"""What can still be read of a store that was cut off, or lost pages: true rows, nothing made up."""

from __future__ import annotations

import random
import shutil
from contextlib import closing
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import begin_kit
from inventory.jobs.record.exporting import RECORD, export, export_what_reads
from inventory.store.opening.database import open_store
from tests.conftest import NOW, slip
from tests.jobs.recorded import as_csv
from tests.store.filled import BIN, RIB, SUPPLIER, fill

if TYPE_CHECKING:
    from pathlib import Path


@pytest.fixture(scope="module")
def full_day(
    tmp_path_factory: pytest.TempPathFactory, migrated_file: Path
) -> tuple[bytes, frozenset[bytes]]:
    """Return a store with a row in every table and 600 movements, and the lines of its export."""
    folder = tmp_path_factory.mktemp("day")
    path = folder / "store.kitwright"
    shutil.copyfile(migrated_file, path)
    with closing(open_store(str(path))) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        fill(bench)
        for number in range(6):
            with acting(bench, "bin put", slip(f"k-{number}")) as act:
                act.move([Movement(RIB, 1, SUPPLIER, BIN)] * 100)
        lines = (export(store, folder / "whole", as_csv).folder / RECORD).read_bytes().splitlines()
    return path.read_bytes(), frozenset(lines[1:-1])


@pytest.mark.parametrize("share", range(0, 100, 7))
def test_of_a_store_cut_off_behind_its_list_of_tables_only_true_rows_come_out(
    share: int, full_day: tuple[bytes, frozenset[bytes]], migrated_file: Path, tmp_path: Path
) -> None:
    content, whole = full_day
    begun = migrated_file.stat().st_size
    path = tmp_path / "store.kitwright"
    path.write_bytes(content[: begun + (len(content) - begun) * share // 100])
    export_what_reads(str(path), tmp_path / "saved")
    saved = (tmp_path / "saved" / RECORD).read_bytes().splitlines()[1:-1]
    assert saved
    assert set(saved) <= whole


@pytest.mark.parametrize("share", [5, 10, 25, 50, 90])
def test_of_a_store_without_its_list_of_tables_what_it_still_holds_comes_out(
    share: int, full_day: tuple[bytes, frozenset[bytes]], migrated_file: Path, tmp_path: Path
) -> None:
    """The list of tables is that of any store begun by the same program."""
    content, whole = full_day
    path = tmp_path / "store.kitwright"
    path.write_bytes(content[: migrated_file.stat().st_size * share // 100])
    made = export_what_reads(str(path), tmp_path / "saved")
    saved = (tmp_path / "saved" / RECORD).read_bytes().splitlines()[1:-1]
    assert saved
    assert set(saved) <= whole
    assert "may be lost" in made.foot.lost


def test_a_list_of_tables_that_was_made_otherwise_is_not_put_back(
    full_day: tuple[bytes, frozenset[bytes]], migrated_file: Path, tmp_path: Path
) -> None:
    """The control: rows of one table would come out as another's."""
    content = bytearray(full_day[0][: migrated_file.stat().st_size // 2])
    content[40] ^= 1  # how often the list of tables was changed
    path = tmp_path / "store.kitwright"
    path.write_bytes(content)
    with pytest.raises(InventoryError, match=r"nothing of the store|damaged"):
        export_what_reads(str(path), tmp_path / "saved")
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("pages", [0.3, 0.9, 1.5])
def test_of_a_store_without_a_page_of_rows_nothing_is_made_up(
    pages: float, full_day: tuple[bytes, frozenset[bytes]], tmp_path: Path
) -> None:
    path = tmp_path / "store.kitwright"
    path.write_bytes(full_day[0][: int(4096 * pages)])
    with pytest.raises(InventoryError, match=r"nothing of the store|damaged"):
        export_what_reads(str(path), tmp_path / "saved")
    assert [each.name for each in tmp_path.iterdir()] == [path.name]


@pytest.mark.parametrize("seed", range(12))
def test_of_a_store_with_blank_pages_only_true_rows_come_out(
    seed: int, full_day: tuple[bytes, frozenset[bytes]], migrated_file: Path, tmp_path: Path
) -> None:
    content, whole = full_day
    begun, pages = migrated_file.stat().st_size // 4096, len(content) // 4096
    damaged = bytearray(content)
    for page in random.Random(seed).sample(range(begun, pages), (pages - begun) // 4):  # noqa: S311
        damaged[page * 4096 : (page + 1) * 4096] = bytes(4096)
    path = tmp_path / "store.kitwright"
    path.write_bytes(damaged)
    export_what_reads(str(path), tmp_path / "saved")
    saved = (tmp_path / "saved" / RECORD).read_bytes().splitlines()[1:-1]
    assert set(saved) <= whole
    assert len(saved) > len(whole) // 10
