"""Sheets that people at the bench keep: one head, then a row for each count or each move."""

from __future__ import annotations

from typing import TYPE_CHECKING, TypeVar

from inventory.core.errors import InventoryError, Problem
from inventory.core.frozen import frozen
from inventory.sheets.columns import find_headers
from inventory.sheets.formats.book import BLANK, Cell, cell_name
from inventory.sheets.formats.reading import read_book
from inventory.sheets.plan.plan_cells import Doubt, plain_text

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator
    from pathlib import Path

    from inventory.sheets.columns import Header, Vocabulary
    from inventory.sheets.formats.book import Row, Sheet

R = TypeVar("R")


@frozen
class BenchRow:
    """One filled row under its head."""

    sheet: str
    row: Row
    header: Header

    def cell(self, meaning: str) -> Cell:
        """Return the cell of a meaning; a blank one where the sheet has no such column."""
        place = self.header.place(meaning)
        return Cell("", BLANK) if place is None else self.row.cell(place)

    def text(self, meaning: str) -> str:
        """Return the text of a meaning; a date or an error raises `Doubt`."""
        return plain_text(self.cell(meaning)).strip()

    def where(self, meaning: str) -> str:
        """Return sheet and cell, as a message names them."""
        place = self.header.place(meaning)
        name = f"row {self.row.number}" if place is None else cell_name(self.row.number, place)
        return f"{self.sheet} {name}"


def read_rows(
    path: Path, vocabulary: Vocabulary, read: Callable[[BenchRow], R]
) -> tuple[list[R], list[Problem]]:
    """Return what `read` makes of each filled row, and a problem for each row it doubts.

    Raises `InventoryError` where no sheet of the file has the columns that are needed.
    """
    rows = [row for sheet in read_book(path).sheets for row in _rows_of(sheet, vocabulary)]
    if not rows:
        needed = ", ".join("/".join(sorted(group)) for group in vocabulary.needed)
        raise InventoryError(
            "no sheet of it has the columns that are needed, with rows under them",
            where=path.name,
            remedy=f"Give it a head row with: {needed}.",
        )
    taken: list[R] = []
    problems: list[Problem] = []
    for row in rows:
        try:
            taken.append(read(row))
        except Doubt as doubt:
            problems.append(Problem(doubt.what, row.where(""), doubt.remedy))
        except InventoryError as refused:
            problems.append(Problem(refused.what, row.where(""), refused.remedy))
    return taken, problems


def _rows_of(sheet: Sheet, vocabulary: Vocabulary) -> Iterator[BenchRow]:
    headers = find_headers(sheet.rows, vocabulary, sheet.merged)
    for number, header in enumerate(headers):
        end = headers[number + 1].first if number + 1 < len(headers) else len(sheet.rows)
        for row in sheet.rows[header.last + 1 : end]:
            if not row.blank:
                yield BenchRow(sheet.name, row, header)
