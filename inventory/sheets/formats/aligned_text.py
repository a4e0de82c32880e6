"""Columns by alignment: text pasted from a page or an e-mail, cut where blanks line up."""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.sheets.formats.plain_text import row_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.book import Row

_CHUNK = re.compile(r"\S+(?: \S+)*")
_QUOTED = re.compile(r"^(?:>\s?)+")
_TABLE_CHUNKS = 3
"""Pieces with wide gaps between them that make a line of a table."""
_SHARE = 0.03
"""Of the table's lines, how many may reach into a gap between columns."""


@dataclass(frozen=True, slots=True)
class _Chunk:
    start: int
    end: int
    text: str


def aligned_pages(pages: Sequence[Sequence[str]], name: str) -> list[list[Row]]:
    """Return the lines of each page as rows of cells, each line one row, columns for all alike."""
    chunked = [[_chunks(_plain(line)) for line in page] for page in pages]
    columns = _columns([line for page in chunked for line in page if len(line) >= _TABLE_CHUNKS])
    return [_rows(page, columns, name) for page in chunked]


def _rows(
    page: Sequence[Sequence[_Chunk]], columns: Sequence[tuple[int, int]], name: str
) -> list[Row]:
    rows = [row_of(number, _cells(chunks, columns), name) for number, chunks in enumerate(page, 1)]
    while rows and rows[-1].blank:
        rows.pop()
    return rows


def _plain(line: str) -> str:
    return _QUOTED.sub("", line).expandtabs(8).rstrip()


def _chunks(line: str) -> list[_Chunk]:
    return [_Chunk(found.start(), found.end(), found[0]) for found in _CHUNK.finditer(line)]


def _columns(table: Sequence[Sequence[_Chunk]]) -> list[tuple[int, int]]:
    """Return from where to where each column reaches.

    Columns are parted by places that are blank in nearly all lines of the table: by two or more,
    or by a single one on both sides of which the fullest line, the headings, has a word.
    """
    lines = [[word for chunk in chunks for word in _words(chunk)] for chunks in table]
    taken = Counter(
        place for words in lines for word in words for place in range(word.start, word.end)
    )
    allowed = int(len(table) * _SHARE)
    runs: list[tuple[int, int]] = []
    for place in sorted(place for place, count in taken.items() if count > allowed):
        if runs and place == runs[-1][1]:
            runs[-1] = (runs[-1][0], place + 1)
        else:
            runs.append((place, place + 1))
    filled = [{_column_of(word, runs) for word in words} for words in lines]
    return _joined(runs, max(filled, key=len) if filled else set())


def _joined(runs: Sequence[tuple[int, int]], headed: set[int]) -> list[tuple[int, int]]:
    """Join neighbours a single blank apart unless both have a heading of their own."""
    joined: list[tuple[int, int]] = []
    for number, (start, end) in enumerate(runs):
        near = bool(joined) and start - joined[-1][1] == 1
        if near and not (number in headed and number - 1 in headed):
            joined[-1] = (joined[-1][0], end)
        else:
            joined.append((start, end))
    return joined


def _cells(chunks: Sequence[_Chunk], columns: Sequence[tuple[int, int]]) -> list[str]:
    """Put each piece of a line into the column it overlaps most.

    In a line of the table a piece that reaches over several columns is parted between its words;
    in a line of free text it stays whole.
    """
    cells = [""] * max(len(columns), 1)
    in_table = len(chunks) >= _TABLE_CHUNKS
    for chunk in chunks:
        pieces = _words(chunk) if in_table and _reaches_over(chunk, columns) else [chunk]
        for piece in pieces:
            place = _column_of(piece, columns)
            cells[place] = f"{cells[place]} {piece.text}".strip()
    if chunks and columns:
        place = _column_of(chunks[0], columns)
        cells[place] = " " * max(chunks[0].start - columns[place][0], 0) + cells[place]
    return cells


def _reaches_over(chunk: _Chunk, columns: Sequence[tuple[int, int]]) -> bool:
    return sum(min(b, chunk.end) > max(a, chunk.start) for a, b in columns) > 1


def _words(chunk: _Chunk) -> list[_Chunk]:
    return [
        _Chunk(chunk.start + word.start(), chunk.start + word.end(), word[0])
        for word in re.finditer(r"\S+", chunk.text)
    ]


def _column_of(chunk: _Chunk, columns: Sequence[tuple[int, int]]) -> int:
    def overlap(place: int) -> tuple[int, int]:
        start, end = columns[place]
        return min(end, chunk.end) - max(start, chunk.start), -abs(start - chunk.start)

    return max(range(len(columns)), key=overlap, default=0)
