"""What the rows of a sheet come to before they are understood: parts, totals, notes."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.packing.row_views import view_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.lists.packing import SourceRow
    from inventory.sheets.formats.book import Row
    from inventory.sheets.packing.boxes import Box
    from inventory.sheets.packing.packing_tables import Table
    from inventory.sheets.packing.row_views import RowView


@dataclass(slots=True)
class PartRow:
    """A part row as it stands on the sheet, before its cells are understood.

    It isn't frozen, because the rows below it may carry it on.
    """

    sheet: str
    row: Row
    table: Table
    span: range
    """The columns of its table."""
    merged: Mapping[int, str]
    """By column, the text of a cell above that is merged down over it."""
    number: str
    """The part-number cell."""
    description: str
    crate: str
    bag: str
    sub_kit: str
    several: Box | None
    """The bag or sub-kit around it that the list says there are several of."""
    above: str
    """The part number of the part row above it, as printed."""
    waiting: str = ""
    """The title above it that speaks of a later delivery."""
    lines_below: tuple[str, ...] = ()
    """What rows without a part number below it say."""

    @property
    def view(self) -> RowView:
        """The row as its table sees it."""
        return view_of(self.row, self.table, self.span, self.merged)

    def text(self, meaning: str) -> str:
        """Return the text of the first filled column of a meaning, as its view does."""
        if self.merged:
            return self.view.text(meaning)
        texts = self.row.texts
        for place in self.table.places(meaning):
            if place < len(texts) and texts[place]:
                return texts[place]
        return ""


@frozen
class TotalRow:
    """A total or subtotal, and how many part rows stand before it on its sheet."""

    sheet: str
    view: RowView
    parts_before: int


@dataclass(slots=True)
class SheetRows:
    """All rows of a sheet with their classes, and the part and total rows among them."""

    rows: list[SourceRow] = field(default_factory=list)
    parts: list[PartRow] = field(default_factory=list)
    totals: list[TotalRow] = field(default_factory=list)
    notes: list[tuple[int, str]] = field(default_factory=list)
    facts: dict[str, str] = field(default_factory=dict)
    """What the title block says: order, revision, supplier."""
    carried: dict[str, int] = field(default_factory=dict)
    """By crate and sub_kit, how many rows lie in the one that a row above names."""
