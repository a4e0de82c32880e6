"""Crates and sub-kits that a column names once, for all rows down to the next name."""

from __future__ import annotations

from itertools import groupby
from operator import attrgetter
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.sheets.packing.row_results import PartRow

_CARRIED = ("crate", "sub_kit")
"""Not bags: a part beside which no bag stands may well lie in none."""


def carry_down(parts: Iterable[PartRow]) -> dict[str, int]:
    """Fill blank cells below a name; return how many rows were given which kind of name.

    That is done where the column's first row is filled and no two rows in a run repeat a name:
    a list that writes the crate in every row means something else by a blank.
    """
    given: dict[str, int] = {}
    for _, of_table in groupby(parts, attrgetter("table")):
        rows = list(of_table)
        for kind in _CARRIED:
            blank = not all(map(attrgetter(kind), rows))
            if blank and rows[0].table.place(kind) >= 0 and _is_named_once(rows, kind):
                given[kind] = given.get(kind, 0) + _fill(rows, kind)
    return given


def _is_named_once(rows: Sequence[PartRow], kind: str) -> bool:
    """Say whether the first row names one, and none the same as the row above it."""
    before = ""
    for row in rows:
        text = row.text(kind)
        if text == before:  # also where the first is blank
            return False
        before = text or "-"
    return True


def _fill(rows: Sequence[PartRow], kind: str) -> int:
    name, filled = "", 0
    for part in rows:
        name = part.text(kind) or name
        if not getattr(part, kind):
            setattr(part, kind, name)
            filled += 1
    return filled
