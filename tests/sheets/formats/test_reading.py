"""Workbooks against two independent readers, and what those readers lose."""

from __future__ import annotations

import datetime as dt
import io
from pathlib import Path
from typing import TYPE_CHECKING

import openpyxl
import pytest
import python_calamine
from openpyxl.cell.rich_text import CellRichText, TextBlock
from openpyxl.cell.text import InlineFont
from openpyxl.comments import Comment
from openpyxl.styles import Alignment, Font, PatternFill
from openpyxl.worksheet.worksheet import Worksheet

from inventory.sheets.formats.book import Area, Book, CellKind, Row, cell_name, column_name
from inventory.sheets.formats.reading import book_from_bytes, read_book
from inventory.sheets.formats.texts import clean
from tests.sheets.broken_books import million_blank_rows, write_book

if TYPE_CHECKING:
    from collections.abc import Callable

ROOT = Path(__file__).parents[3]
LISTS = sorted(
    [
        *(Path(__file__).parents[1] / "samples").glob("*.xlsx"),
        *ROOT.glob("sample_kits/*/packing_list.xlsx"),
    ]
)


def made(fill: Callable[[Worksheet], object]) -> Book:
    """Return a one-sheet workbook as our reader sees it."""
    workbook = openpyxl.Workbook()
    sheet = workbook.active
    assert isinstance(sheet, Worksheet)
    sheet.title = "LIST"
    fill(sheet)
    content = io.BytesIO()
    workbook.save(content)
    return book_from_bytes("made.xlsx", content.getvalue())


def first(fill: Callable[[Worksheet], object]) -> Row:
    return made(fill).sheets[0].rows[0]


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.name)
def test_texts_agree_with_an_independent_reader(path: Path) -> None:
    workbook = openpyxl.load_workbook(path, data_only=True)
    for sheet in read_book(path).sheets:
        for row in sheet.rows:
            other = [cell.value for cell in workbook[sheet.name][row.number]]
            plain = [clean(str(value)) if isinstance(value, str | int) else None for value in other]
            ours = [*row.texts, *[""] * (len(plain) - len(row.texts))]
            marks = [row.mark(place) for place in range(len(plain))]
            same = [
                text if other is None or mark.value else other
                for text, other, mark in zip(ours, plain, marks, strict=True)
            ]
            assert ours == same


@pytest.mark.parametrize("path", LISTS, ids=lambda path: path.name)
def test_rows_agree_with_a_second_independent_reader(path: Path) -> None:
    workbook = python_calamine.CalamineWorkbook.from_path(path)
    for sheet in read_book(path).sheets:
        rows = workbook.get_sheet_by_name(sheet.name).to_python(skip_empty_area=False)
        texts = [[clean(str(value)) for value in row if isinstance(value, str)] for row in rows]
        for row, other in zip(sheet.rows, texts, strict=False):
            assert [text for text in other if text and text not in row.texts] == []
        assert len(sheet.rows) == len(rows)


def test_number_keeps_the_zeros_its_format_shows() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["A1"] = 123
        sheet["A1"].number_format = "00000"

    cell = first(fill).cell(0)
    assert (cell.text, cell.mark.value, cell.kind) == ("00123", "123", CellKind.NUMBER)


def test_plain_number_is_told_from_text() -> None:
    row = first(lambda sheet: sheet.append([7, "7", 0.5]))
    assert [row.cell(place).kind for place in range(3)] == ["number", "text", "number"]
    assert row.texts == ("7", "7", "0.5")
    assert row.cell(9).kind is CellKind.BLANK


def test_date_boolean_and_error_are_told_from_text() -> None:
    row = first(lambda sheet: sheet.append([dt.date(2026, 4, 3), True, "#REF!"]))
    assert [cell.kind for cell in row.cells()] == ["date", "boolean", "error"]
    assert row.texts == ("2026-04-03", "TRUE", "#REF!")


