"""The plan of work, read from a spreadsheet: steps, their order, and what each needs."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.planning.plan import Plan, Step
from inventory.core.planning.plan_check import check_plan
from inventory.sheets.formats.reading import read_book
from inventory.sheets.plan.plan_columns import PlanColumn, table_of
from inventory.sheets.plan.plan_rows import PlanRow, need_of, size_of, step_of
from inventory.sheets.plan.plan_steps import settled_steps

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.planning.plan import Need, PartSize
    from inventory.sheets.formats.book import Book, Row, Sheet
    from inventory.sheets.plan.plan_columns import PlanTable

_TOTAL = re.compile(r"(?:sub-?)?totals?\b|page\s+[0-9]+(?:\s+of\s+[0-9]+)?\b", re.IGNORECASE)
_SECTION = re.compile(r"(?:section|chapter)\b", re.IGNORECASE)
_STEP = re.compile(
    r"(?:step|operation|op)\b[\s.:#]*(?:no\.?\s+)?([0-9A-Z][\w./-]*)(?:\s*[-–—:.]?\s+(.*))?",
    re.IGNORECASE,
)
_KEPT_BELOW = (PlanColumn.SECTION, PlanColumn.SUB_ASSEMBLY)


def read_plan(path: Path) -> Plan:
    """Return the plan that a spreadsheet holds, with every problem found in it.

    Steps and needs are two tables, on one sheet or on several, or one table whose rows name
    step and part together. While a problem stands, the plan isn't to be stored.
    """
    return plan_from_book(read_book(path))


def plan_from_book(book: Book) -> Plan:
    """Return the plan in a file that was read."""
    reading = _Reading()
    for sheet in book.sheets:
        _Page(sheet, reading).read()
    if not reading.tables:
        reading.problems.append(
            Problem(
                "no table of steps or needs was found",
                book.name,
                "Head its columns step, part number, hand, quantity, unit, kind, length",
            )
        )
    steps, needs, problems = settled_steps(reading.steps, reading.mentioned, reading.needs)
    plan = Plan(
        source=book.name,
        sha256=book.sha256,
        steps=steps,
        needs=needs,
        sizes=tuple(dict.fromkeys(reading.sizes)),
        notes=tuple(reading.notes),
    )
    found = (*reading.problems, *problems, *check_plan(plan))
    return replace(plan, problems=found)


class _Reading:
    """What was found so far, sheet after sheet."""

    def __init__(self) -> None:
        self.steps: list[Step] = []
        """From tables of steps."""
        self.mentioned: list[Step] = []
        """From tables of needs, each row that tells something of its step."""
        self.needs: list[Need] = []
        self.sizes: list[PartSize] = []
        self.problems: list[Problem] = []
        self.notes: list[str] = []
        self.tables = 0


class _Page:
    """One sheet being read from top to bottom."""

    def __init__(self, sheet: Sheet, reading: _Reading) -> None:
        self.sheet = sheet
        self.reading = reading
        self.above: dict[PlanColumn, str] = {}
        """What headings and the rows above say for the rows below."""
        self._merged = {
            (row, area.first_column): area.first_row
            for area in sheet.merged
            for row in range(area.first_row, min(area.last_row, len(sheet.rows)) + 1)
        }
        self._wide = {
            (area.first_row, area.first_column)
            for area in sheet.merged
            if area.last_column > area.first_column
        }

    def read(self) -> None:
        """Read every table of the sheet."""
        table: PlanTable | None = None
        for row in self.sheet.rows:
            head = table_of(row)
            if head is not None:
                if table is None or head.columns != table.columns:
                    self._begin(head)
                table = head
            elif table is not None and not row.blank:
                self._row(PlanRow(self.sheet.name, row, table, self._said(row, table)))
        if table is None and any(not row.blank for row in self.sheet.rows):
            self.reading.notes.append(f"{self.sheet.name}: no table of steps or needs")

    def _begin(self, table: PlanTable) -> None:
        self.reading.tables += 1
        self.above.clear()
        if table.unread:
            names = ", ".join(table.unread)
            self.reading.notes.append(f"{self.sheet.name}: columns not read: {names}")
        if self.sheet.hidden:
            self._problem(
                "the sheet is hidden, yet it holds a table of the plan",
                self.sheet.name,
                "Show it if it counts, delete it if it doesn't",
            )

    def _problem(self, what: str, where: str, remedy: str) -> None:
        self.reading.problems.append(Problem(what, where, remedy))

    def _said(self, row: Row, table: PlanTable) -> dict[PlanColumn, str]:
        """Return what cells merged downwards and rows above say for a row."""
        said = {column: self.above[column] for column in _KEPT_BELOW if column in self.above}
        both = table.holds_needs and table.tells_steps
        if PlanColumn.STEP in self.above and (both or not table.names_steps):
            said[PlanColumn.STEP] = self.above[PlanColumn.STEP]
        for column, place in table.columns.items():
            first = self._merged.get((row.number, place), row.number)
            if first < row.number:
                said[column] = self.sheet.rows[first - 1].text(place)
        return said

    def _row(self, row: PlanRow) -> None:
        filled = [place for place, text in enumerate(row.row.texts) if text]
        if self._is_struck(row):
            return
        has_part = bool(row.cell(PlanColumn.PART).text)
        if not has_part and _TOTAL.match(row.row.text(filled[0])):
            self._left_out(row, filled[0])
        elif not has_part and len(filled) == 1 and self._heading(row, filled[0]):
            return
        else:
            self._entry(row, has_part=has_part)
        self.reading.problems += row.problems

    def _is_struck(self, row: PlanRow) -> bool:
        columns = (PlanColumn.STEP, PlanColumn.PART, PlanColumn.QUANTITY)
        struck = [column for column in columns if row.cell(column).mark.strike]
        for column in struck[:1]:
            self._problem(
                f"{row.cell(column).text} is struck out",
                row.at(column),
                "Delete the row if it no longer counts, else take the line off",
            )
        return bool(struck)

    def _left_out(self, row: PlanRow, place: int) -> None:
        self.reading.notes.append(
            f"{self.sheet.name}: row {row.row.number} not read: {row.row.text(place)}"
        )

    def _heading(self, row: PlanRow, place: int) -> bool:
        """Take a lone cell as heading or note; return whether it was one."""
        text = row.row.text(place)
        step = _STEP.fullmatch(text)
        if step and not row.table.names_steps:
            self.above[PlanColumn.STEP] = step[1]
            where = f"{self.sheet.name}!{row.row.number}"
            self.reading.mentioned.append(
                Step(
                    code=step[1],
                    title=step[2] or "",
                    section=self.above.get(PlanColumn.SECTION, ""),
                    row=row.row.number,
                    where=where,
                )
            )
        elif _SECTION.match(text) or (row.row.number, place) in self._wide:
            self.above = {PlanColumn.SECTION: text}
        elif place == row.table.columns.get(PlanColumn.STEP):
            return False
        else:
            self._left_out(row, place)
        return True

    def _entry(self, row: PlanRow, *, has_part: bool) -> None:
        code = " ".join(row.text(PlanColumn.STEP).split())
        lacking = self._lacking(row, code, has_part=has_part)
        if lacking is not None:
            self._problem(
                f"the row names no {lacking}", row.at(lacking), "Fill it in, or empty the row"
            )
            return
        self._keep_below(row, code)
        if not row.table.holds_needs:
            self.reading.steps.append(step_of(row, code))
            return
        if row.cell(PlanColumn.STEP).text:
            self.reading.mentioned.append(step_of(row, code))
        if has_part:
            self._need(row, code)

    def _lacking(self, row: PlanRow, code: str, *, has_part: bool) -> PlanColumn | None:
        """Return what a row must name and doesn't."""
        if not code:
            return PlanColumn.STEP
        of_step = row.table.tells_steps and row.cell(PlanColumn.STEP).text
        if not has_part and (row.cell(PlanColumn.QUANTITY).text or not of_step):
            return PlanColumn.PART
        return None

    def _keep_below(self, row: PlanRow, code: str) -> None:
        self.above[PlanColumn.STEP] = code
        for column in _KEPT_BELOW:
            text = row.cell(column).text
            if text and column is PlanColumn.SECTION:
                self.above.pop(PlanColumn.SUB_ASSEMBLY, None)
            if text:
                self.above[column] = text

    def _need(self, row: PlanRow, code: str) -> None:
        need = need_of(row, code)
        if need is not None:
            self.reading.needs.append(need)
            size = size_of(row, need)
            self.reading.sizes += [size] if size else []
