"""The float kit's packing list as the sheets of a workbook."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

import tarn_floats_words as words
from spreadsheets import Cell, Sheet

if TYPE_CHECKING:
    from tarn_floats_list import Line

PAGE = 52
"""Rows of a printed page, after which the head is repeated."""


class Placed(NamedTuple):
    """Where a line stands in the workbook."""

    sheet: str
    row: int
    number: int
    line: Line


class Workbook(NamedTuple):
    """The sheets, the class of each row, and where the lines stand."""

    sheets: list[Sheet]
    classes: list[tuple[Cell, ...]]
    placed: list[Placed]


def workbook(lines: list[Line], revision: str) -> Workbook:
    """Lay the lines out, a sheet for each sub-kit."""
    names = {number: words.SUB_KITS[number][0] for number in words.SUB_KITS}
    names |= {"48": "STOCK LENGTHS", "49": "SHOP STOCK, CONSUMABLES AND TOOLS"}
    made = Workbook([contents(names, lines, revision)], [], [])
    for row in range(1, len(made.sheets[0].rows) + 1):
        made.classes.append(("CONTENTS", row, "head" if row <= len(words.TITLE) else "note"))
    for number, name in names.items():
        builder = SheetBuilder(number, name, revision)
        for line in lines:
            if line.sub_kit == number:
                builder.add(line)
        builder.close()
        made.sheets.append(builder.sheet)
        made.classes.extend(builder.classes)
        made.placed.extend(builder.placed)
    return made


def contents(names: dict[str, str], lines: list[Line], revision: str) -> Sheet:
    """Return the first sheet: what the workbook holds."""
    sheet = Sheet("CONTENTS", widths=(60,))
    for text in (words.TITLE[0], words.NOT_A_FIRM, *words.TITLE[2:]):
        sheet.add(text.format(revision=revision), bold=True)
    for number, name in names.items():
        found = sum(line.sub_kit == number for line in lines)
        sheet.add(f"Sheet {number}: sub-kit {number} {name}, {found} lines")
    return sheet


class SheetBuilder:
    """One sub-kit's sheet, filled from the top."""

    def __init__(self, number: str, name: str, revision: str) -> None:
        self.sheet = Sheet(number, widths=(6, 18, 48, 8, 6, 6, 6, 5, 9, 8, 5, 26))
        self.classes: list[tuple[Cell, ...]] = []
        self.placed: list[Placed] = []
        self.crate = self.bag = ""
        self.pieces = 0
        self.page = 1
        for text in words.TITLE:
            self.row("head", text.format(number=number, name=name, revision=revision), bold=True)
        self.row("blank")
        self.head()

    def row(self, kind: str, *cells: Cell, bold: bool = False) -> int:
        """Append a row of a class."""
        number = self.sheet.add(*cells, bold=bold)
        self.classes.append((self.sheet.name, number, kind))
        return number

    def head(self) -> None:
        """Append the two rows of column heads."""
        top = self.row("head", *words.UPPER, "REMARKS", bold=True)
        self.sheet.merges.append((top, 5, top, 7))
        self.row("head", *words.LOWER, bold=True)

    def add(self, line: Line) -> None:
        """Append a line, with the headings and the page break that come before it."""
        if len(self.sheet.rows) >= PAGE * self.page:
            self.row("note", None, f"Sub-kit {self.sheet.name}, page {self.page}")
            self.row("blank")
            self.head()
            self.page += 1
        if line.crate != self.crate:
            self.crate, self.bag = line.crate, ""
            self.row("heading", f"CRATE {line.crate}  -  {words.CRATES[line.crate]}", bold=True)
        if line.bag and line.bag != self.bag:
            self.row("heading", None, f"BAG {line.bag}", "HARDWARE", None, 1, 1, 0, "EA")
        self.bag = line.bag
        number = len(self.placed) + 1
        amounts = [cell(text) for text in (line.ordered, line.shipped, line.due)]
        self.pieces += amounts[1] if isinstance(amounts[1], int) and line.unit == "EA" else 0
        texts = (line.length, line.bag, line.revision, line.remark)
        side = line.side or None
        tail = [text or None for text in texts]
        row = self.row("part", number, line.part, line.words, side, *amounts, line.unit, *tail)
        self.placed.append(Placed(self.sheet.name, row, number, line))

    def close(self) -> None:
        """Append what closes the sheet."""
        self.row("blank")
        self.row(
            "total", None, "TOTAL", f"{len(self.placed)} LINES", None, None, self.pieces, None, "EA"
        )
        self.row(
            "note", None, "Count within the days your order form names. Film off before priming."
        )


def cell(text: str) -> Cell:
    """Return a whole number as a number, anything else as text."""
    return int(text) if text.isdigit() else text
