"""A sheet with a head row, for the sample lists."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sample_kits.spreadsheets import Sheet

if TYPE_CHECKING:
    from sample_kits.spreadsheets import Cell

HEAD = ("ITEM", "PART NUMBER", "DESCRIPTION", "QTY", "U/M", "REMARKS")


def listed(*rows: tuple[Cell, ...], name: str = "LIST", head: tuple[Cell, ...] = HEAD) -> Sheet:
    """Return a sheet with a head row and the rows under it."""
    sheet = Sheet(name)
    for row in (head, *rows):
        sheet.add(*row)
    return sheet
