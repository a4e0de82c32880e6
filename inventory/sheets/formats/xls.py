"""An old .xls workbook to sheets, with strike-through, hidden rows and number formats."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import TYPE_CHECKING

import xlrd

from inventory.core.errors import InventoryError
from inventory.sheets.formats.book import (
    BLANK,
    PLAIN_NUMBER,
    PLAIN_TEXT,
    Area,
    CellKind,
    Mark,
    Row,
    Sheet,
)
from inventory.sheets.formats.texts import clean, leading_blanks
from inventory.sheets.formats.xlsx_cells import CellReader, Workbook

if TYPE_CHECKING:
    from collections.abc import Mapping

_DAMAGED = "Open it in a spreadsheet program and save it as .xlsx"
_PROTECTED = "EncryptedPackage".encode("utf-16-le")


def read_xls(content: bytes, name: str) -> tuple[Sheet, ...]:
    """Return the sheets of an .xls workbook; raises `InventoryError` where it can't be read."""
    if _PROTECTED in content:
        raise InventoryError(
            "it is protected by a password", where=name, remedy="Save it without a password"
        )
    try:
        book = xlrd.open_workbook(
            file_contents=content,
            formatting_info=True,
            ragged_rows=True,  # else one far cell makes a table as wide and long as it is far
            logfile=io.StringIO(),
        )
        return tuple(_sheet(book, sheet) for sheet in book.sheets())
    except InventoryError:
        raise
    except xlrd.XLRDError as cause:
        if "encrypt" in str(cause).lower():
            raise InventoryError(
                "it is protected by a password", where=name, remedy="Save it without a password"
            ) from cause
        raise _damaged(name) from cause
    except Exception as cause:
        # The library meets broken bytes with errors of every kind; each means the same here.
        raise _damaged(name) from cause


def _damaged(name: str) -> InventoryError:
    return InventoryError(
        "the .xls workbook is damaged; nothing was read", where=name, remedy=_DAMAGED
    )


def _sheet(book: xlrd.Book, sheet: xlrd.sheet.Sheet) -> Sheet:
    reader = _CellReader(book, sheet)
    rows = [row for number in range(sheet.nrows) if (row := reader.row(number)) is not None]
    hidden = frozenset(place for place, info in sheet.colinfo_map.items() if info.hidden)
    return Sheet(
        name=clean(sheet.name),
        rows=tuple(rows),
        hidden=sheet.visibility != 0,
        hidden_columns=hidden,
        merged=tuple(Area(r + 1, c, rr, cc - 1) for r, rr, c, cc in sheet.merged_cells),
    )


class _CellReader:
    """Turns the cells of one .xls sheet into texts and marks."""

    def __init__(self, book: xlrd.Book, sheet: xlrd.sheet.Sheet) -> None:
        self._book = book
        self._sheet = sheet
        self._numbers = CellReader(Workbook(epoch_1904=book.datemode == 1))
        self._looks: dict[int, Mark] = {}
        self._comments: Mapping[tuple[int, int], xlrd.sheet.Note] = sheet.cell_note_map

    def row(self, number: int) -> Row | None:
        """Return a row; None where nothing stands in it."""
        texts: list[str] = []
        marks: dict[int, Mark] = {}
        numbers = 0
        for column in range(self._sheet.row_len(number)):
            text, mark = self._cell(number, column)
            texts.append(text)
            if mark is PLAIN_NUMBER:
                numbers |= 1 << column
            elif mark is not BLANK and mark != PLAIN_TEXT:
                marks[column] = mark
        while texts and not texts[-1]:
            texts.pop()
        if not texts:
            return None
        info = self._sheet.rowinfo_map.get(number)
        hidden, level = (bool(info.hidden), info.outline_level) if info else (False, 0)
        return Row(number + 1, tuple(texts), numbers, marks, hidden, level)

    def _cell(self, number: int, column: int) -> tuple[str, Mark]:
        cell = self._sheet.cell(number, column)
        look = self._look(cell.xf_index)
        text, mark = self._value(cell, look)
        comment = self._comments.get((number, column))
        if not text and comment is None:
            return "", BLANK
        if look == PLAIN_TEXT and comment is None and not self._rich(number, column):
            return text, mark
        return text, replace(
            mark,
            strike=look.strike,
            part_struck=self._part_struck(number, column, cell.value) if not look.strike else "",
            fill=look.fill,
            bold=look.bold,
            indent=max(mark.indent, look.indent),
            comment=clean(comment.text) if comment is not None else "",
        )

    def _value(self, cell: xlrd.sheet.Cell, look: Mark) -> tuple[str, Mark]:
        if cell.ctype == xlrd.XL_CELL_TEXT:
            indent = leading_blanks(cell.value) if cell.value[:1].isspace() else 0
            return clean(cell.value), Mark(indent=indent) if indent else PLAIN_TEXT
        if cell.ctype in {xlrd.XL_CELL_NUMBER, xlrd.XL_CELL_DATE}:
            stored = repr(cell.value).removesuffix(".0")
            return self._numbers.number(stored, look.number_format)
        if cell.ctype == xlrd.XL_CELL_BOOLEAN:
            shown = "TRUE" if cell.value else "FALSE"
            return shown, Mark(kind=CellKind.BOOLEAN, value=shown)
        if cell.ctype == xlrd.XL_CELL_ERROR:
            shown = str(xlrd.error_text_from_code.get(cell.value, "#ERROR"))
            return shown, Mark(kind=CellKind.ERROR, value=shown)
        return "", BLANK

    def _look(self, index: int) -> Mark:
        """Return what a style says, as the mark of a text in it."""
        known = self._looks.get(index)
        if known is None:
            known = self._looks[index] = self._read_look(index)
        return known

    def _read_look(self, index: int) -> Mark:
        style = self._book.xf_list[index]
        font = self._book.font_list[style.font_index]
        shown = self._book.format_map[style.format_key].format_str
        colour = self._book.colour_map.get(style.background.pattern_colour_index)
        filled = style.background.fill_pattern and colour and colour != (255, 255, 255)
        return Mark(
            number_format="" if shown.lower() in {"general", "@"} else shown,
            strike=bool(font.struck_out),
            bold=bool(font.bold),
            fill="".join(f"{part:02X}" for part in colour) if filled else "",
            indent=style.alignment.indent_level,
        )

    def _rich(self, number: int, column: int) -> bool:
        return (number, column) in self._sheet.rich_text_runlist_map

    def _part_struck(self, number: int, column: int, text: str) -> str:
        runs = self._sheet.rich_text_runlist_map.get((number, column), ())
        ends = [start for start, _ in runs[1:]] + [len(str(text))]
        struck = [
            str(text)[start:end]
            for (start, font), end in zip(runs, ends, strict=False)
            if self._book.font_list[font].struck_out
        ]
        return clean("".join(struck))
