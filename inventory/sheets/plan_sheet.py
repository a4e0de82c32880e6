"""The plan of work, read from a spreadsheet: steps, their order, and what each needs."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.items import part_key
from inventory.core.plan import Plan, Step
from inventory.core.plan_check import check_plan
from inventory.sheets.book import Sheet, cell_name
from inventory.sheets.plan_columns import PlanColumn, PlanTable, table_of
from inventory.sheets.plan_rows import PlanRow, need_of, size_of, step_of
from inventory.sheets.reading import read_book

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from inventory.core.plan import Need, PartSize
    from inventory.sheets.book import Book, Row

_TOTAL = re.compile(r"(?:sub-?)?totals?\b|page\s+[0-9]+(?:\s+of\s+[0-9]+)?\b", re.IGNORECASE)
_STEP_HEADING = re.compile(
    r"(?:step|operation|op)\b[\s.:#no]*([0-9A-Z][\w./-]*)\s*[-–—:.]?\s*(.*)", re.IGNORECASE
)
_SECTION_HEADING = re.compile(r"(?:section|chapter|part)\b.*", re.IGNORECASE)


def read_plan(path: Path) -> Plan:
    """Return the plan that a spreadsheet holds, with every problem found in it.

    The steps and the needs are two tables, on one sheet or on several, or one table whose rows
    name step and part together. While a problem stands, the plan isn't to be stored.
    """
    return plan_from_book(read_book(path))


def plan_from_book(book: Book) -> Plan:
    """Return the plan in a file that was read."""
    reading = _Reading()
    for sheet in book.sheets:
        reading.sheet(sheet)
    return reading.plan(book)


class _Reading:
    """What was found so far, sheet after sheet."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        self.mentioned: dict[str, Step] = {}
        self.needs: list[Need] = []
        self.sizes: list[PartSize] = []
        self.problems: list[Problem] = []
        self.notes: list[str] = []
        self.tables = 0

    def sheet(self, sheet: Sheet) -> None:
        """Read every table of one sheet."""
        table: PlanTable | None = None
        rows = _Rows(sheet)
        for row in sheet.rows:
            head = table_of(row)
            if head is not None:
                table = head
                self.tables += 1
                self._head(sheet, head)
                rows.start()
            elif table is not None and not row.blank:
                self._row(rows.row(row, table))
        if table is None and any(not row.blank for row in sheet.rows):
            self.notes.append(f"sheet {sheet.name}: no table of steps or needs")

    def _head(self, sheet: Sheet, table: PlanTable) -> None:
        unread = [name for name in table.unread if name.casefold() not in {"remark", "remarks"}]
        if unread:
            self.notes.append(f"sheet {sheet.name}: columns not read: {', '.join(unread)}")
        if sheet.hidden:
            self.problems.append(
                Problem(
                    "the sheet is hidden, yet it holds a table of the plan",
                    sheet.name,
                    "Show it if it counts, delete it if it doesn't",
                )
            )

    def _row(self, row: PlanRow) -> None:
        ...

    def plan(self, book: Book) -> Plan:
        """Put all together and look at it as a whole."""
        ...
