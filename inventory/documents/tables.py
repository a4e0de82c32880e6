"""Tables as .xlsx and CSV, in which text stays text and can be read back as it was."""

from __future__ import annotations

import csv
import io
import re
from typing import TYPE_CHECKING, TypeAlias

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Sequence

    from openpyxl.cell.cell import Cell
    from openpyxl.worksheet.worksheet import Worksheet

    from inventory.documents.page_head import PageHead

Value: TypeAlias = "str | int | dt.date | None"

_FORMULA = re.compile(r"['=+\-@\t\r\n＝＋－＠|%]")
"""First characters that a spreadsheet may take for a formula or a command (OWASP, "CSV
Injection"), and the apostrophe that guards them."""
_CONTROLS = re.compile(r"[\x00-\x08\x0b-\x1f]")
_LONGEST_TEXT = 32_767
"""Characters that a cell can hold (ECMA-376 part 1, 18.18.55 with the makers' own limit)."""
_EXACT = 10**15
"""Whole numbers up to here are exact in a spreadsheet's 64-bit floats."""
_NAME_LENGTH = 31
_NOT_IN_NAMES = re.compile(r"[\[\]:*?/\\']")


@frozen
class Table:
    """A table with its title, headings and rows."""

    title: str
    headings: tuple[str, ...]
    rows: tuple[tuple[Value, ...], ...]


def to_csv(table: Table) -> bytes:
    """Return the table as CSV (RFC 4180), UTF-8 with a byte order mark.

    Text that a spreadsheet could take for a formula gets an apostrophe in front; `from_csv`
    takes it away.
    """
    written = io.StringIO(newline="")
    lines = csv.writer(written)
    lines.writerow(_guarded(heading) for heading in table.headings)
    lines.writerows([_plain(value) for value in row] for row in table.rows)
    return written.getvalue().encode("utf-8-sig")


def from_csv(written: bytes) -> list[list[str]]:
    """Return all rows of what `to_csv` wrote, headings first, every cell as text."""
    rows = csv.reader(io.StringIO(written.decode("utf-8-sig"), newline=""))
    return [[cell.removeprefix("'") for cell in row] for row in rows]


def to_xlsx(head: PageHead, tables: Sequence[Table]) -> bytes:
    """Return a workbook with a sheet for each table, and one that says whose it is.

    Raises `InventoryError` where a text is longer than a cell can hold.
    """
    from openpyxl import Workbook  # noqa: PLC0415  # 100 ms

    book = Workbook()
    book.properties.creator = "Kitwright"
    book.properties.title = f"{tables[0].title}, {head.kit}"
    book.remove(book.worksheets[0])
    for table in tables:
        _fill(book.create_sheet(_sheet_name(table.title)), table, head)
    about = book.create_sheet("About")
    for row, (word, value) in enumerate(_about(head), start=1):
        _put(about.cell(row, 1), word)
        _put(about.cell(row, 2), value)
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _about(head: PageHead) -> list[tuple[str, Value]]:
    """Return what stands on the last sheet."""
    return [
        ("Kit", head.kit),
        ("Kit code", head.kit_code),
        ("Store", head.store_id),
        ("Printed on", head.printed_on),
        ("Seal", head.seal),
    ]


def _fill(sheet: Worksheet, table: Table, head: PageHead) -> None:
    """Write headings and rows, fit for the screen and for printing."""
    from openpyxl.styles import Alignment, Border, Font, Side  # noqa: PLC0415
    from openpyxl.utils import get_column_letter  # noqa: PLC0415

    for column, heading in enumerate(table.headings, start=1):
        cell = sheet.cell(1, column)
        _put(cell, heading)
        cell.font = Font(bold=True)
        cell.border = Border(bottom=Side("medium"))
        longest = max([len(heading), *(len(str(row[column - 1] or "")) for row in table.rows)])
        sheet.column_dimensions[get_column_letter(column)].width = min(60, longest + 3)
    for number, row in enumerate(table.rows, start=2):
        for column, value in enumerate(row, start=1):
            cell = sheet.cell(number, column)
            _put(cell, value)
            cell.alignment = Alignment(vertical="top", wrap_text=True)
    sheet.freeze_panes = "A2"
    sheet.auto_filter.ref = sheet.dimensions
    sheet.print_title_rows = "1:1"
    sheet.page_setup.orientation = "landscape"
    sheet.page_setup.fitToHeight = 0
    sheet.sheet_properties.pageSetUpPr.fitToPage = True
    sheet.oddHeader.left.text = table.title.replace("&", "&&")
    sheet.oddFooter.left.text = head.foot().replace("&", "&&")
    sheet.oddFooter.right.text = "page &P of &N"


def _put(cell: Cell, value: Value) -> None:
    """Put a value into a cell; text is never taken for a formula."""
    if isinstance(value, int) and abs(value) >= _EXACT:
        value = str(value)
    if not isinstance(value, str):
        cell.value = value
        return
    text = _clean(value)
    if len(text) > _LONGEST_TEXT:
        raise InventoryError(
            f"a text of {len(text)} characters is longer than a cell can hold",
            where=text[:40],
            remedy="Take the CSV form.",
        )
    cell.value = text
    cell.data_type = "s"  # not "f" for =1+1, nor "e" for #N/A
    cell.quotePrefix = bool(_FORMULA.match(text))


def _clean(text: str) -> str:
    """Return the text with plain line feeds, and control characters as their pictures."""
    lines = text.replace("\r\n", "\n").replace("\r", "\n")
    return _CONTROLS.sub(lambda found: chr(0x2400 + ord(found.group())), lines)


def _plain(value: Value) -> str:
    """Return a value as CSV text; only text is guarded, a negative number is a number."""
    if isinstance(value, str):
        return _guarded(value)
    return "" if value is None else str(value)


def _guarded(text: str) -> str:
    """Return the text with an apostrophe where a spreadsheet could take it for a formula."""
    text = _clean(text)
    return f"'{text}" if _FORMULA.match(text) else text


def _sheet_name(title: str) -> str:
    """Return a name that a sheet may have."""
    return _NOT_IN_NAMES.sub(" ", title)[:_NAME_LENGTH].strip() or "Table"
