"""Cells merged on a sheet: down over the rows of a bag, or wide as a title is."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from inventory.sheets.formats.book import Sheet

_TITLE_COLUMNS = 3


def wide_rows(sheet: Sheet) -> set[int]:
    """Return the rows in which a cell is merged over several columns, as titles are."""
    return {
        area.first_row
        for area in sheet.merged
        if area.last_column - area.first_column >= _TITLE_COLUMNS - 1
    }


def merged_down(sheet: Sheet) -> dict[int, dict[int, str]]:
    """Return by row and column the text of a cell that is merged down over it."""
    texts = {row.number: row for row in sheet.rows}
    found: dict[int, dict[int, str]] = {}
    for area in sheet.merged:
        top = texts.get(area.first_row)
        text = top.text(area.first_column) if top else ""
        if text and area.last_row > area.first_row:
            for number in range(area.first_row + 1, min(area.last_row, len(texts)) + 1):
                found.setdefault(number, {})[area.first_column] = text
    return found
