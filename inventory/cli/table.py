"""Plain tables that fit the terminal; a part number is never cut."""

from __future__ import annotations

import shutil
import textwrap
import unicodedata
from itertools import zip_longest
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.plain import plain

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

NARROWEST = 12
"""A column of words is wrapped to no less than this."""
NARROW = 20
MOST_LINES = 3
"""In a column narrower than `NARROW`, more lines than these of one cell are hard to read."""
GAP = "  "
BELOW = " " * 4


@frozen
class Column:
    """A column with its heading."""

    heading: str
    words: bool = False
    """May be wrapped between words; all others stay whole. Of a number, between it and its unit."""
    number: bool = False
    """Stands to the right."""


def screen_width() -> int:
    """Return how many characters fit on a line; 80 where nobody says."""
    return shutil.get_terminal_size((80, 24)).columns


def drawn(columns: Sequence[Column], rows: Iterable[Sequence[object]], width: int = 0) -> str:
    """Return the table as lines of text, no wider than `width` while that is possible.

    Where the columns don't fit side by side, or the last one would be a narrow strip of words, it
    stands below each row.
    """
    cells = [[plain(str(cell)) for cell in row] for row in rows]
    room = width or screen_width()
    widths = _widths(columns, cells, room)
    over = sum(widths) + len(GAP) * (len(widths) - 1) > room
    if columns[-1].words and (over or _strip(columns[-1], cells, widths[-1])):
        return _last_below(columns[:-1], cells, room)
    return _drawn(columns, cells, widths)


def _strip(column: Column, cells: Sequence[Sequence[str]], size: int) -> bool:
    """Say whether the last column is so narrow that words run down it line after line."""
    return size < NARROW and any(len(_wrapped(row[-1], size, column)) > MOST_LINES for row in cells)


def _last_below(columns: Sequence[Column], cells: Sequence[Sequence[str]], room: int) -> str:
    widths = _widths(columns, [row[:-1] for row in cells], room)
    lines = [_drawn(columns, [], widths)]
    for row in cells:
        below = textwrap.fill(
            row[-1], room, initial_indent=BELOW, subsequent_indent=BELOW, break_on_hyphens=False
        )
        lines += [_drawn(columns, [row[:-1]], widths, headed=False), below + "\n" * bool(below)]
    return "".join(lines)


def _drawn(
    columns: Sequence[Column],
    cells: Sequence[Sequence[str]],
    widths: Sequence[int],
    *,
    headed: bool = True,
) -> str:
    lines = [
        _line(columns, [column.heading for column in columns], widths),
        GAP.join("-" * size for size in widths),
    ] * headed
    for row in cells:
        wrapped = [
            _wrapped(cell, size, column) if column.words else [cell]
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
    least = [_least(columns[place], [row[place] for row in cells]) for place in range(len(columns))]
    for _ in range(max(0, over)):
        spare = [size - floor for size, floor in zip(widest, least, strict=True)]
        wide = [place for place, left in enumerate(spare) if columns[place].words and left > 0]
        if not wide:
            break
        # The first column, by which a row is found, gives way last.
        widest[max(wide, key=lambda place: (place > 0, widest[place]))] -= 1
    return widest


def _least(column: Column, cells: Iterable[str]) -> int:
    """Return to how little a column of words may be wrapped; a number itself is never cut."""
    words = [shown_width(word) for cell in cells for word in cell.split()]
    longest = max(words, default=0)
    floor = longest if column.number else min(NARROWEST, longest)
    return max(floor, shown_width(column.heading))


def _wrapped(cell: str, size: int, column: Column) -> list[str]:
    return textwrap.wrap(
        cell, size, break_long_words=not column.number, break_on_hyphens=False
    ) or [""]


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
