"""How the part rows of a table usually look, so that a title among them stands out."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.packing.row_classes import looks_like_part
from inventory.sheets.packing.row_views import view_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.book import Row
    from inventory.sheets.packing.packing_tables import Table

LAST_COLUMN = 256
_SAMPLE = 100
"""Rows looked at to see how part rows usually look."""


@frozen
class Manners:
    """How the part rows of a table usually look."""

    bold: bool
    filled: bool
    numbered: bool


def manners_of(rows: Sequence[Row], table: Table) -> Manners:
    """Return what most part rows of a table have, by its first rows."""
    views = [view_of(row, table, range(LAST_COLUMN), {}) for row in rows[:_SAMPLE] if row.texts]
    parts = [view for view in views if looks_like_part(view)]
    return Manners(
        bold=2 * sum(view.bold for view in parts) > len(parts),
        filled=2 * sum(bool(view.fill) for view in parts) > len(parts),
        numbered=2 * sum(bool(view.text("item")) for view in parts) > len(parts),
    )
