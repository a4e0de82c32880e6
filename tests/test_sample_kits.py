"""The sample kits: kept as their scripts make them, and consistent in themselves."""

from __future__ import annotations

import csv
import subprocess
import sys
import zipfile
from collections import Counter
from fractions import Fraction
from pathlib import Path
from typing import TYPE_CHECKING

import openpyxl
import pytest

if TYPE_CHECKING:
    from collections.abc import Callable

    from openpyxl.worksheet.worksheet import Worksheet

KITS = Path(__file__).parents[1] / "sample_kits"
NAMES = ("tarn_rudder", "tarn_floats")


def run(script: str, *arguments: str) -> None:
    command = [sys.executable, str(KITS / script), *arguments]
    subprocess.run(command, check=True, timeout=60)


def content(path: Path) -> object:
    """Return what a file says, however it was packed: another version packs otherwise."""
    if path.suffix == ".xlsx":
        return [page_content(page) for page in openpyxl.load_workbook(path)]
    if zipfile.is_zipfile(path):
        with zipfile.ZipFile(path) as archive:
            return {name: archive.read(name) for name in archive.namelist()}
    return path.read_bytes()


def page_content(page: Worksheet) -> object:
    cells = [
        (cell.coordinate, cell.value, cell.font.b, cell.font.strike)
        for row in page.iter_rows()
        for cell in row
        if cell.value is not None
    ]
    return page.title, cells, sorted(map(str, page.merged_cells.ranges))


def contents(folder: Path) -> dict[str, object]:
    paths = (path for path in folder.rglob("*") if path.is_file() and path.name != "README.md")
    return {path.relative_to(folder).as_posix(): content(path) for path in paths}


def rows(path: Path) -> list[dict[str, str]]:
    with path.open(encoding="utf-8", newline="") as file:
        return list(csv.DictReader(file))


@pytest.fixture(scope="module")
def made(tmp_path_factory: pytest.TempPathFactory) -> Callable[[str], Path]:
    """Return a function that makes a kit anew, once."""
    folders: dict[str, Path] = {}

    def make(name: str) -> Path:
        if name not in folders:
            folders[name] = tmp_path_factory.mktemp(name)
            run(f"make_{name}.py", str(folders[name]))
            run("work_out.py", str(folders[name]))
        return folders[name]

    return make


@pytest.mark.parametrize("name", NAMES)
def test_kept_files_are_what_the_scripts_make(name: str, made: Callable[[str], Path]) -> None:
    kept, new = contents(KITS / name), contents(made(name))
    assert sorted(kept) == sorted(new)
    assert [path for path in kept if kept[path] != new[path]] == []


def test_the_same_script_makes_the_same_bytes(made: Callable[[str], Path], tmp_path: Path) -> None:
    run("make_tarn_rudder.py", str(tmp_path))
    again = {path.name: path.read_bytes() for path in tmp_path.glob("*.*")}
    assert again == {name: (made("tarn_rudder") / name).read_bytes() for name in again}


@pytest.mark.parametrize("name", NAMES)
def test_nothing_is_put_away_that_was_not_counted_good(name: str) -> None:
    keys = ("crate", "bag", "part number", "hand", "pieces")
    good = Counter(
        tuple(row[key] for key in keys)
        for row in rows(KITS / name / "counts.csv")
        if row["condition"] == "good"
    )
    away = Counter(tuple(row[k] for k in keys) for row in rows(KITS / name / "put_away.csv"))
    assert away - good == Counter()


@pytest.mark.parametrize("name", NAMES)
def test_every_row_of_the_list_has_one_class(name: str) -> None:
    listed = rows(KITS / name / "expected" / "rows.csv")
    places = [(row.get("sheet"), row["row"]) for row in listed]
    assert len(places) == len(set(places))
    parts = {(row.get("sheet"), row["row"]) for row in listed if row["class"] == "part"}
    lines = rows(KITS / name / "expected" / "lines.csv")
    assert {(row.get("sheet"), row["row"]) for row in lines} == parts


@pytest.mark.parametrize("name", NAMES)
def test_ordered_is_shipped_and_owed_unless_nothing_follows(name: str) -> None:
    odd = [
        row["part number"]
        for row in rows(KITS / name / "expected" / "lines.csv")
        if row["ordered"] not in {"AR", "REF"}
        and Fraction(row["ordered"]) != Fraction(row["shipped"]) + Fraction(row["back-ordered"])
    ]
    assert set(odd) <= {"T2-FL-47016"}


def test_every_kind_of_finding_is_planted_in_each_kit() -> None:
    kinds = {"short", "over", "damaged", "wrong-hand", "not-listed", "back-order"}
    for name in NAMES:
        found = {row["finding"] for row in rows(KITS / name / "expected" / "findings.csv")}
        assert kinds <= found


def test_left_right_and_total_of_the_wrong_hand_row() -> None:
    counted = {
        row["hand"]: row["pieces"]
        for row in rows(KITS / "tarn_rudder" / "counts.csv")
        if row["part number"] == "T2-RU-0412"
    }
    assert counted == {"LH": "3", "RH": "1"}
