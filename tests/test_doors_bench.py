"""Hostile input at the bench: one row of `cases/doors_bench.toml` each."""

from __future__ import annotations

import io
import os
import shutil
import sqlite3
import tomllib
from contextlib import closing
from itertools import count
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from openpyxl import load_workbook
from PIL import Image
from sqlalchemy import text

from inventory.cli.table import Column, drawn
from inventory.core.errors import InventoryError, StoreError
from inventory.documents.page_head import PageHead
from inventory.documents.tables import Table, from_csv, to_csv, to_xlsx
from inventory.jobs.acts import Bench, acting
from inventory.jobs.bench.scanning import ScanSession
from inventory.jobs.bench.undoing import history
from inventory.jobs.kits import choose_kit
from inventory.jobs.stores import open_store
from inventory.store.opening.database import SCHEMA
from inventory.store.receiving.photos import keep_photo
from tests.conftest import NOW, slip
from tests.faults.workshop import BIN, make_workshop

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

CASES = tomllib.loads(
    (Path(__file__).parent / "cases" / "doors_bench.toml").read_text(encoding="utf-8")
)
_numbers = count()


def rows(kind: str) -> pytest.MarkDecorator:
    """Return the rows of one kind, each under its door."""
    cases = CASES[kind]
    return pytest.mark.parametrize("case", cases, ids=[case["door"] for case in cases])


@pytest.fixture(scope="module")
def workshop(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Bench]:
    path = tmp_path_factory.mktemp("workshop") / "kits.kitwright"
    make_workshop(path)
    with closing(open_store(str(path))) as store:
        yield Bench(store, choose_kit(store, ""))


def acts(bench: Bench) -> int:
    with bench.store.reading() as db:
        return int(db.execute(text("SELECT count(*) FROM slip")).scalar_one())


@rows("scan")
def test_a_scan_is_answered_and_nothing_is_recorded(workshop: Bench, case: dict[str, Any]) -> None:
    session = ScanSession(workshop, lambda: slip(f"scan {next(_numbers)}"))
    session.scan(BIN)
    before = acts(workshop)
    verdict = session.scan(case["text"] * case.get("times", 1))
    assert verdict.answer == case["answer"]
    assert case["words"] in verdict.words
    assert acts(workshop) == before


@rows("words")
def test_words_are_stored_as_they_are_and_shown_harmless(
    workshop: Bench, case: dict[str, Any]
) -> None:
    with acting(workshop, "hold", slip(f"words {next(_numbers)}", note=case["text"])):
        pass
    kept = history(workshop)[0].recorded.slip.note
    assert kept == case["text"]
    shown = drawn([Column("words")], [[kept]], width=200).splitlines()[2:]
    assert shown == [case["shown"]]


@rows("photo")
def test_the_name_of_a_photograph_is_a_label_and_never_a_path(
    tmp_path: Path, case: dict[str, Any]
) -> None:
    picture = io.BytesIO()
    Image.new("RGB", (4, 4)).save(picture, "PNG")
    name = case["name"] * case.get("times", 1)
    if "refused" in case:
        with pytest.raises(InventoryError, match=case["refused"]):
            keep_photo(tmp_path, picture.getvalue(), name)
        assert list(tmp_path.iterdir()) == []
        return
    kept = keep_photo(tmp_path, picture.getvalue(), name)
    assert kept.name == case.get("label", kept.name)
    assert len(kept.name) <= case.get("label_length", 200)
    assert [path.name for path in tmp_path.iterdir()] == [kept.file_name]


@rows("cell")
def test_a_text_stays_a_text_in_a_spreadsheet(case: dict[str, Any]) -> None:
    table = Table("Stock", ("part",), ((case["text"],),))
    written = to_csv(table).decode("utf-8-sig").split("\r\n", 1)[1].removesuffix("\r\n")
    assert written == case["csv"]
    assert from_csv(to_csv(table))[1] == [case["text"]]
    head = PageHead(kit="Tarn T2", kit_code="T2", store_id="0", printed_on=NOW.date())
    book = load_workbook(io.BytesIO(to_xlsx(head, [table])))
    cells = [cell for row in book.worksheets[0].iter_rows() for cell in row]
    (cell,) = [cell for cell in cells if cell.value == case["text"]]
    assert cell.data_type == "s"


def nothing(_: Path, __: Path) -> None:
    """Lay nothing there."""


def picture(path: Path, _: Path) -> None:
    Image.new("RGB", (4, 4)).save(path, "PNG")


def other_database(path: Path, _: Path) -> None:
    with closing(sqlite3.connect(path)) as db:
        db.execute("CREATE TABLE movement (id)")


def newer(path: Path, store: Path) -> None:
    shutil.copy(store, path)
    with closing(sqlite3.connect(path)) as db:
        db.execute(f"PRAGMA user_version = {SCHEMA + 1}")


def hard_link(path: Path, store: Path) -> None:
    shutil.copy(store, path)
    path.with_name("second").hardlink_to(path)


LAID: dict[str, Callable[[Path, Path], object]] = {
    "nothing": nothing,
    "empty": lambda path, _: path.touch(),
    "picture": picture,
    "other database": other_database,
    "newer": newer,
    "hard link": hard_link,
    "folder": lambda path, _: path.mkdir(),
    "pipe": lambda path, _: os.mkfifo(path),
    "cut off": lambda path, store: path.write_bytes(store.read_bytes()[:5000]),
}
"""What may lie at the store's address."""


@rows("store")
def test_what_is_no_store_is_refused_and_left_as_it_is(
    tmp_path: Path, migrated_file: Path, case: dict[str, Any]
) -> None:
    path = tmp_path / "kits.kitwright"
    LAID[case["made"]](path, migrated_file)
    before = path.read_bytes() if path.is_file() else None
    names = sorted(each.name for each in tmp_path.iterdir())
    with pytest.raises(StoreError, match=case["refused"]):
        open_store(str(path))
    assert (path.read_bytes() if path.is_file() else None) == before
    assert sorted(each.name for each in tmp_path.iterdir()) == names
