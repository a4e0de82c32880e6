"""One sheet of an .xlsx workbook: its XML to rows of cells, nothing on the way lost."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING
from xml.parsers import expat

from inventory.core.errors import InventoryError
from inventory.sheets.formats.book import BLANK, PLAIN_NUMBER, SILENT, Area, Mark, Row, cell_name
from inventory.sheets.formats.xlsx_strings import RichText, SharedText
from inventory.sheets.formats.xlsx_styles import SEPARATOR

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from inventory.sheets.formats.xlsx_cells import CellReader

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
        self.cells = cells
        self._where = f"sheet {where}"
        self._comments = _by_row(comments)
        self._row: dict[str, str] = {}
        self._number = 0
        self._row_cells: list[dict[str, str]] = []
        self._inline: dict[int, SharedText] = {}
        self._rich: RichText | None = None
        self._columns: dict[str, int] = {}

    @property
    def commented(self) -> bool:
        """Say whether cells of the sheet have comments."""
        return bool(self._comments)

    def parser(self) -> expat.XMLParserType:
        """Return a parser that feeds this reader.

        The few elements that come by the hundred thousand are told by their whole name; characters
        go straight into a list that each value begins anew.
        """
        parser = expat.ParserCreate(namespace_separator=SEPARATOR)
        parser.buffer_text = True
        pieces: list[str] = []
        names = _Names()
        parser.StartElementHandler = self._starter(names, pieces)
        parser.EndElementHandler = self._ender(names, pieces)
        parser.CharacterDataHandler = pieces.append
        return parser

    def _starter(self, names: _Names, pieces: list[str]) -> Callable[[str, dict[str, str]], None]:
        cells = self._row_cells

        def start(name: str, attributes: dict[str, str]) -> None:
            if name == names.cell:
                cells.append(attributes)
            elif name == names.value:
                pieces.clear()
            elif name == names.row:
                self._row = attributes
            else:
                pieces.clear()
                self._start_other(names.local(name), attributes)

        return start

    def _ender(self, names: _Names, pieces: list[str]) -> Callable[[str], None]:
        cells = self._row_cells

        def end(name: str) -> None:
            if name == names.value:
                cells[-1]["v"] = "".join(pieces)
            elif name == names.row:
                self._finish_row()
            elif name != names.cell:
                self._end_other(names.local(name), "".join(pieces))

        return end

    def _start_other(self, tag: str, attributes: dict[str, str]) -> None:
        if self._rich is not None:
            self._rich.start(tag, attributes)
        elif tag == "is":
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

    def _end_other(self, tag: str, text: str) -> None:
        if tag == "f":
            self._row_cells[-1]["f"] = text
        elif self._rich is not None:
            if tag == "t":
                self._rich.characters(text)
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
        numbers = self._fill(texts, marks, usual=not comments)
        for column, comment in comments.items():
            marks[column] = replace(marks.get(column, BLANK), comment=comment)
        while texts and not texts[-1]:
            texts.pop()
        if texts or comments:
            hidden = self._row.get("hidden") in {"1", "true"}
            level = int(self._row.get("outlineLevel", "0"))
            self.rows.append(Row(self._number, tuple(texts), numbers, marks, hidden, level))

    def _fill(self, texts: list[str], marks: dict[int, Mark], *, usual: bool) -> int:
        """Put the row's cells in their places; return which of them are plain numbers."""
        numbers, plain_text = 0, self.cells.plain_text
        for index, cell in enumerate(self._row_cells):
            if "v" not in cell and "t" not in cell and "f" not in cell:
                continue
            column = self._place(cell.get("r", ""), len(texts), texts)
            text = plain_text(cell) if usual else None
            if text is None:
                text, mark = self.cells.read(cell, self._inline.get(index))
                if mark not in SILENT:
                    marks[column] = mark
                numbers |= (mark is PLAIN_NUMBER) << column
            else:
                numbers |= (cell.get("t", "n") == "n") << column
            texts[column] = text
        return numbers

    def _place(self, name: str, following: int, texts: list[str]) -> int:
        column = self._columns.get(name.rstrip(_DIGITS), -1) if name else following
        if column == following < MOST_COLUMNS:
            texts.append("")
            return column
        return self._place_oddly(name, following, texts)

    def _place_oddly(self, name: str, following: int, texts: list[str]) -> int:
        """Find the place of a cell that doesn't follow its neighbour, or is met the first time."""
        letters = name.rstrip(_DIGITS)
        column = column_number(letters) if letters else following
        self._columns[letters] = column
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


class _Names:
    """The names of the commonest elements, in the namespace that the sheet itself uses."""

    def __init__(self) -> None:
        self.cell = self.value = self.row = ""

    def local(self, name: str) -> str:
        """Return a name without its namespace; the first one, the sheet's root, gives that."""
        local = name.rpartition(SEPARATOR)[2]
        if not self.cell:
            space = name.removesuffix(local)
            self.cell, self.value, self.row = f"{space}c", f"{space}v", f"{space}row"
        return local


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
