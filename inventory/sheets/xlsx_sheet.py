"""One sheet of an .xlsx workbook: its XML to rows of cells, nothing on the way lost."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError
from inventory.sheets.book import BLANK, PLAIN_NUMBER, PLAIN_TEXT, Area, Mark, Row, cell_name
from inventory.sheets.xlsx_strings import RichText, SharedText
from inventory.sheets.xlsx_styles import SEPARATOR

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.sheets.xlsx_cells import CellReader

MOST_COLUMNS = 256
LAST_ROW = 1_048_576
_DIGITS = "0123456789"
_REPAIR = "Open it in a spreadsheet program and save it anew"


class SheetReader:
    """Builds the rows of one sheet while its XML goes by."""

    def __init__(self, where: str, cells: CellReader, comments: Mapping[str, str]) -> None:
        """Read the sheet named `where`; comments are by the name of their cell."""
        self.rows: list[Row] = []
        self.merged: list[Area] = []
        self.hidden_columns: set[int] = set()
        self.filtered = False
        self._where = where
        self._cells = cells
        self._comments = _by_row(comments)
        self._tags: dict[str, str] = {}
        self._row: dict[str, str] = {}
        self._number = 0
        self._row_cells: list[dict[str, str]] = []
        self._cell: dict[str, str] = {}
        self._inline: dict[int, SharedText] = {}
        self._rich: RichText | None = None
        self._pieces: list[str] = []
        self._taking = ""
        self._columns: dict[str, int] = {}

    def parser(self) -> expat.XMLParserType:
        """Return a parser that feeds this reader."""
        parser = expat.ParserCreate(namespace_separator=SEPARATOR)
        parser.buffer_text = True
        parser.StartElementHandler = self._start
        parser.EndElementHandler = self._end
        parser.CharacterDataHandler = self._characters
        return parser

    def _start(self, name: str, attributes: dict[str, str]) -> None:
        tag = self._tags.get(name) or self._tag(name)
        if tag == "c":
            self._cell = attributes
            self._row_cells.append(attributes)
        elif tag in {"v", "f"}:
            self._taking = tag
            self._cell.setdefault(tag, "")
        elif tag == "row":
            self._row = attributes
        elif self._rich is not None:
            self._rich.start(tag, attributes)
        else:
            self._start_other(tag, attributes)

    def _tag(self, name: str) -> str:
        tag = name.rpartition(SEPARATOR)[2]
        self._tags[name] = tag
        return tag

    def _start_other(self, tag: str, attributes: dict[str, str]) -> None:
        if tag == "is":
            self._rich = RichText(self._keep_inline)
        elif tag == "col" and attributes.get("hidden") in {"1", "true"}:
            last = min(int(attributes["max"]), MOST_COLUMNS)
            self.hidden_columns.update(range(int(attributes["min"]) - 1, last))
        elif tag == "mergeCell":
            self.merged.append(self._area(attributes["ref"]))
        elif tag == "filterColumn":
            self.filtered = True

    def _keep_inline(self, text: SharedText) -> None:
        self._inline[len(self._row_cells) - 1] = text

    def _characters(self, text: str) -> None:
        if self._taking:
            self._pieces.append(text)
        elif self._rich is not None:
            self._rich.characters(text)

    def _end(self, name: str) -> None:
        tag = self._tags[name]
        if tag in {"v", "f"}:
            self._cell[tag] = "".join(self._pieces)
            self._pieces.clear()
            self._taking = ""
        elif tag == "row":
            self._finish_row()
        elif self._rich is not None:
            self._rich.end(tag)
            if tag == "is":
                self._rich = None

    def _finish_row(self) -> None:
        number = int(self._row.get("r", self._number + 1))
        if not self._number < number <= LAST_ROW:
            raise self._damaged(f"row {number} doesn't stand where it says")
        self._number = number
        if self._row_cells:
            self._keep_row(self._comments.get(number, {}))
            self._row_cells.clear()
            self._inline.clear()

    def _keep_row(self, comments: Mapping[int, str]) -> None:
        texts: list[str] = []
        marks: dict[int, Mark] = {}
        numbers = self._fill(texts, marks, comments)
        for column, comment in comments.items():
            marks[column] = replace(marks.get(column, BLANK), comment=comment)
        while texts and not texts[-1]:
            texts.pop()
        if texts or comments:
            hidden = self._row.get("hidden") in {"1", "true"}
            level = int(self._row.get("outlineLevel", "0"))
            self.rows.append(Row(self._number, tuple(texts), numbers, marks, hidden, level))

    def _fill(self, texts: list[str], marks: dict[int, Mark], comments: Mapping[int, str]) -> int:
        """Put the row's cells in their places; return which of them are plain numbers."""
        plain, odd_texts = self._cells.plain_texts, self._cells.odd_texts
        odd_styles, numbers = self._cells.odd_styles, 0
        for index, cell in enumerate(self._row_cells):
            value, kind = cell.get("v"), cell.get("t", "n")
            if value is None and kind == "n" and "f" not in cell:
                continue
            column = self._place(cell.get("r", ""), len(texts), texts)
            usual = value and "f" not in cell and cell.get("s", "") not in odd_styles
            if usual and not comments and kind == "s" and value not in odd_texts:
                texts[column] = plain[int(value or "")]
                continue
            if usual and not comments and kind == "n":
                texts[column], mark = self._cells.number(value or "")
            else:
                texts[column], mark = self._cells.read(cell, self._inline.get(index))
            if mark is PLAIN_NUMBER:
                numbers |= 1 << column
            elif mark != PLAIN_TEXT:
                marks[column] = mark
        return numbers

    def _place(self, name: str, following: int, texts: list[str]) -> int:
        letters = name.rstrip(_DIGITS)
        column = self._columns.get(letters) if letters else following
        if column is None:
            column = self._columns[letters] = column_number(letters)
        if column >= MOST_COLUMNS:
            raise self._damaged(
                f"{cell_name(self._number, column)} lies further right than {MOST_COLUMNS} columns"
            )
        if column < following and texts[column]:
            raise self._damaged(f"the cell {cell_name(self._number, column)} comes twice")
        texts.extend([""] * (column + 1 - following))
        return column

    def _area(self, reference: str) -> Area:
        first, _, last = reference.partition(":")
        corners = [
            (int(name[len(letters) :]), column_number(letters))
            for name, letters in ((n, n.rstrip(_DIGITS)) for n in (first, last or first))
        ]
        return Area(*corners[0], *corners[1])

    def _damaged(self, what: str) -> InventoryError:
        return InventoryError(f"{what}; nothing was read", where=self._where, remedy=_REPAIR)


def column_number(letters: str) -> int:
    """Return the place of a column from its letters: A is 0, AA is 26."""
    number = 0
    for letter in letters:
        if not "A" <= letter <= "Z" or number > LAST_ROW:
            raise ValueError(f"{letters[:20]!r} is no column")
        number = number * 26 + ord(letter) - ord("A") + 1
    return number - 1


def _by_row(comments: Mapping[str, str]) -> dict[int, dict[int, str]]:
    rows: dict[int, dict[int, str]] = {}
    for name, comment in comments.items():
        letters = name.rstrip(_DIGITS)
        rows.setdefault(int(name[len(letters) :]), {})[column_number(letters)] = comment
    return rows
