"""Titles over parts that aren't in the crates: BACK ORDERED ITEMS, to be sent later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.mark_words import NO_MARKS, read_marks
from inventory.sheets.packing.profiles import is_part_like
from inventory.sheets.packing.row_views import COUNTING

if TYPE_CHECKING:
    from inventory.sheets.packing.row_views import RowView

_LONGEST = 120
KIND = "to_follow"
"""The kind of such a heading; it opens no box."""


def is_title_of_what_follows(view: RowView, *, gap: bool) -> bool:
    """Say whether a row of words speaks of a later delivery and stands over parts as a title does.

    `gap` is True where a blank row parts it from the part above, whose remark it may else be.
    """
    counts = any(quantity.kind in COUNTING for quantity in view.amounts().values())
    if counts or is_part_like(view.part) or not (gap or view.words.endswith(":")):
        return False
    return speaks_of_later(view.words)


def speaks_of_later(title: str) -> bool:
    """Say whether a title says that what it stands over comes later, or perhaps not at all."""
    marks = read_marks(title) if len(title) <= _LONGEST else NO_MARKS
    return marks.to_follow or bool(marks.unclear)
