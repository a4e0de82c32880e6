"""Plain tables that fit the terminal; a part number is never cut."""

from __future__ import annotations

import shutil
import textwrap
import unicodedata
from dataclasses import dataclass
from itertools import zip_longest
from typing import TYPE_CHECKING

from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

NARROWEST = 12
"""A column of words is wrapped to no less than this."""
GAP = "  "


@dataclass(frozen=True, slots=True)
class Column:
    """A column with its heading."""

    heading: str
    words: bool = False
    """May be wrapped; all others stay whole."""
    number: bool = False
    """Stands to the right."""


def screen_width() -> int:
    """Return how many characters fit on a line; 80 where nobody says."""
    return shutil.get_terminal_size((80, 24)).columns


def drawn(columns: Sequence[Column], rows: Iterable[Sequence[object]], width: int = 0) -> str:
    """Return the table as lines of text, no wider than `width` while that is possible."""
    cells = [[plain(str(cell)) for cell in row] for row in rows]
    widths = _widths(columns, cells, width or screen_width())
    lines = [_line(columns, [column.heading for column in columns], widths)]
    lines.append(GAP.join("-" * size for size in widths))
    for row in cells:
        wrapped = [
            textwrap.wrap(cell, size) or [""] if column.words else [cell]
            for cell, size, column in zip(row, widths, columns, strict=True)
        ]
        lines += [_line(columns, texts, widths) for texts in zip_longest(*wrapped, fillvalue="")]
    return "\n".join(lines) + "\n"


def _widths(columns: Sequence[Column], cells: Sequence[Sequence[str]], width: int) -> list[int]:
    widest = [
        max([shown_width(column.heading), *(shown_width(row[place]) for row in cells)])
        for place, column in enumerate(columns)
    ]
    over = sum(widest) + len(GAP) * (len(columns) - 1) - width
    for place in sorted(range(len(columns)), key=lambda place: -widest[place]):
        if over > 0 and columns[place].words:
            least = max(NARROWEST, shown_width(columns[place].heading))
            taken = min(over, max(0, widest[place] - least))
            widest[place] -= taken
            over -= taken
    return widest


def _line(columns: Sequence[Column], texts: Sequence[str], widths: Sequence[int]) -> str:
    placed = [
        " " * (size - shown_width(text)) + text
        if column.number
        else text + " " * (size - shown_width(text))
        for text, size, column in zip(texts, widths, columns, strict=True)
    ]
    return GAP.join(placed).rstrip()


def shown_width(text: str) -> int:
    """Return how many columns a text takes: wide characters two, combining ones none."""
    if text.isascii():
        return len(text)
    return sum(
        0 if unicodedata.combining(sign) else 1 + (unicodedata.east_asian_width(sign) in "WF")
        for sign in text
    )
