"""Which sign parts decimals in a list's amounts, as the list itself shows."""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.sheets.packing.row_results import PartRow

_CLEAR = re.compile(
    r"(?<![0-9.,])(?P<whole>[0-9]{1,3}(?P<group>[.,])[0-9]{3}|[0-9]+)"
    r"(?P<sign>[.,])(?P<rest>[0-9]+)(?![0-9.,])"
)
_THREE_NOUGHTS = re.compile(r"[1-9][0-9]{0,2}(?P<sign>[.,])000(?![0-9.,])")
_THREE = 3
"""Digits behind a sign that may part thousands, and at most before it."""
_MANY = 10
"""So many rows that all end in three noughts are decimals: nobody sends so many thousands."""


def thousand_or_one(text: str) -> str:
    """Return the sign of a number such as 1.000, which is one or a thousand; empty for others."""
    found = _THREE_NOUGHTS.match(text)
    return found["sign"] if found else ""


def decimal_sign(parts: Iterable[PartRow]) -> str:
    """Return `,` or `.` where the amounts show what parts their decimals; empty where they don't.

    0,25 and 1.500,5 show a comma, 2.5 and 1,500.50 a point. Three digits behind the sign show
    nothing, unless the amounts of many rows all end in three noughts.
    """
    typed = _typed(parts)
    signs = {
        found["sign"] for text in set(typed) for found in _CLEAR.finditer(text) if _shows(found)
    }
    if not signs and len(typed) >= _MANY:
        signs = {thousand_or_one(text) for text in typed}
    return signs.pop() if len(signs) == 1 else ""


def _shows(found: re.Match[str]) -> bool:
    """Say whether the last sign of a number can't part thousands."""
    if found["group"]:
        return found["group"] != found["sign"]
    whole, rest = found["whole"], found["rest"]
    return len(rest) != _THREE or len(whole) > _THREE or whole.startswith("0")


def _typed(parts: Iterable[PartRow]) -> list[str]:
    """Return the amounts that were typed as text, as they stand."""
    found = []
    for part in parts:
        texts, numbers = part.row.texts, part.row.numbers
        for column in part.table.amounts:
            place = column.place
            if not numbers >> place & 1 and place < len(texts) and texts[place]:
                found.append(texts[place])
    return found
