"""The short way through a sheet's XML as office programs write it: one scan over its rows.

It takes only what it knows to the last sign: rows of plain cells with a style, a type and a value.
The first thing else ends it, and the sheet is read by a real XML parser from its beginning.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.sheets.book import PLAIN_NUMBER, SILENT, Mark, Row
from inventory.sheets.xlsx_sheet import LAST_ROW, MOST_COLUMNS, column_number

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from inventory.sheets.xlsx_cells import CellReader

_BEGIN, _END, _ROW_END = b"<sheetData>", b"</sheetData>", b"</row>"
_ATTRIBUTES = r'(?: [a-zA-Z0-9:]+="[^"<&]*")*'
_EMPTY_ROWS = re.compile(rf'(?:<row r="[0-9]+"{_ATTRIBUTES}/>)*')
_HEAD = re.compile(
    rf'((?:<row r="[0-9]+"{_ATTRIBUTES}/>)*)<row r="([1-9][0-9]*)"({_ATTRIBUTES})>', re.ASCII
)
"""What stands before the first cell of a row: rows without any, and the row's own beginning."""
_ROW_NUMBER = re.compile(r'<row r="([0-9]+)"')
_CELL = re.compile(r'(?: s="([0-9]+)")?(?: t="([sbne])")?(?:/>|><v>([^<&]*)</v></c>)')
"""What stands behind the name of a cell, to its end."""
_LETTERS = re.compile(r"[A-Z]{1,3}")
_LEVEL = re.compile(r' outlineLevel="([0-9])"')
_HIDDEN = re.compile(r' hidden="(?:1|true)"')
_MOST_KEPT = 20_000
"""Cells remembered by their XML; they come again and again, and take about 200 bytes each."""
_NOTHING: tuple[str, Mark | None] = ("", None)


class NotPlainError(Exception):
    """The sheet holds something that needs a real XML parser."""


def quick_rows(
    slices: Iterator[bytes], cells: CellReader, around: Callable[[bytes], object]
) -> list[Row]:
    """Return the rows of a sheet; what stands before and after them is handed to `around`.

    Raises `NotPlainError` for whatever it doesn't know to the last sign.
    """
    scan = _Scan(cells)
    waiting, inside, after = b"", False, False
    for piece in slices:
        waiting += piece
        if not inside and _BEGIN in waiting:
            before, _, waiting = waiting.partition(_BEGIN)
            around(before + _BEGIN)
            inside = True
        if inside and not after:
            waiting, after = scan.whole_rows(waiting)
        if after:
            around(waiting)
            waiting = b""
    if not after:
        raise NotPlainError
    return scan.rows


class _Columns(dict[str, int]):
    """Columns by their letters."""

    def __missing__(self, letters: str) -> int:
        if not _LETTERS.fullmatch(letters):
            raise NotPlainError
        return self.setdefault(letters, column_number(letters))


class _Cells(dict[str, tuple[str, "Mark | None"]]):
    """What cells say, by their XML from behind the name to the end; None marks what goes unsaid."""

    def __init__(self, cells: CellReader) -> None:
        super().__init__()
        self._cells = cells

    def __missing__(self, written: str) -> tuple[str, Mark | None]:
        found = _CELL.fullmatch(written)
        if found is None:
            raise NotPlainError
        if len(self) >= _MOST_KEPT:
            self.clear()
        said = self[written] = _NOTHING if found[3] is None else self._said(*found.group(1, 2, 3))
        return said

    def _said(self, style: str | None, kind: str | None, value: str) -> tuple[str, Mark | None]:
        text = self._cells.plain_value(style, kind, value)
        if text is not None:
            return text, None if kind == "s" else PLAIN_NUMBER
        attributes = {"v": value}
        if style is not None:
            attributes["s"] = style
        if kind is not None:
            attributes["t"] = kind
        text, mark = self._cells.read(attributes, None)
        return text, mark if mark is PLAIN_NUMBER or mark not in SILENT else None


class _Scan:
    """Builds rows out of whole row elements."""

    def __init__(self, cells: CellReader) -> None:
        self.rows: list[Row] = []
        self._number = 0
        self._columns = _Columns()
        self._cells = _Cells(cells)

    def whole_rows(self, waiting: bytes) -> tuple[bytes, bool]:
        """Take the whole rows that have come; return what is left, and whether that was all."""
        end = waiting.find(_END)
        if end < 0:
            end = waiting.rfind(_ROW_END) + len(_ROW_END)
            if end < len(_ROW_END):
                return waiting, False
        try:
            text = waiting[:end].decode("ascii")
        except UnicodeDecodeError:
            raise NotPlainError from None
        *rows, rest = text.split("</row>")
        for row in rows:
            self._take_row(row)
        if rest:
            self._pass(rest)
        return waiting[end:], waiting.startswith(_END, end)

    def _pass(self, rows: str) -> None:
        """Go past rows without a cell."""
        if not _EMPTY_ROWS.fullmatch(rows):
            raise NotPlainError
        for number in _ROW_NUMBER.findall(rows):
            self._follow(int(number))

    def _follow(self, number: int) -> None:
        if not self._number < number <= LAST_ROW:
            raise NotPlainError
        self._number = number

    def _take_row(self, row: str) -> None:
        """Take one row by its beginning and its cells, each of which is named after the row."""
        head, *written = row.split('<c r="')
        found = _HEAD.fullmatch(head)
        if found is None:
            raise NotPlainError
        above, name, attributes = found.groups()
        if above:
            self._pass(above)
        self._follow(int(name))
        texts: list[str] = []
        marks: dict[int, Mark] = {}
        numbers = self._fill(name, written, texts, marks)
        self._keep(attributes, texts, numbers, marks)

    def _fill(self, name: str, written: list[str], texts: list[str], marks: dict[int, Mark]) -> int:
        """Fill the texts and marks of a row; return which of its cells hold numbers."""
        numbers = 0
        width, columns, cells = len(name), self._columns, self._cells
        for each in written:
            place, _, rest = each.partition('"')
            text, mark = cells[rest]
            column = columns[place[:-width]]
            if place[-width:] != name:
                raise NotPlainError
            if not text and mark is None:
                continue
            if column != len(texts):
                _go_to(column, texts)
            texts.append(text)
            if mark is PLAIN_NUMBER:
                numbers |= 1 << column
            elif mark is not None:
                marks[column] = mark
        return numbers

    def _keep(
        self, attributes: str, texts: list[str], numbers: int, marks: dict[int, Mark]
    ) -> None:
        if len(texts) > MOST_COLUMNS:
            raise NotPlainError
        while texts and not texts[-1]:
            texts.pop()
        if texts:
            level = _LEVEL.search(attributes)
            hidden = _HIDDEN.search(attributes) is not None
            row = Row(
                self._number, tuple(texts), numbers, marks, hidden, int(level[1]) if level else 0
            )
            self.rows.append(row)


def _go_to(column: int, texts: list[str]) -> None:
    """Leave blanks up to a column that doesn't follow its neighbour."""
    if not len(texts) < column < MOST_COLUMNS:
        raise NotPlainError
    texts.extend([""] * (column - len(texts)))
