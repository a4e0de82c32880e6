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
_FILLED, _ROW = 4, 7
"""The last group of a filled cell's match, and of a row's beginning; a row's end has none.

Up to the first of them it is a blank cell; the group behind them is any other sign.
"""
_SCAN = re.compile(
    r'<c r="([A-Z]{1,3})[0-9]+"(?: s="([0-9]+)")?(?: t="([sbne])")?(?:/>|><v>([^<&]*)</v></c>)'
    r'|<row r="([0-9]+)"((?: [a-zA-Z0-9:]+="[^"<&]*")*)(/?)>'
    r"|</row>|(.)",
    re.DOTALL,
)
_LEVEL = re.compile(r' outlineLevel="([0-9])"')
_HIDDEN = re.compile(r' hidden="(?:1|true)"')


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


class _Scan:
    """Builds rows out of whole row elements."""

    def __init__(self, cells: CellReader) -> None:
        self.rows: list[Row] = []
        self._cells = cells
        self._number = 0
        self._columns: dict[str, int] = {}

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
        self._take(text)
        return waiting[end:], waiting.startswith(_END, end)

    def _take(self, text: str) -> None:
        matches = _SCAN.finditer(text)
        for row in matches:
            if row.lastindex != _ROW:
                raise NotPlainError
            number = int(row[5])
            if not self._number < number <= LAST_ROW:
                raise NotPlainError
            self._number = number
            if not row[7]:
                self._take_row(row[6], matches)

    def _take_row(self, attributes: str, matches: Iterator[re.Match[str]]) -> None:
        """Take the cells of one row, and its end."""
        texts: list[str] = []
        marks: dict[int, Mark] = {}
        numbers = 0
        columns, plain = self._columns, self._cells.plain_value
        for cell in matches:
            last = cell.lastindex
            if last != _FILLED:
                if last is None:
                    self._keep(attributes, texts, numbers, marks)
                    return
                if last > _FILLED:
                    raise NotPlainError
                continue
            letters, style, kind, value = cell.group(1, 2, 3, 4)
            column = columns.get(letters, -1)
            if column != len(texts):
                column = self._place(letters, texts)
            text = plain(style, kind, value)
            if text is None:
                text, mark = self._odd(cell)
                if mark not in SILENT:
                    marks[column] = mark
                numbers |= (mark is PLAIN_NUMBER) << column
            else:
                numbers |= (kind != "s") << column
            texts.append(text)
        raise NotPlainError

    def _place(self, letters: str, texts: list[str]) -> int:
        """Fill up to a column that doesn't follow its neighbour, or is met the first time."""
        column = self._columns.get(letters)
        if column is None:
            column = self._columns[letters] = column_number(letters)
        if column < len(texts) or column >= MOST_COLUMNS:
            raise NotPlainError
        texts.extend([""] * (column - len(texts)))
        return column

    def _odd(self, cell: re.Match[str]) -> tuple[str, Mark]:
        """Read a cell that is more than a text or a number as the long way reads it."""
        attributes = {"v": cell[4]}
        if cell[2] is not None:
            attributes["s"] = cell[2]
        if cell[3] is not None:
            attributes["t"] = cell[3]
        return self._cells.read(attributes, None)

    def _keep(
        self, attributes: str, texts: list[str], numbers: int, marks: dict[int, Mark]
    ) -> None:
        while texts and not texts[-1]:
            texts.pop()
        if texts:
            level = _LEVEL.search(attributes)
            hidden = _HIDDEN.search(attributes) is not None
            row = Row(
                self._number, tuple(texts), numbers, marks, hidden, int(level[1]) if level else 0
            )
            self.rows.append(row)
