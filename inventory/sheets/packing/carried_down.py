"""Crates and sub-kits that a column names once, for all rows down to the next name."""

from __future__ import annotations

from itertools import pairwise
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
    by_table: dict[int, list[PartRow]] = {}
    for part in parts:
        by_table.setdefault(id(part.table), []).append(part)
    given: dict[str, int] = {}
    for rows in by_table.values():
        for kind in _CARRIED:
            if rows[0].table.place(kind) >= 0:
                filled = _fill(rows, kind)
                given |= {kind: given.get(kind, 0) + filled} if filled else {}
    return given


def _fill(rows: Sequence[PartRow], kind: str) -> int:
    printed = [part.text(kind) for part in rows]
    if not printed[0] or all(printed) or any(a == b != "" for a, b in pairwise(printed)):
        return 0
    name, filled = "", 0
    for part, text in zip(rows, printed, strict=True):
        name = text or name
        if not getattr(part, kind):
            setattr(part, kind, name)
            filled += 1
    return filled
