"""Hostile packing lists: one row of `cases/doors_list.toml` each."""

from __future__ import annotations

import io
import os
import re
import tomllib
import zipfile
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from openpyxl import Workbook
from openpyxl.utils.datetime import CALENDAR_MAC_1904

from inventory.core.errors import InventoryError
from inventory.jobs.lists.reading_lists import read_list
from inventory.sheets.formats.reading import book_from_bytes, read_book
from inventory.sheets.packing.packing_list import packing_list_of
from tests.sheets.broken_books import changed_part, write_book
from tests.sheets.written_lists import parts

if TYPE_CHECKING:
    from collections.abc import Callable

    from openpyxl.worksheet.worksheet import Worksheet

FOLDER = Path(__file__).parent / "cases"
CASES = tomllib.loads((FOLDER / "doors_list.toml").read_text(encoding="utf-8"))
HEAD = ["PART NUMBER", "DESCRIPTION", "QTY"]
SHEET = "xl/worksheets/sheet1.xml"


def workbook(*rows: list[Any], change: Callable[[Worksheet], object] | None = None) -> bytes:
    book = Workbook()
    sheet = book.worksheets[0]
    sheet.title = "L"
    for row in (HEAD, *rows):
        sheet.append(row)
    if change:
        change(sheet)
    made = io.BytesIO()
    book.save(made)
    return made.getvalue()


PLAIN = workbook(["T2-1", "RIB", 2])
TWO = workbook(["T2-1", "RIB", 2], ["T2-9", "SPACER", 4])


def archive(content: bytes, **members: bytes) -> bytes:
    made = io.BytesIO(content)
    with zipfile.ZipFile(made, "a", zipfile.ZIP_DEFLATED) as new:
        for name, inside in members.items():
            new.writestr(name, inside)
    return made.getvalue()


def two_of_a_name() -> bytes:
    with pytest.warns(UserWarning, match="Duplicate"):
        return archive(PLAIN, **{SHEET: b"<worksheet/>"})


def written(folder: Path, *rows: str) -> bytes:
    write_book(folder / "made.xlsx", f"<sheetData>{''.join(rows)}</sheetData>")
    return (folder / "made.xlsx").read_bytes()


def row(number: int, *texts: str) -> str:
    cells = (
        f'<c r="{letter}{number}" t="inlineStr"><is><t>{text}</t></is></c>'
        for letter, text in zip("ABC", texts, strict=True)
    )
    return f'<row r="{number}">{"".join(cells)}</row>'


FIRST, SECOND = row(1, *HEAD), row(2, "T2-1", "RIB", "2")


def with_dtd(part: str, dtd: bytes) -> bytes:
    return changed_part(PLAIN, part, lambda text: text.replace(b"<", dtd + b"<", 1))


def hide(sheet: Worksheet) -> None:
    assert sheet.parent
    sheet.row_dimensions[2].hidden = True
    old = sheet.parent.create_sheet("OLD")
    old.append(HEAD)
    old.append(["T2-5", "OLD", 1])
    old.sheet_state = "hidden"


def text_bomb(folder: Path) -> bytes:
    return written(folder, *(row(n, "x" * 32_000, "", "") for n in range(1, 1000)))


