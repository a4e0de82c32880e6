"""Old workbooks and open documents: the same rows as any list."""

from __future__ import annotations

import io
import zipfile
from typing import TYPE_CHECKING

import pytest
import xlrd
import xlwt

from inventory.core.errors import InventoryError
from inventory.sheets.formats.book import Book, CellKind, Row
from inventory.sheets.formats.reading import book_from_bytes

if TYPE_CHECKING:
    from collections.abc import Callable

ODS_TYPE = b"application/vnd.oasis.opendocument.spreadsheet"


ODS_HEAD = (
    "<office:document-content"
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"'
    ' xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"'
    ' xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0"'
    ' xmlns:style="urn:oasis:names:tc:opendocument:xmlns:style:1.0"'
    ' xmlns:fo="urn:oasis:names:tc:opendocument:xmlns:xsl-fo-compatible:1.0">'
)


def xls(fill: Callable[[xlwt.Workbook], object]) -> Book:
    book = xlwt.Workbook()
    fill(book)
    content = io.BytesIO()
    book.save(content)
    return book_from_bytes("a.xls", content.getvalue())


def ods(rows: str, styles: str = "", table: str = "") -> Book:
    content = (
        f"{ODS_HEAD}<office:automatic-styles>{styles}</office:automatic-styles><office:body>"
        f'<office:spreadsheet><table:table table:name="LIST" {table}>{rows}</table:table>'
        "</office:spreadsheet></office:body></office:document-content>"
    )
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w") as archive:
        archive.writestr("mimetype", ODS_TYPE)
        archive.writestr("content.xml", content)
    return book_from_bytes("a.ods", made.getvalue())


def cell(text: str, attributes: str = "", inside: str = "") -> str:
    paragraph = f"<text:p>{text}</text:p>" if text else ""
    return f"<table:table-cell {attributes}>{inside}{paragraph}</table:table-cell>"


def row(*cells: str, attributes: str = "") -> str:
    return f"<table:table-row {attributes}>{''.join(cells)}</table:table-row>"


def only(book: Book) -> Row:
    return book.sheets[0].rows[0]


def test_xls_keeps_formats_strokes_colours_and_bold() -> None:
    def fill(book: xlwt.Workbook) -> None:
        sheet = book.add_sheet("LIST")
        styles = {
            0: xlwt.easyxf(num_format_str="00000"),
            1: xlwt.easyxf("font: struck_out on"),
            2: xlwt.easyxf("pattern: pattern solid, fore_colour yellow"),
            3: xlwt.easyxf("font: bold on"),
            4: xlwt.easyxf("align: indent 2"),
            5: xlwt.easyxf("pattern: pattern solid, fore_colour white"),
        }
        for place, style in styles.items():
            sheet.write(0, place, 123 if place == 0 else "x", style)
        sheet.write(0, 6, "   AN3-5A")

    found = only(xls(fill))
    assert (found.text(0), found.mark(0).value) == ("00123", "123")
    assert (found.mark(1).strike, found.mark(2).fill, found.mark(3).bold) == (True, "FFFF00", True)
    assert (found.mark(4).indent, found.mark(5).fill, found.mark(6).indent) == (2, "", 3)


def test_xls_keeps_hidden_rows_levels_merges_and_kinds() -> None:
    def fill(book: xlwt.Workbook) -> None:
        sheet = book.add_sheet("LIST")
        sheet.write(0, 0, 7)
        sheet.write(0, 1, True)  # noqa: FBT003 - the library's own signature
        sheet.write(0, 2, xlwt.Formula("1/0"))
        sheet.row(0).hidden = True
        sheet.row(0).level = 1
        sheet.write_merge(2, 3, 0, 1, "BAG")
        sheet.col(4).hidden = True
        sheet.write(5, 0, "")
        hidden = book.add_sheet("OLD")
        hidden.visibility = 1
        hidden.write(0, 0, "x")

    book = xls(fill)
    found = only(book)
    assert (found.hidden, found.level, found.texts[:2]) == (True, 1, ("7", "TRUE"))
    assert found.cell(1).kind is CellKind.BOOLEAN
    assert book.sheets[0].merged[0].last_row == 4
    assert 4 in book.sheets[0].hidden_columns
    assert [sheet.hidden for sheet in book.sheets] == [False, True]


def test_xls_keeps_partly_struck_text() -> None:
    def fill(book: xlwt.Workbook) -> None:
        sheet = book.add_sheet("LIST")
        struck = xlwt.Font()
        struck.struck_out = True
        sheet.write_rich_text(0, 0, ("T2-2 ", ("T2-1", struck)))

    assert only(xls(fill)).mark(0).part_struck == "T2-1"


def test_xls_error_cells_are_told(monkeypatch: pytest.MonkeyPatch) -> None:
    original = xlrd.sheet.Sheet.cell

    def broken(sheet: xlrd.sheet.Sheet, number: int, column: int) -> xlrd.sheet.Cell:
        found = original(sheet, number, column)
        return xlrd.sheet.Cell(xlrd.XL_CELL_ERROR, 7, found.xf_index)

    monkeypatch.setattr(xlrd.sheet.Sheet, "cell", broken)
    found = only(xls(lambda book: book.add_sheet("LIST").write(0, 0, "x")))
    assert (found.text(0), found.cell(0).kind) == ("#DIV/0!", CellKind.ERROR)


