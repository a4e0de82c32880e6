"""The one scan over a plain sheet gives the rows that the XML parser gives."""

from __future__ import annotations

import contextlib
import io
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

import openpyxl
import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from openpyxl.styles import Font

from inventory.core.errors import InventoryError
from inventory.sheets.formats import xlsx
from inventory.sheets.formats.reading import book_from_bytes, read_book
from inventory.sheets.formats.xlsx_quick import NotPlainError, quick_rows
from tests.sheets.broken_books import write_book

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from inventory.sheets.formats.book import Book, Row
    from inventory.sheets.formats.xlsx_cells import CellReader

STRINGS = "".join(f"<si><t xml:space='preserve'>{t}</t></si>" for t in ("T2-1", "  AN3", "½ x", ""))
CELL = st.one_of(
    st.builds('t="s"><v>{}</v></c>'.format, st.integers(0, 3)),
    st.builds("><v>{}</v></c>".format, st.sampled_from(["7", "7.0", "0.5", "1E5", "-3", "007"])),
    st.builds('t="b"><v>{}</v></c>'.format, st.sampled_from("01")),
    st.just('t="e"><v>#REF!</v></c>'),
    st.just('t="n"><v>4</v></c>'),
    st.just("/>"),
    st.just('t="s"/>'),
    st.builds('s="{}"><v>7</v></c>'.format, st.integers(0, 12)),
    st.just('t="str"><v>a &amp; b</v></c>'),
    st.just('t="inlineStr"><is><t>in</t></is></c>'),
    st.just("><f>1+1</f><v>2</v></c>"),
)
PLAIN = st.one_of(
    st.builds('t="s"><v>{}</v></c>'.format, st.integers(0, 3)),
    st.builds("><v>{}</v></c>".format, st.sampled_from(["7", "7.0", "0.5", "-3"])),
    st.builds('s="{}"><v>7</v></c>'.format, st.integers(0, 12)),
    st.just("/>"),
)
"""Some of the styles end as the number of their row does, by which a row is cut into cells."""
ATTRIBUTES = st.sampled_from(["", ' hidden="1"', ' outlineLevel="2"', ' spans="1:3" ht="15"'])


def written(rows: list[tuple[str, list[str]]]) -> str:
    made = []
    for number, (attributes, cells) in enumerate(rows, 1):
        inside = "".join(
            f'<c r="{"ABCDEFGH"[place]}{number}" {cell}'.replace(" >", ">").replace(" />", "/>")
            for place, cell in enumerate(cells)
        )
        made.append(f'<row r="{number}"{attributes}>{inside}</row>')
    return f"<cols/><sheetData>{''.join(made)}</sheetData><mergeCells/>"


def both_ways(content: bytes, monkeypatch: pytest.MonkeyPatch) -> tuple[Book, Book]:
    short = book_from_bytes("a.xlsx", content)

    def refuse(*_: object) -> Iterator[object]:
        raise NotPlainError

    with monkeypatch.context() as changed:
        changed.setattr(xlsx, "quick_rows", refuse)
        return short, book_from_bytes("a.xlsx", content)