def test_strike_fill_bold_indent_and_comment_are_kept() -> None:
    def fill(sheet: Worksheet) -> None:
        for place in range(5):
            sheet.cell(1, place + 1, "x")
        sheet["A1"].font = Font(strike=True)
        sheet["B1"].fill = PatternFill("solid", start_color="FFFF00")
        sheet["C1"].font = Font(bold=True)
        sheet["D1"].alignment = Alignment(indent=2)
        sheet["E1"].comment = Comment("on back-order", "office")

    row = first(fill)
    assert row.mark(0).strike
    assert row.mark(1).fill == "FFFF00"
    assert row.mark(2).bold
    assert row.mark(3).indent == 2
    assert row.mark(4).comment == "on back-order"


def test_white_and_automatic_fills_are_no_fills() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["A1"] = sheet["B1"] = sheet["C1"] = "x"
        sheet["A1"].fill = PatternFill("solid", start_color="FFFFFF")
        sheet["B1"].fill = PatternFill("solid", start_color=openpyxl.styles.Color(theme=0))
        sheet["C1"].fill = PatternFill("solid", start_color=openpyxl.styles.Color(theme=4))

    row = first(fill)
    assert [row.mark(place).fill for place in range(3)] == ["", "", "theme 4"]


def test_indexed_fill_is_kept_by_its_number() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["A1"] = sheet["B1"] = "x"
        sheet["A1"].fill = PatternFill("solid", start_color=openpyxl.styles.Color(indexed=13))
        sheet["B1"].fill = PatternFill("solid", start_color=openpyxl.styles.Color(indexed=9))

    row = first(fill)
    assert [row.mark(place).fill for place in range(2)] == ["indexed 13", ""]


def test_struck_out_part_of_a_cell_is_told_apart() -> None:
    def fill(sheet: Worksheet) -> None:
        struck = TextBlock(InlineFont(strike=True), "T2-1")
        sheet["A1"] = CellRichText("T2-2 ", struck)

    row = first(fill)
    assert row.text(0) == "T2-2 T2-1"
    assert row.mark(0).part_struck == "T2-1"
    assert not row.mark(0).strike


def test_leading_blanks_are_a_level_and_lines_are_kept() -> None:
    row = first(lambda sheet: sheet.append(["   AN3-5A", "two\nlines  here", "a\u00a0b"]))
    assert row.texts == ("AN3-5A", "two\nlines here", "a b")
    assert row.mark(0).indent == 3


def test_formula_that_was_never_calculated_is_an_error() -> None:
    row = first(lambda sheet: sheet.append(["=1+1"]))
    assert (row.text(0), row.cell(0).kind) == ("=1+1", CellKind.ERROR)
    assert row.mark(0).formula


def test_hidden_rows_outline_sheets_and_columns_are_kept() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet.append(["a"])
        sheet.row_dimensions[1].hidden = True
        sheet.row_dimensions[1].outlineLevel = 2
        sheet.column_dimensions["C"].hidden = True
        other = sheet.parent.create_sheet("OLD")
        other.sheet_state = "hidden"

    book = made(fill)
    assert (book.sheets[0].rows[0].hidden, book.sheets[0].rows[0].level) == (True, 2)
    assert book.sheets[0].hidden_columns == {2}
    assert [sheet.hidden for sheet in book.sheets] == [False, True]


def test_merged_cells_and_filters_are_kept() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["A1"] = "BAG"
        sheet.merge_cells("A1:B3")
        sheet.auto_filter.ref = "A1:A9"
        sheet.auto_filter.add_filter_column(0, ["BAG"])

    sheet = made(fill).sheets[0]
    assert sheet.merged == (Area(1, 0, 3, 1),)
    assert sheet.filtered


def test_comment_on_a_blank_cell_is_kept() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["C1"].comment = Comment("B/O", "office")

    assert first(fill).mark(2).comment == "B/O"


def test_blank_rows_between_are_rows_and_after_the_last_are_not() -> None:
    def fill(sheet: Worksheet) -> None:
        sheet["A2"] = "a"
        sheet["A4"] = "b"
        sheet["A9"].font = Font(bold=True)

    rows = made(fill).sheets[0].rows
    assert [(row.number, row.blank) for row in rows] == [
        (1, True),
        (2, False),
        (3, True),
        (4, False),
    ]


def test_control_signs_are_shown_by_their_number() -> None:
    row = first(lambda sheet: sheet.append(["T2\u202e-1", "a_x001B_b"]))
    assert row.texts == ("T2⟨U+202E⟩-1", "a⟨U+001B⟩b")


