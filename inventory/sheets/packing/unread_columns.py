"""Columns of part numbers with amounts beside them that nothing was read from: asked about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.packing import Reading
from inventory.sheets.packing.asking import Doubt
from inventory.sheets.packing.packing_vocabulary import AMOUNTS
from inventory.sheets.packing.profiles import profile

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.columns import Column, Vocabulary
    from inventory.sheets.formats.book import Row, Sheet
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.packing_tables import Section, Table

_FEW = 3
_MOSTLY = 0.8
_NEAR = 3
"""An amount stands at most so many columns right of its part number."""
_UNREAD = frozenset({"", "remark", "other"})
_SAMPLE = 300


def ask_about_unread(
    sheet: Sheet, sections: Sequence[Section], vocabulary: Vocabulary, asking: Asking
) -> None:
    """Ask once for each column of part numbers, with amounts beside it, that no table reads."""
    for section in sections:
        rows = sheet.rows[section.body.start : section.body.stop][:_SAMPLE]
        for table in section.tables:
            for column in table.columns:
                if _holds_parts(column, rows, vocabulary) and _amount_near(column, table, rows):
                    _ask(column, sheet, asking)


def _holds_parts(column: Column, rows: Sequence[Row], vocabulary: Vocabulary) -> bool:
    if column.meaning not in _UNREAD or not column.heading or vocabulary.meaning(column.heading):
        return False
    held = profile(row.text(column.place) for row in rows)
    return held.part_like >= _FEW and held.share(held.part_like) >= _MOSTLY


def _amount_near(column: Column, table: Table, rows: Sequence[Row]) -> bool:
    return any(
        each.meaning in _UNREAD | AMOUNTS and _holds_amounts(each, rows)
        for each in table.columns
        if 0 < each.place - column.place <= _NEAR
    )


def _holds_amounts(column: Column, rows: Sequence[Row]) -> bool:
    held = profile(row.text(column.place) for row in rows)
    return held.whole >= _FEW and held.share(held.whole) >= _MOSTLY


def _ask(column: Column, sheet: Sheet, asking: Asking) -> None:
    asking.ask(
        Doubt(
            f"column {column.name} unread",
            f"column {column.name}, {column.heading}, seems to hold part numbers; "
            "nothing is read from it (a layout can name it `part`)",
            (Reading("leave", "it counts for nothing"),),
        ),
        sheet.name,
        0,
    )
