"""The short way through a sheet's XML as office programs write it: one scan over its rows.

It takes only what it knows to the last sign: rows of plain cells with a style, a type and a value.
The first thing else ends it, and the sheet is read by a real XML parser from its beginning.
"""

from __future__ import annotations

import re
from typing import TYPE_CHECKING

from inventory.sheets.formats.book import PLAIN_NUMBER, SILENT, Mark, Row
from inventory.sheets.formats.xlsx_sheet import LAST_ROW, MOST_COLUMNS, column_number

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Mapping

    from inventory.sheets.formats.xlsx_cells import CellReader

_BEGIN, _END, _ROW_END = b"<sheetData>", b"</sheetData>", b"</row>"
_ATTRIBUTES = r'(?: [a-zA-Z0-9:]+="[^"<&]*")*'
_EMPTY_ROWS = re.compile(rf'(?:<row r="[0-9]+"{_ATTRIBUTES}/>)*')
_ROW = '<row r="'
_REST_OF_HEAD = re.compile(rf"{_ATTRIBUTES}>")
_ROW_NUMBER = re.compile(r'<row r="([0-9]+)"')
_CELL = re.compile(r'(?: s="([0-9]+)")?(?: t="([sbne])")?(?:/>|><v>([^<&]*)</v></c>)')
"""What stands behind the name of a cell, to its end."""
_VALUE, _CELL_END = "><v>", "</v></c>"
_SHARED = f' t="s"{_VALUE}'
_OFTEN = 3
"""Digits of numbers that come again and again."""
_LETTERS = re.compile(r"[A-Z]{1,3}")
_LEVEL = re.compile(r' outlineLevel="([0-9])"')
_HIDDEN = re.compile(r' hidden="(?:1|true)"')
_MOST_KEPT = 20_000
"""Cells remembered by their XML; they come again and again, and take about 200 bytes each."""
_CELL_BEGIN = '<c r="'
_NO_CELL, _TOO_FAR = -1, MOST_COLUMNS + 1
"""Columns that no cell with something in it can be in."""
_NO_MARKS: Mapping[int, Mark] = {}
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
        return self.setdefault(letters, min(column_number(letters), _TOO_FAR))


class _Cells(dict[str, tuple[str, "Mark | None", int]]):
    """What cells say, by their XML from behind the name up to the next cell's row.

    Each is a text, a mark or None where it goes unsaid, and the column of the next cell; that is
    `_NO_CELL` behind the last one.
    """

    def __init__(self, cells: CellReader, columns: _Columns) -> None:
        super().__init__()
        self._cells = cells
        self._columns = columns
        self._texts = cells.plain_texts

    def __missing__(self, piece: str) -> tuple[str, Mark | None, int]:
        written, opened, letters = piece.rpartition(_CELL_BEGIN)
        if not opened:
            written, following = piece, _NO_CELL
        else:
            following = self._columns[letters]
        if written.startswith(_VALUE) and written.endswith(_CELL_END):
            number = written[len(_VALUE) : -len(_CELL_END)]
            if number.isdigit() and number[0] != "0":
                said = number, PLAIN_NUMBER, following
                if len(number) <= _OFTEN:  # else a line's own number, never seen again
                    self[piece] = said
                return said
        if written.startswith(_SHARED) and written.endswith(_CELL_END):
            text = self._texts.get(written[len(_SHARED) : -len(_CELL_END)])
            if text is not None:
                return self._kept(piece, (text, None, following))
        found = _CELL.fullmatch(written)
        if found is None:
            raise NotPlainError
        text, mark = _NOTHING if found[3] is None else self._said(*found.group(1, 2, 3))
        return self._kept(piece, (text, mark, following))

    def _kept(self, piece: str, said: tuple[str, Mark | None, int]) -> tuple[str, Mark | None, int]:
        if len(self) >= _MOST_KEPT:
            self.clear()
        self[piece] = said
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


class _Looks(dict[str, tuple[bool, int]]):
    """Whether a row is hidden, and how deep it is grouped, by its attributes behind its number."""

    def __missing__(self, attributes: str) -> tuple[bool, int]:
        if not _REST_OF_HEAD.fullmatch(attributes):
            raise NotPlainError
        level = _LEVEL.search(attributes)
        hidden = _HIDDEN.search(attributes) is not None
        if len(self) >= _MOST_KEPT:
            self.clear()
        look = self[attributes] = (hidden, int(level[1]) if level else 0)
        return look


class _Scan:
    """Builds rows out of whole row elements."""

    def __init__(self, cells: CellReader) -> None:
        self.rows: list[Row] = []
        self._number = 0
        self._columns = _Columns()
        self._cells = _Cells(cells, self._columns)
        self._looks = _Looks()

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
        head, _, written = row.partition(_CELL_BEGIN)
        if not head.startswith(_ROW) or "/" in head:
            head = self._after_blanks(head)
        name, _, attributes = head[len(_ROW) :].partition('"')
        hidden, level = self._looks[attributes]
        if not name.isdigit() or name[0] == "0":
            raise NotPlainError
        self._follow(int(name))
        if not written:
            return
        marks: dict[int, Mark] = {}
        try:
            texts, numbers = self._filled(written.split(f'{name}"'), marks)
        except NotPlainError:
            marks.clear()
            texts, numbers = self._filled(_pieces(written, name), marks)
        while texts and not texts[-1]:
            texts.pop()
        if texts:
            row_marks = marks or _NO_MARKS
            self.rows.append(Row(self._number, tuple(texts), numbers, row_marks, hidden, level))

    def _after_blanks(self, head: str) -> str:
        """Go past the rows without a cell that stand before a row; return its own beginning."""
        above, begins, own = head.rpartition(_ROW)
        self._pass(above)
        return begins + own

    def _filled(self, pieces: list[str], marks: dict[int, Mark]) -> tuple[list[str], int]:
        """Return the texts of a row, and which of its cells hold numbers; fill its marks.

        The pieces are the letters of the first cell, and behind its name each cell up to the next
        name. So a cell is known again by one look, whatever row it stands in:
        ` t="s"><v>5</v></c><c r="B`.
        """
        texts: list[str] = []
        numbers, cells, plain = 0, self._cells, PLAIN_NUMBER
        column = self._columns[pieces[0]]
        for piece in pieces[1:]:
            text, mark, following = cells[piece]
            if text or mark is not None:
                if column != len(texts):
                    _go_to(column, texts)
                texts.append(text)
                if mark is plain:
                    numbers |= 1 << column
                elif mark is not None:
                    marks[column] = mark
            column = following
        if column != _NO_CELL:
            raise NotPlainError
        return texts, numbers


def _pieces(cells: str, name: str) -> list[str]:
    """Cut a row into pieces where a style ends as the row's number does: s="57" in row 57."""
    letters, rests = [], []
    for cell in cells.split(_CELL_BEGIN):
        place, _, rest = cell.partition('"')
        if not place.endswith(name):
            raise NotPlainError
        letters.append(place.removesuffix(name))
        rests.append(rest)
    between = zip(rests, letters[1:], strict=False)
    return [letters[0], *(f"{rest}{_CELL_BEGIN}{after}" for rest, after in between), rests[-1]]


def _go_to(column: int, texts: list[str]) -> None:
    """Leave blanks up to a column that doesn't follow its neighbour."""
    if not len(texts) <= column < MOST_COLUMNS:
        raise NotPlainError
    texts.extend([""] * (column - len(texts)))