@given(st.lists(st.tuples(ATTRIBUTES, st.lists(CELL, max_size=6)), max_size=6))
@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_any_sheet_reads_the_same_either_way(
    monkeypatch: pytest.MonkeyPatch, rows: list[tuple[str, list[str]]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.xlsx"
        write_book(path, written(rows), strings=STRINGS)
        short, long = both_ways(path.read_bytes(), monkeypatch)
    assert short == long


@given(st.lists(st.tuples(ATTRIBUTES, st.lists(PLAIN, max_size=6)), max_size=6))
@settings(
    max_examples=100, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_plain_sheets_take_the_short_way(
    monkeypatch: pytest.MonkeyPatch, rows: list[tuple[str, list[str]]]
) -> None:
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.xlsx"
        write_book(path, written(rows), strings=STRINGS)
        short, long = both_ways(path.read_bytes(), monkeypatch)
        with monkeypatch.context() as changed:
            changed.setattr("inventory.sheets.formats.xlsx_sheet.SheetReader._finish_row", None)
            quick = book_from_bytes("a.xlsx", path.read_bytes())
    assert short == long == quick


def test_styles_are_kept_on_the_short_way(monkeypatch: pytest.MonkeyPatch) -> None:
    workbook = openpyxl.Workbook()
    page = workbook.create_sheet("LIST", 0)
    page["A1"], page["B1"], page["C1"] = 123, 7, 8
    page["A1"].number_format = "00000"
    page["B1"].font = Font(strike=True)
    content = io.BytesIO()
    workbook.save(content)
    short, long = both_ways(content.getvalue(), monkeypatch)
    assert short == long
    (row,) = short.sheets[0].rows
    assert (row.texts, row.mark(1).strike, row.numbers) == (("00123", "7", "8"), True, 0b100)


@pytest.mark.parametrize(
    "sheet",
    [
        '<sheetData><row r="1"><c r="A1"><v>1</v></c></row>',
        '<sheetData><row r="1"><row r="2"></row></row></sheetData>',
        '<sheetData><c r="A1"><v>1</v></c></sheetData>',
        '<sheetData><row r="1"><c r="B1"><v>1</v></c><c r="A1"><v>2</v></c></row></sheetData>',
        '<sheetData><row r="1"><c r="A1"><v>½</v></c></row></sheetData>',
        '<sheetData><row r="1"><c r="A2"><v>1</v></c></row></sheetData>',
        '<sheetData><row r="1"><c r="A11"><v>1</v></c></row></sheetData>',
        '<sheetData><row r="1"><c r="A1" s="1"><v>1</v></c><c r="B2"/></row></sheetData>',
        '<sheetData><row r="1"><c r="A1"><v>1</v></c>1"</row></sheetData>',
        '<sheetData><row r="1"><c r="A1"/><c r="XFE1"><v>1</v></c></row></sheetData>',
        '<sheetData><row r="1"><c r="A1"><v>1</v></c>',
        "<x/>",
    ],
)
def test_what_it_does_not_know_goes_the_long_way(
    sheet: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    taken: list[bool] = []

    def noted(
        slices: Iterator[bytes], cells: CellReader, around: Callable[[bytes], object]
    ) -> list[Row]:
        taken.append(True)
        rows = quick_rows(slices, cells, around)
        taken.append(False)
        return rows

    monkeypatch.setattr(xlsx, "quick_rows", noted)
    whole = sheet if sheet.endswith(("</sheetData>", "<x/>")) else f"{sheet}<!-- x -->"
    write_book(tmp_path / "a.xlsx", whole)
    with contextlib.suppress(InventoryError):  # what the long way says is tested elsewhere
        read_book(tmp_path / "a.xlsx")
    assert taken == [True]


TEXT = st.lists(
    st.sampled_from(
        ["RIB", " ", "  x", "&amp;", "&lt;", "&#228;", "&apos;", "½", "_x000D_", "&bogus;", "\n",
         "]]>", "\r\n", "\x01", "<b/>"]
    ),
    max_size=4,
).map("".join)  # fmt: skip
STRING = st.one_of(
    st.builds("<si><t>{}</t></si>".format, TEXT),
    st.builds('<si><t xml:space="preserve">{}</t></si>'.format, TEXT),
    st.builds("<si><r><t>{}</t></r></si>".format, TEXT),
    st.just("<si/>"),
    st.just(" "),
)


def shared_texts(content: bytes) -> list[tuple[str, ...]] | str:
    try:
        return [
            row.texts for sheet in book_from_bytes("a.xlsx", content).sheets for row in sheet.rows
        ]
    except InventoryError as error:
        return error.what


@given(st.lists(STRING, max_size=4))
@settings(
    max_examples=150, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_shared_texts_read_the_same_either_way(
    monkeypatch: pytest.MonkeyPatch, strings: list[str]
) -> None:
    cells = [f't="s"><v>{place}</v></c>' for place in range(4)]
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "a.xlsx"
        write_book(path, written([("", cells)]), strings="".join(strings) or "<si/>")
        content = path.read_bytes()
    short = shared_texts(content)
    with monkeypatch.context() as changed:
        changed.setattr("inventory.sheets.formats.xlsx_strings._plain_strings", lambda _: None)
        assert short == shared_texts(content)
