"""Columns headed by the letters for left and right of another language than English: V and H."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.lists.hands_abroad import letters_for_sides
from inventory.sheets.packing.packing_vocabulary import AMOUNTS

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.sheets.columns import Column
    from inventory.sheets.packing.profiles import Profile

_READ_AS_WELL = frozenset({"left", "right"})


def settle_sides(columns: Sequence[Column], held: Mapping[int, Profile]) -> Sequence[Column]:
    """Take two columns so headed, of crosses or numbers, for the pieces of left and of right."""
    headed = {
        column.heading.strip(" .").upper(): column
        for column in columns
        if column.meaning not in AMOUNTS - _READ_AS_WELL and _counts(held[column.place])
    }
    letters = letters_for_sides(headed)
    if letters is None:
        return columns
    sides = {headed[letters[0]].place: "left", headed[letters[1]].place: "right"}
    return [
        replace(column, meaning=sides[column.place]) if column.place in sides else column
        for column in columns
    ]


def _counts(found: Profile) -> bool:
    """Say whether a column holds nothing but crosses or numbers, or nothing."""
    return found.quantities == found.filled