def test_xls_comment_is_kept(monkeypatch: pytest.MonkeyPatch) -> None:
    note = xlrd.sheet.Note()
    note.text = "on back-order"
    monkeypatch.setattr(xlrd.sheet.Sheet, "cell_note_map", {(0, 0): note}, raising=False)
    original = xlrd.sheet.Sheet.__init__

    def begin(sheet: xlrd.sheet.Sheet, *given: object, **named: object) -> None:
        original(sheet, *given, **named)
        sheet.cell_note_map[0, 0] = note

    monkeypatch.setattr(xlrd.sheet.Sheet, "__init__", begin)
    found = only(xls(lambda book: book.add_sheet("LIST").write(0, 0, "x")))
    assert found.mark(0).comment == "on back-order"


def test_protected_xls_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(**_: object) -> None:
        raise xlrd.XLRDError("Workbook is encrypted")

    monkeypatch.setattr(xlrd, "open_workbook", refuse)
    with pytest.raises(InventoryError, match="password"):
        book_from_bytes("a.xls", b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1")


def test_ods_shows_the_text_and_keeps_the_value() -> None:
    found = only(
        ods(
            row(
                cell("00123", 'office:value-type="float" office:value="123"'),
                cell("3-4", 'office:value-type="date" office:date-value="2026-04-03"'),
                cell("TRUE", 'office:value-type="boolean"'),
                cell("4", 'office:value-type="float" office:value="4" table:formula="of:=2*2"'),
                cell("#REF!", 'office:value-type="string"'),
                cell("", 'table:formula="of:=2*3"'),
            )
        )
    )
    assert found.texts == ("00123", "3-4", "TRUE", "4", "#REF!", "of:=2*3")
    kinds = ["number", "date", "boolean", "number", "error", "error"]
    assert [each.kind for each in found.cells()] == kinds
    assert (found.mark(0).value, found.mark(3).formula) == ("123", True)


def test_ods_keeps_strokes_colours_bold_blanks_and_comments() -> None:
    styles = (
        '<style:style style:name="s"><style:text-properties'
        ' style:text-line-through-style="solid"/></style:style>'
        '<style:style style:name="t"><style:text-properties'
        ' style:text-line-through-type="double"/></style:style>'
        '<style:style style:name="b"><style:text-properties fo:font-weight="bold"/></style:style>'
        '<style:style style:name="f"><style:table-cell-properties'
        ' fo:background-color="#ffff00"/></style:style>'
        '<style:style style:name="w"><style:table-cell-properties'
        ' fo:background-color="#ffffff"/></style:style>'
    )
    comment = "<office:annotation><text:p>on back-order</text:p></office:annotation>"
    found = only(
        ods(
            row(
                *(cell("x", f'table:style-name="{name}"') for name in "stbfw"),
                cell("x", inside=comment),
                cell('<text:s text:c="3"/>AN3-5A'),
                cell("two</text:p><text:p>lines"),
                cell("a<text:tab/>b<text:line-break/>c"),
            ),
            styles,
        )
    )
    assert [found.mark(place).strike for place in range(3)] == [True, True, False]
    assert (found.mark(2).bold, found.mark(3).fill, found.mark(4).fill) == (True, "FFFF00", "")
    assert (found.mark(5).comment, found.mark(6).indent) == ("on back-order", 3)
    assert found.texts[6:] == ("AN3-5A", "two\nlines", "a b\nc")


def test_ods_keeps_hidden_repeated_grouped_and_spanned_cells() -> None:
    styles = (
        '<style:style style:name="h"><style:table-properties table:display="false"/></style:style>'
    )
    rows = (
        '<table:table-column table:number-columns-repeated="2"/>'
        '<table:table-column table:visibility="collapse"/>'
        + row(cell("BAG", 'table:number-columns-spanned="3" table:number-rows-spanned="2"'))
        + row(cell("", 'table:number-columns-repeated="2"'), cell("x"), cell("y"))
        + "<table:table-row-group>"
        + row(cell("z"), attributes='table:visibility="filter"')
        + "</table:table-row-group>"
        + row(cell(""), attributes='table:number-rows-repeated="1048000"')
        + row(cell("w", 'table:number-columns-repeated="2"'), attributes="")
    )
    (sheet,) = ods(rows, styles, 'table:style-name="h"').sheets
    assert sheet.hidden
    assert sheet.hidden_columns == {2}
    assert (sheet.merged[0].last_row, sheet.merged[0].last_column) == (2, 2)
    assert sheet.rows[1].texts == ("", "", "x", "y")
    assert (sheet.rows[2].hidden, sheet.rows[2].level, sheet.filtered) == (True, 1, True)
    assert (sheet.rows[-1].number, sheet.rows[-1].texts) == (1_048_004, ("w", "w"))


@pytest.mark.parametrize(
    "rows",
    [
        row(cell("x", 'table:number-columns-repeated="16384"')),
        row(cell("x"), attributes='table:number-rows-repeated="1048576"'),
    ],
    ids=["columns", "rows"],
)
def test_ods_that_repeats_without_end_is_refused(rows: str) -> None:
    with pytest.raises(InventoryError, match=r"further right|is repeated"):
        ods(rows)
