"""Write one sheet description as .xlsx, .xls, .ods and .csv, the same bytes each time."""

from __future__ import annotations

import csv
import io
import re
import zipfile
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING
from xml.sax.saxutils import escape

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from openpyxl.worksheet.worksheet import Worksheet

Cell = str | int | float | date | None
MADE = (2026, 3, 2, 9, 0, 0)
"""The date every archive member carries, so that the files don't change from run to run."""


@dataclass(slots=True)
class Sheet:
    """One sheet as an office fills it in: cells, and what the eye sees besides."""

    name: str
    rows: list[list[Cell]] = field(default_factory=list)
    merges: list[tuple[int, int, int, int]] = field(default_factory=list)
    """First row, first column, last row, last column; counted from 1."""
    bold: set[int] = field(default_factory=set)
    struck: set[int] = field(default_factory=set)
    hidden: set[int] = field(default_factory=set)
    shaded: set[int] = field(default_factory=set)
    notes: dict[tuple[int, int], str] = field(default_factory=dict)
    """Comments on cells, by row and column."""
    formats: dict[tuple[int, int], str] = field(default_factory=dict)
    """Number formats of cells, by row and column."""
    widths: Sequence[int] = ()

    def add(self, *cells: Cell, bold: bool = False) -> int:
        """Append a row and return its number, counted from 1."""
        self.rows.append(list(cells))
        if bold:
            self.bold.add(len(self.rows))
        return len(self.rows)

    def filled(self) -> list[list[Cell]]:
        """Return the rows with each merged cell's value in all cells it covers downwards."""
        rows = [list(row) for row in self.rows]
        for top, left, bottom, right in self.merges:
            if left == right:
                for number in range(top, bottom):
                    rows[number][left - 1] = rows[top - 1][left - 1]
        return rows


def write_xlsx(sheets: Sequence[Sheet], path: Path) -> None:
    """Write a workbook as an office program saves it, with fixed dates."""
    import openpyxl  # noqa: PLC0415

    book = openpyxl.Workbook()
    book.remove(book.worksheets[0])
    for sheet in sheets:
        _fill(book.create_sheet(sheet.name), sheet)
    raw = io.BytesIO()
    book.save(raw)
    path.write_bytes(_with_fixed_dates(raw.getvalue()))


def _fill(page: Worksheet, sheet: Sheet) -> None:
    from openpyxl.comments import Comment  # noqa: PLC0415
    from openpyxl.utils import get_column_letter  # noqa: PLC0415

    for number, row in enumerate(sheet.rows, 1):
        for column, value in enumerate(row, 1):
            if value is not None:
                page.cell(number, column, value)
                _dress(page, sheet, number, column)
    for top, left, bottom, right in sheet.merges:
        page.merge_cells(start_row=top, start_column=left, end_row=bottom, end_column=right)
    for column, width in enumerate(sheet.widths, 1):
        page.column_dimensions[get_column_letter(column)].width = width
    for number in sheet.hidden:
        page.row_dimensions[number].hidden = True
    for (number, column), text in sheet.notes.items():
        page.cell(number, column).comment = Comment(text, "office")


def _dress(page: Worksheet, sheet: Sheet, number: int, column: int) -> None:
    """Give a cell what the eye sees of it besides its value."""
    from openpyxl.styles import Font, PatternFill  # noqa: PLC0415

    cell = page.cell(number, column)
    if number in sheet.bold or number in sheet.struck:
        cell.font = Font(bold=number in sheet.bold, strike=number in sheet.struck)
    if number in sheet.shaded:
        cell.fill = PatternFill("solid", start_color="FFFF99")
    if (number, column) in sheet.formats:
        cell.number_format = sheet.formats[number, column]


