"""Columns by alignment: text pasted from a page or an e-mail, cut where blanks line up."""

from __future__ import annotations

import re
from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.sheets.formats.plain_text import row_of

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.book import Row

_CHUNK = re.compile(r"\S+(?: \S+)*")
_QUOTED = re.compile(r"^(?:>\s?)+")
_LEADERS = re.compile(r"(?<=\S) ?(?:\.{3,}|…+|_{3,}|(?:\. ){3,}\.?) ?(?=\S)")
"""Dots that lead the eye to what stands at the end of a line."""
_TABLE_CHUNKS = 3
"""Pieces with wide gaps between them that make a line of a table."""
_SHARE = 0.03
"""Of the table's lines, how many may reach into a gap between columns."""


@frozen
class _Chunk:
    start: int
    end: int
    text: str


@frozen
class _Column:
    start: int
    end: int
    headed: bool
    """Whether the headings, the fullest line without a number, have a word in it."""


def aligned_pages(pages: Sequence[Sequence[str]], name: str) -> list[list[Row]]:
    """Return the lines of each page as rows of cells, each line one row, columns for all alike."""
    chunked = [[_chunks(_plain(line)) for line in page] for page in pages]
    columns = _columns([line for page in chunked for line in page if len(line) >= _TABLE_CHUNKS])
    return [_rows(page, columns, name) for page in chunked]


def _rows(page: Sequence[Sequence[_Chunk]], columns: Sequence[_Column], name: str) -> list[Row]:
    rows = [row_of(number, _cells(chunks, columns), name) for number, chunks in enumerate(page, 1)]
    while rows and rows[-1].blank:
        rows.pop()
    return rows


def _plain(line: str) -> str:
    plain = _QUOTED.sub("", line).expandtabs(8).rstrip()
    return _LEADERS.sub(lambda found: " " * len(found[0]), plain)


def _chunks(line: str) -> list[_Chunk]:
    return [_Chunk(found.start(), found.end(), found[0]) for found in _CHUNK.finditer(line)]


def _columns(table: Sequence[Sequence[_Chunk]]) -> list[_Column]:
    """Return from where to where each column reaches.

    Columns are parted by places that are blank in nearly all lines of the table: by two or more,
    or by a single one on both sides of which the headings, the fullest line without a number, have
    a word.
    """
    lines = [[word for chunk in chunks for word in _words(chunk)] for chunks in table]
    taken = Counter(
        place for words in lines for word in words for place in range(word.start, word.end)
    )
    allowed = int(len(table) * _SHARE)
    runs: list[_Column] = []
    for place in sorted(place for place, count in taken.items() if count > allowed):
        if runs and place == runs[-1].end:
            runs[-1] = _Column(runs[-1].start, place + 1, headed=False)
        else:
            runs.append(_Column(place, place + 1, headed=False))
    worded = [words for words in lines if not any(map(_has_digit, words))] or lines
    filled = [{_column_of(word, runs) for word in words} for words in worded]
    return _joined(runs, max(filled, key=len) if filled else set())


def _has_digit(chunk: _Chunk) -> bool:
    return any(map(str.isdigit, chunk.text))


def _joined(runs: Sequence[_Column], headed: set[int]) -> list[_Column]:
    """Join neighbours a single blank apart unless both have a heading of their own."""
    joined: list[_Column] = []
    for number, run in enumerate(runs):
        near = bool(joined) and run.start - joined[-1].end == 1
        if near and not (number in headed and number - 1 in headed):
            both = number in headed or joined[-1].headed
            joined[-1] = _Column(joined[-1].start, run.end, headed=both)
        else:
            joined.append(_Column(run.start, run.end, headed=number in headed))
    return joined


def _cells(chunks: Sequence[_Chunk], columns: Sequence[_Column]) -> list[str]:
    """Put each piece of a line into the column it overlaps most.

    In a line of the table a piece that reaches over several columns is parted between its words,
    but not where nothing heads the next column; in a line of free text it stays whole. What stands
    behind a wide gap in the last column stands beside the table.
    """
    cells = [""] * (max(len(columns), 1) + 1)
    in_table = len(chunks) >= _TABLE_CHUNKS or _fits_columns(chunks, columns)
    for chunk in chunks:
        parted = in_table and _reaches_over(chunk, columns)
        before = -1
        if in_table and _column_of(chunk, columns) == len(columns) - 1 and cells[len(columns) - 1]:
            cells[-1] = f"{cells[-1]} {chunk.text}".strip()
            continue
        for piece in _words(chunk) if parted else [chunk]:
            place = _column_of(piece, columns)
            if 0 <= before < place and not columns[place].headed:
                place = before
            cells[place] = f"{cells[place]} {piece.text}".strip()
            before = place
    if chunks and columns:
        place = _column_of(chunks[0], columns)
        cells[place] = " " * max(chunks[0].start - columns[place].start, 0) + cells[place]
    return cells


def _fits_columns(chunks: Sequence[_Chunk], columns: Sequence[_Column]) -> bool:
    """Say whether a line without wide gaps is of the table: each column's words begin with it."""
    words = [word for chunk in chunks for word in _words(chunk)]
    firsts: dict[int, int] = {}
    for word in words:
        firsts.setdefault(_column_of(word, columns), word.start)
    begun = sum(columns[place].start == start for place, start in firsts.items()) if columns else 0
    return begun == len(firsts) >= _TABLE_CHUNKS


def _reaches_over(chunk: _Chunk, columns: Sequence[_Column]) -> bool:
    return sum(min(each.end, chunk.end) > max(each.start, chunk.start) for each in columns) > 1


def _words(chunk: _Chunk) -> list[_Chunk]:
    return [
        _Chunk(chunk.start + word.start(), chunk.start + word.end(), word[0])
        for word in re.finditer(r"\S+", chunk.text)
    ]


def _column_of(chunk: _Chunk, columns: Sequence[_Column]) -> int:
    def overlap(place: int) -> tuple[int, int]:
        column = columns[place]
        shared = min(column.end, chunk.end) - max(column.start, chunk.start)
        return shared, -abs(column.start - chunk.start)

    return max(range(len(columns)), key=overlap, default=0)
