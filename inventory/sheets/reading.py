"""One way to read any file a supplier's office may send: sheets of rows of cells."""

from __future__ import annotations

import hashlib
import stat
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.sheets.book import Book, Row, Sheet
from inventory.sheets.container import Container
from inventory.sheets.xlsx import read_xlsx

if TYPE_CHECKING:
    from pathlib import Path

MOST_BYTES = 64 * 2**20
"""Of a file; a list of 200,000 lines takes about 8 MiB as .xlsx and 11 MiB as .csv."""
_GAP = 1000
"""Blank rows in a run that are still shown one by one."""


def read_book(path: Path) -> Book:
    """Return the sheets of a file; raises `InventoryError` where it can't be read whole."""
    return book_from_bytes(path.name, _content(path))


def _content(path: Path) -> bytes:
    try:
        status = path.stat()
        if not stat.S_ISREG(status.st_mode):
            raise InventoryError(
                "it is not a file", where=str(path), remedy="Give the path of the list itself"
            )
        if status.st_size > MOST_BYTES:
            raise InventoryError(
                f"it is larger than {MOST_BYTES >> 20} MiB; nothing was read",
                where=str(path),
                remedy="Save only the list to a new file",
            )
        return path.read_bytes()
    except OSError as cause:
        raise InventoryError(
            f"it can't be opened ({cause.strerror or cause})",
            where=str(path),
            remedy="Check the path; close the file in other programs",
        ) from cause


def book_from_bytes(name: str, content: bytes) -> Book:
    """Return the sheets of a file whose bytes are at hand; `name` is used in messages only."""
    try:
        sheets, remarks = read_xlsx(Container(content, name))
    except (KeyError, IndexError, ValueError, OverflowError) as cause:
        raise InventoryError(
            "the workbook is damaged; nothing was read",
            where=name,
            remedy="Open it in a spreadsheet program and save it anew",
        ) from cause
    filled = [_without_gaps(sheet) for sheet in sheets]
    return Book(
        name=name,
        sha256=hashlib.sha256(content).hexdigest(),
        form="xlsx",
        sheets=tuple(sheet for sheet, _ in filled),
        remarks=(*remarks, *(remark for _, said in filled for remark in said)),
    )


def _without_gaps(sheet: Sheet) -> tuple[Sheet, list[str]]:
    """Put the blank rows back between the others; a run of more than 1,000 is only mentioned."""
    rows: list[Row] = []
    remarks: list[str] = []
    following = 1
    for row in sheet.rows:
        if row.number - following > _GAP:
            remarks.append(f"sheet {sheet.name}: rows {following} to {row.number - 1} are blank")
        else:
            rows.extend(Row(number, ()) for number in range(following, row.number))
        rows.append(row)
        following = row.number + 1
    return Sheet(
        name=sheet.name, rows=tuple(rows), hidden=sheet.hidden,
        hidden_columns=sheet.hidden_columns, merged=sheet.merged, filtered=sheet.filtered,
    ), remarks  # fmt: skip
