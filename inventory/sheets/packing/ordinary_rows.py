"""Rows that can be nothing but a part: a plain number and a whole amount."""

from __future__ import annotations

import re
from operator import itemgetter
from typing import TYPE_CHECKING

from inventory.sheets.packing.judged import Judged

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from inventory.sheets.packing.packing_tables import Table

_PART = re.compile(r"(?=.*[0-9])[A-Z0-9]+(?:[-.][A-Z0-9]+)+", re.IGNORECASE)
_SURELY_PART = re.compile(r"[A-Z]{0,2}[0-9]+(?:[-.](?:[A-Z]{0,2}[0-9]+|[A-Z]{1,2}))+")
"""Too few letters in a row for any word that may be a title."""
_MAY_BE_TITLE = re.compile(r"BAG|KIT|CRATE|BOX|CARTON|ENVELOPE|POUCH|TOTAL|ASSY")
_AMOUNTS = ("ordered", "shipped", "quantity", "extended")
_CELLS = ("part", "description", "crate", "bag", "sub_kit")

Cells = tuple[str, str, str, str, str]
"""Part number, description, crate, bag and sub-kit of a row."""


def padding(table: Table) -> tuple[str, ...]:
    """Return blanks that make any row wider than the table: column -1 of it is a blank, too."""
    return ("",) * (table.span[1] + 2)


class OrdinaryRows:
    """Tells ordinary part rows of one table by three of their cells."""

    def __init__(self, table: Table) -> None:
        """Look where the table keeps them."""
        places = [table.place(meaning) for meaning in _AMOUNTS]
        amount = next((place for place in places if place >= 0), -1)
        self._blanks = padding(table)
        several = any(len(table.places(meaning)) > 1 for meaning in _CELLS)
        self._usable = amount >= 0 and table.place("part") >= 0 and not several
        self._get: Callable[[Sequence[str]], tuple[str, ...]] = itemgetter(
            amount, *(table.place(meaning) for meaning in _CELLS)
        )
        self._parts = Judged(_is_part)
        self._titles = Judged(_may_be_title)

    def cells(self, texts: tuple[str, ...]) -> Cells | None:
        """Return what an ordinary part row says; None for any other row."""
        if not self._usable:
            return None
        amount, part, description, crate, bag, sub_kit = self._get(texts + self._blanks)
        if amount.isdigit() and self._parts[part] and not self._titles[description]:
            return part, description, crate, bag, sub_kit
        return None


def _is_part(number: str) -> bool:
    if _SURELY_PART.fullmatch(number):
        return True
    return _PART.fullmatch(number) is not None and not _may_be_title(number)


def _may_be_title(text: str) -> bool:
    return _MAY_BE_TITLE.search(text.upper()) is not None