def _with_fixed_dates(archive: bytes) -> bytes:
    """Return the same archive with one date in each member and in its properties."""
    made = "{:04}-{:02}-{:02}T{:02}:{:02}:{:02}Z".format(*MADE)
    fixed = io.BytesIO()
    with zipfile.ZipFile(io.BytesIO(archive)) as old, zipfile.ZipFile(fixed, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "docProps/core.xml":
                content = re.sub(rb"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\dZ", made.encode(), content)
            _add(new, name, content)
    return fixed.getvalue()


def _add(archive: zipfile.ZipFile, name: str, content: bytes, how: int = 8) -> None:
    member = zipfile.ZipInfo(name, MADE)
    member.compress_type = how
    member.external_attr = 0o644 << 16
    member.create_system = 3
    archive.writestr(member, content)


def write_xls(sheets: Sequence[Sheet], path: Path) -> None:
    """Write the older binary workbook."""
    import xlwt  # noqa: PLC0415

    book = xlwt.Workbook(encoding="utf-8")
    for sheet in sheets:
        page = book.add_sheet(sheet.name)
        covered = {
            (row, column)
            for top, left, bottom, right in sheet.merges
            for row in range(top, bottom + 1)
            for column in range(left, right + 1)
        }
        for number, row in enumerate(sheet.rows, 1):
            for column, value in enumerate(row, 1):
                if value is not None and (number, column) not in covered:
                    page.write(number - 1, column - 1, value)
        for top, left, bottom, right in sheet.merges:
            value = sheet.rows[top - 1][left - 1]
            page.write_merge(top - 1, bottom - 1, left - 1, right - 1, value)
    book.save(str(path))


_ODS_HEAD = (
    '<?xml version="1.0" encoding="UTF-8"?><office:document-content'
    ' xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0"'
    ' xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0"'
    ' xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.3">'
    "<office:body><office:spreadsheet>"
)
_ODS_TYPE = "application/vnd.oasis.opendocument.spreadsheet"
_ODS_MANIFEST = (
    '<?xml version="1.0" encoding="UTF-8"?><manifest:manifest manifest:version="1.3"'
    ' xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0">'
    f'<manifest:file-entry manifest:full-path="/" manifest:media-type="{_ODS_TYPE}"/>'
    '<manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/>'
    "</manifest:manifest>"
)


def write_ods(sheets: Sequence[Sheet], path: Path) -> None:
    """Write OpenDocument 1.3, merged cells filled downwards."""
    tables = "".join(_ods_table(sheet) for sheet in sheets)
    content = f"{_ODS_HEAD}{tables}</office:spreadsheet></office:body></office:document-content>"
    with zipfile.ZipFile(path, "w") as archive:
        _add(archive, "mimetype", _ODS_TYPE.encode(), zipfile.ZIP_STORED)
        _add(archive, "content.xml", content.encode())
        _add(archive, "META-INF/manifest.xml", _ODS_MANIFEST.encode())


def _ods_table(sheet: Sheet) -> str:
    cells = ("".join(map(_ods_cell, row or [None])) for row in sheet.filled())
    rows = "".join(f"<table:table-row>{row}</table:table-row>" for row in cells)
    return f'<table:table table:name="{escape(sheet.name)}">{rows}</table:table>'


def _ods_cell(value: Cell) -> str:
    if value is None:
        return "<table:table-cell/>"
    kind = f'float" office:value="{value}' if isinstance(value, int | float) else "string"
    text = f"<text:p>{escape(str(value))}</text:p>"
    return f'<table:table-cell office:value-type="{kind}">{text}</table:table-cell>'


def write_csv(sheet: Sheet, path: Path, *, delimiter: str = ",", encoding: str = "utf-8") -> None:
    """Write one sheet as delimited text, merged cells filled downwards."""
    width = max(map(len, sheet.rows))
    text = io.StringIO()
    writer = csv.writer(text, delimiter=delimiter, lineterminator="\r\n")
    for row in sheet.filled():
        writer.writerow(["" if cell is None else cell for cell in [*row, *[None] * width][:width]])
    path.write_bytes(text.getvalue().encode(encoding))


def write_table(path: Path, head: Sequence[str], rows: Sequence[Sequence[Cell]]) -> None:
    """Write a plain table that a program reads: one head line, then the rows."""
    text = io.StringIO()
    writer = csv.writer(text, lineterminator="\n")
    writer.writerow(head)
    writer.writerows(rows)
    path.write_text(text.getvalue(), encoding="utf-8", newline="")
