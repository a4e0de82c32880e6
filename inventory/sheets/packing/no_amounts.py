"""A table of parts in which no column is understood as quantities: asked about once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.lists.packing import Reading
from inventory.sheets.packing.asking import Doubt

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.sheets.formats.book import Sheet
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.packing_tables import Table

NAME = "column of quantities"
WHAT = "no column is understood as quantities: which one is it?"
_OPEN = frozenset({"", "remark", "other", "received"})
_NONE = "none"


def with_amounts(table: Table, sheet: Sheet, asking: Asking) -> Table:
    """Return the table with the column that a person names for its quantities."""
    if table.amounts or not table.place("part") >= 0:
        return table
    readings = tuple(Reading(answer, effect) for answer, effect in columns_to_choose(table).items())
    answer = asking.ask(Doubt(NAME, WHAT, readings), sheet.name, 0)
    columns = (
        replace(column, meaning="quantity") if column.name == answer else column
        for column in table.columns
    )
    return replace(table, columns=tuple(columns))


def columns_to_choose(table: Table) -> Mapping[str, str]:
    """Return the answers there are: a column's letters, or none of them."""
    columns = {
        column.name: f"the column {column.heading or 'without a heading'} says how many there are"
        for column in table.columns
        if column.meaning in _OPEN
    }
    return columns | {_NONE: "no column does, and each row is asked about"}