def test_lying_dimension_hides_no_row(tmp_path: Path) -> None:
    rows = "".join(f'<row r="{n}"><c r="A{n}"><v>{n}</v></c></row>' for n in range(1, 11))
    write_book(tmp_path / "a.xlsx", f'<dimension ref="A1"/><sheetData>{rows}</sheetData>')
    assert len(read_book(tmp_path / "a.xlsx").sheets[0].rows) == 10


def test_million_blank_rows_cost_nothing(tmp_path: Path) -> None:
    million_blank_rows(tmp_path / "a.xlsx")
    assert len(read_book(tmp_path / "a.xlsx").sheets[0].rows) == 3


def test_far_value_is_read_and_the_gap_is_mentioned(tmp_path: Path) -> None:
    rows = (
        '<row r="1"><c r="A1"><v>1</v></c></row><row r="1048576"><c r="A1048576"><v>2</v></c></row>'
    )
    write_book(tmp_path / "a.xlsx", f"<sheetData>{rows}</sheetData>")
    book = read_book(tmp_path / "a.xlsx")
    assert [row.number for row in book.sheets[0].rows] == [1, 1_048_576]
    assert book.remarks == ("sheet LIST: rows 2 to 1048575 are blank",)


def test_cells_without_names_follow_each_other(tmp_path: Path) -> None:
    rows = "<row><c><v>1</v></c><c><v>2</v></c></row><row><c><v>3</v></c></row>"
    write_book(tmp_path / "a.xlsx", f"<sheetData>{rows}</sheetData>")
    assert [row.texts for row in read_book(tmp_path / "a.xlsx").sheets[0].rows] == [
        ("1", "2"),
        ("3",),
    ]


def test_inline_and_phonetic_texts_are_read(tmp_path: Path) -> None:
    rows = (
        '<row r="1"><c r="A1" t="inlineStr">'
        "<is><r><t>T2</t></r><r><rPr><strike/></rPr><t>-1</t></r>"
        '<rPh sb="0" eb="1"><t>no</t></rPh></is></c><c r="B1" t="str"><v>x</v></c>'
        '<c r="C1" t="d"><v>2026-04-03</v></c><c r="D1" t="n"><v>abc</v></c></row>'
    )
    write_book(tmp_path / "a.xlsx", f"<sheetData>{rows}</sheetData>")
    row = read_book(tmp_path / "a.xlsx").sheets[0].rows[0]
    assert row.texts == ("T2-1", "x", "2026-04-03", "abc")
    assert row.mark(0).part_struck == "-1"
    assert [row.cell(place).kind for place in (2, 3)] == ["date", "error"]


SHARED = (
    "<si><t>T2-1</t></si><si><t xml:space='preserve'>   AN3-5A </t></si>"
    "<si><r><t>T2-2 </t></r><r><rPr><strike/></rPr><t>T2-1</t></r></si><si/>"
)


def test_shared_texts_are_read_with_blanks_and_strokes(tmp_path: Path) -> None:
    cells = "".join(f'<c r="{"ABCD"[n]}1" t="s"><v>{n}</v></c>' for n in range(4))
    sheet = f'<sheetData><row r="1">{cells}<c r="E1" t="s"/></row></sheetData>'
    write_book(tmp_path / "a.xlsx", sheet, strings=SHARED)
    (row,) = read_book(tmp_path / "a.xlsx").sheets[0].rows
    assert row.texts == ("T2-1", "AN3-5A", "T2-2 T2-1")
    assert (row.mark(1).indent, row.mark(2).part_struck) == (3, "T2-1")


def test_books_that_count_days_from_1904_are_read_so(tmp_path: Path) -> None:
    sheet = '<sheetData><row r="1"><c r="A1"><v>1</v></c></row></sheetData>'
    write_book(tmp_path / "a.xlsx", sheet, flags='date1904="1"')
    book = read_book(tmp_path / "a.xlsx")
    assert [each.name for each in book.sheets] == ["LIST"]
    assert book.sheets[0].rows[0].texts == ("1",)


def test_cells_are_named_as_the_spreadsheet_names_them() -> None:
    assert [column_name(place) for place in (0, 25, 26, 701, 702)] == ["A", "Z", "AA", "ZZ", "AAA"]
    assert cell_name(7, 1) == "B7"
