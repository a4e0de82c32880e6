"""One row as a table sees it: its cells by meaning, how it looks, what it may open."""

from __future__ import annotations

import re
from dataclasses import field
from functools import lru_cache
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.measures.printed_quantity import PrintedQuantity, QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.sheets.packing.packing_vocabulary import AMOUNTS

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.sheets.formats.book import Row
    from inventory.sheets.packing.packing_tables import Table

_DOTS = re.compile(r"(?:[.·•>]\s*)+(?=[^\s.])")
_LONGEST_DITTO = 6
_DITTO = re.compile(r"(?:[\"”“″]|''|,,|-?\"-?|DITTO|DO\.?|SAME)", re.IGNORECASE)
COUNTING = frozenset(
    {
        QuantityKind.NUMBER,
        QuantityKind.AS_REQUIRED,
        QuantityKind.REFERENCE,
        QuantityKind.BACK_ORDERED,
    }
)
"""Kinds of quantity that say something is or will be there."""


@lru_cache(maxsize=4096)
def quantity_of(text: str) -> PrintedQuantity:
    """Return what a quantity cell says, worked out once for each text."""
    return parse_quantity(text)


@frozen
class RowView:
    """The cells of one row that belong to one table."""

    row: Row
    table: Table
    filled: tuple[int, ...]
    """Columns with a text, from the left."""
    merged: Mapping[int, str] = field(default_factory=dict)
    """By column, the text of a cell above that is merged down over this row."""

    def text(self, meaning: str) -> str:
        """Return the text of the first filled column of a meaning; a quantity is never merged."""
        texts = self.row.texts
        for place in self.table.places(meaning):
            if place < len(texts) and texts[place]:
                return texts[place]
            if self.merged and meaning not in AMOUNTS and place in self.merged:
                return self.merged[place]
        return ""

    @property
    def part(self) -> str:
        """The part-number cell."""
        return self.text("part")

    @property
    def description(self) -> str:
        """The description's cells joined."""
        places = self.table.places("description")
        if len(places) == 1:
            return self.text("description")
        return " ".join(filter(None, map(self.row.text, places)))

    @property
    def beside(self) -> list[str]:
        """The remarks, and what stands in columns that no heading is over."""
        places = list(self.table.places("remark"))
        if len(self.filled) > len(self.table.columns) or self.filled[-1] > self.table.span[1]:
            known = {column.place for column in self.table.columns}
            places += [place for place in self.filled if place not in known]
        return [text for text in map(self.row.text, places) if text]

    @property
    def first(self) -> str:
        """The text of the first filled cell."""
        return self.row.text(self.filled[0]) if self.filled else ""

    @property
    def words(self) -> str:
        """All texts in one line."""
        return " ".join(self.row.text(place) for place in self.filled)

    def amounts(self) -> Mapping[str, PrintedQuantity]:
        """Return what the amount columns say, by their meaning; blank ones are left out."""
        found: dict[str, PrintedQuantity] = {}
        for column in self.table.columns:
            if column.meaning in AMOUNTS and column.meaning not in found:
                text = self.row.text(column.place)
                if text:
                    found[column.meaning] = quantity_of(text)
        return found

    @property
    def level(self) -> int:
        """How deep the row is set in: by blanks, alignment, dots or outline."""
        deepest = self.row.level
        for place in (*self.table.places("part"), *self.table.places("description")):
            text = self.row.text(place)
            dots = _DOTS.match(text)
            set_in = sum(not sign.isspace() for sign in dots[0]) if dots else 0
            deepest = max(deepest, set_in, self.row.mark(place).indent if text else 0)
        return deepest

    @property
    def bold(self) -> bool:
        """Say whether every filled cell is bold."""
        return bool(self.filled) and all(self.row.mark(place).bold for place in self.filled)

    @property
    def fill(self) -> str:
        """The background of the first filled cell."""
        return self.row.mark(self.filled[0]).fill if self.filled else ""

    @property
    def ditto(self) -> bool:
        """Say whether the part-number cell says: the same as above."""
        part = self.part
        return len(part) <= _LONGEST_DITTO and _DITTO.fullmatch(part) is not None


def view_of(row: Row, table: Table, span: range, merged: Mapping[int, str]) -> RowView:
    """Return a row as one table sees it; the span are its columns."""
    filled = [place for place, text in enumerate(row.texts) if text]
    if span.start or span.stop < len(row.texts):
        filled = [place for place in filled if place in span]
    return RowView(row, table, tuple(filled), merged)