MADE: dict[str, Callable[[Path], bytes]] = {
    "plain": lambda _: PLAIN,
    "cut off": lambda _: PLAIN[: len(PLAIN) // 2],
    "zip of a text": lambda _: archive(b"", **{"hello.txt": b"x"}),
    "without its sheet": lambda _: changed_part(
        PLAIN, "xl/_rels/workbook.xml.rels", lambda text: text.replace(b"sheet1", b"x")
    ),
    "zip bomb": lambda _: changed_part(PLAIN, SHEET, lambda text: text + b" " * (64 << 20)),
    "text bomb": text_bomb,
    "long cell": lambda folder: written(folder, row(1, "x" * 40_000, "", "")),
    "entities": lambda _: with_dtd(SHEET, b'<!DOCTYPE x [<!ENTITY a "aa"><!ENTITY b "&a;&a;">]>'),
    "outside entity": lambda _: with_dtd(
        "xl/workbook.xml", b'<!DOCTYPE x [<!ENTITY a SYSTEM "file:///etc/hostname">]>'
    ),
    "two of a name": lambda _: two_of_a_name(),
    "member upward": lambda _: archive(PLAIN, **{"../x": b"x"}),
    "macros": lambda _: archive(PLAIN, **{"xl/vbaProject.bin": b"x"}),
    "stale range": lambda _: changed_part(
        TWO, SHEET, lambda text: text.replace(b'ref="A1:C3"', b'ref="A1:A1"')
    ),
    "last row": lambda folder: written(folder, FIRST, SECOND, row(1048576, "T2-9", "SPACER", "4")),
    "last column": lambda folder: written(
        folder, FIRST, SECOND, '<row r="3"><c r="XFD3"><v>1</v></c></row>'
    ),
    "beyond the last row": lambda folder: written(
        folder, FIRST, SECOND, row(1048577, "T2-9", "SPACER", "4")
    ),
    "hidden": lambda _: workbook(["T2-1", "RIB", 2], change=hide),
    "merged": lambda _: workbook(
        ["T2-1", "RIB", 2], [None, "X", 4], change=lambda sheet: sheet.merge_cells("A2:A3")
    ),
    "utf-16": lambda _: "PART NUMBER,DESCRIPTION,QTY\nT2-1,RIB,2\n".encode("utf-16"),
    "long field": lambda _: b"PART NUMBER,DESCRIPTION,QTY\nT2-1," + b"R" * 140_000 + b",2\n",
}
LAID: dict[str, Callable[[Path], object]] = {"folder": Path.mkdir, "pipe": os.mkfifo}


def content_of(case: dict[str, Any], folder: Path) -> bytes:
    if "bytes" in case:
        return bytes.fromhex(case["bytes"])
    return case["text"].encode() if "text" in case else MADE[case["made"]](folder)


FILES: list[dict[str, Any]] = CASES["file"]
REFUSED = [case for case in FILES if "refused" in case]
READ = [case for case in FILES if "refused" not in case]
CELLS: list[dict[str, Any]] = CASES["cell"]


@pytest.mark.parametrize("case", REFUSED, ids=[case["door"] for case in REFUSED])
def test_a_file_that_can_t_be_read_is_refused_in_words(
    tmp_path: Path, case: dict[str, Any]
) -> None:
    path = tmp_path / case.get("name", "list.xlsx")
    if case.get("made") in LAID:
        LAID[case["made"]](path)
    else:
        path.write_bytes(content_of(case, tmp_path))
    with pytest.raises(InventoryError, match=re.escape(case["refused"])) as found:
        read_book(path)
    assert found.value.remedy


@pytest.mark.parametrize("case", READ, ids=[case["door"] for case in READ])
def test_an_odd_file_is_read_whole_and_its_doubts_are_asked(
    tmp_path: Path, case: dict[str, Any]
) -> None:
    (tmp_path / "list.xlsx").write_bytes(content_of(case, tmp_path))
    listed = read_list(tmp_path / "list.xlsx", {}, None)
    assert parts(listed) == case["parts"]
    assert [question.id for question in listed.questions] == case.get("asks", [])
    assert case.get("remark", "") in "\n".join(["", *listed.remarks])
    assert [case.get("problem", "")] == [each.what for each in listed.problems] or [""]
    if "classes" in case:
        assert [str(row.row_class) for row in listed.rows] == case["classes"]


def cell_workbook(case: dict[str, Any]) -> bytes:
    def change(sheet: Worksheet) -> None:
        if case.get("since_1904"):
            assert sheet.parent
            sheet.parent.epoch = CALENDAR_MAC_1904
        if "format" in case:
            sheet["A2"].number_format = case["format"]

    values = [*case.get("row", ["T2-1", "RIB", 4711])]
    values[1] *= case.get("times", 1)
    made = workbook(values, ["T2-9", "SPACER", 4], change=change)
    number = case.get("number", "4711").encode()
    return changed_part(
        made, SHEET, lambda text: text.replace(b"<v>4711</v>", b"<v>%b</v>" % number)
    )


@pytest.mark.parametrize("case", CELLS, ids=[case["door"] for case in CELLS])
def test_what_a_cell_holds_is_taken_as_printed_or_asked(case: dict[str, Any]) -> None:
    listed = packing_list_of(book_from_bytes("list.xlsx", cell_workbook(case)))
    asked = [case["asks"]] if "asks" in case else []
    said = [case["part"], *(f"? {each}" for each in asked)]
    assert parts(listed) == [" ".join(said), "T2-9 none 4/4/0 EA"]
    assert [question.id for question in listed.questions] == asked


BENCH = tomllib.loads((FOLDER / "doors_bench.toml").read_text(encoding="utf-8"))


@pytest.mark.parametrize("case", BENCH["elsewhere"], ids=lambda case: case["door"])
def test_a_door_that_is_tried_elsewhere_has_its_test(case: dict[str, Any]) -> None:
    for named in case["tests"]:
        path, _, test = named.partition("::")
        assert f"def {test}(" in (FOLDER.parent / path).read_text(encoding="utf-8")


def test_every_door_has_its_row() -> None:
    rows = [row for cases in (CASES, BENCH) for kind in cases.values() for row in kind]
    numbers = {int(re.sub("[^0-9]", "", row["door"].split()[0])) for row in rows}
    assert numbers == set(range(1, 73))
