"""A spreadsheet as the readers hand it on: sheets of rows of cells, whatever the file was."""

from __future__ import annotations

from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping


class CellKind(StrEnum):
    """What the file says a cell holds, which can differ from what it shows."""

    BLANK = "blank"
    TEXT = "text"
    NUMBER = "number"
    DATE = "date"
    """A date or time: often a part number that the spreadsheet spoilt."""
    BOOLEAN = "boolean"
    ERROR = "error"
    """#REF!, #N/A and their like, or a formula that was never calculated."""


@frozen(kw_only=True)
class Mark:
    """What a cell carries beside its text; most cells carry nothing."""

    kind: CellKind = CellKind.TEXT
    value: str = ""
    """The number as the file stores it, a date in ISO form; empty where the text says it all."""
    number_format: str = ""
    strike: bool = False
    part_struck: str = ""
    """The struck-out pieces of a cell of which only a part is struck out."""
    fill: str = ""
    """Background colour, six hexadecimal digits or a theme's name; empty without one."""
    bold: bool = False
    indent: int = 0
    comment: str = ""
    formula: bool = False


PLAIN_NUMBER = Mark(kind=CellKind.NUMBER)
PLAIN_TEXT = Mark()
BLANK = Mark(kind=CellKind.BLANK)
SILENT = frozenset({PLAIN_NUMBER, PLAIN_TEXT, BLANK})
"""Marks that go without saying: rows don't keep them."""


@frozen
class Cell:
    """One cell: the text a person sees, and what stands behind it."""

    text: str
    mark: Mark

    @property
    def kind(self) -> CellKind:
        """What the file says it holds."""
        return self.mark.kind


@frozen
class Row:
    """One row of a sheet; blank cells at its end are left out."""

    number: int
    """Counted from 1, as the spreadsheet counts."""
    texts: tuple[str, ...]
    """What a person sees in each cell from column A on, blanks evened out; empty where blank."""
    numbers: int = 0
    """Bit n is set where the cell of column n (A is 0) holds a number."""
    marks: Mapping[int, Mark] = field(default_factory=dict)
    """By column from 0; only cells that carry more than their text."""
    hidden: bool = False
    level: int = 0
    """How deep the row is grouped (outline)."""

    def text(self, column: int) -> str:
        """Return what is seen in a column counted from 0."""
        return self.texts[column] if 0 <= column < len(self.texts) else ""

    def mark(self, column: int) -> Mark:
        """Return what the cell of a column carries."""
        found = self.marks.get(column)
        if found is not None:
            return found
        if self.numbers >> column & 1:
            return PLAIN_NUMBER
        return PLAIN_TEXT if self.text(column) else BLANK

    def cell(self, column: int) -> Cell:
        """Return text and mark of a column together."""
        return Cell(self.text(column), self.mark(column))

    def cells(self) -> tuple[Cell, ...]:
        """Return every cell up to the last one that isn't blank."""
        return tuple(self.cell(column) for column in range(len(self.texts)))

    @property
    def blank(self) -> bool:
        """Say whether nothing is seen in the row; texts never end in a blank one."""
        return not self.texts


@frozen
class Area:
    """A block of merged cells, rows from 1 and columns from 0, both ends included."""

    first_row: int
    first_column: int
    last_row: int
    last_column: int


@frozen(kw_only=True)
class Sheet:
    """One sheet: every row up to the last that holds anything, blank ones among them."""

    name: str
    rows: tuple[Row, ...]
    hidden: bool = False
    hidden_columns: frozenset[int] = frozenset()
    merged: tuple[Area, ...] = ()
    filtered: bool = False
    """True where a filter hides rows."""


@frozen(kw_only=True)
class Book:
    """A file read: its sheets, and what is worth saying about it as a whole."""

    name: str
    sha256: str
    form: str
    """xlsx, xls, ods, csv, text or pdf."""
    sheets: tuple[Sheet, ...]
    remarks: tuple[str, ...] = ()


def column_name(column: int) -> str:
    """Return the letters of a column counted from 0: A, B, … Z, AA."""
    letters = ""
    column += 1
    while column:
        column, rest = divmod(column - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters


def cell_name(row: int, column: int) -> str:
    """Return the name of a cell as the spreadsheet shows it: row from 1, column from 0."""
    return f"{column_name(column)}{row}"
