"""Plans as rows of cells, for the tests that read them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.sheets.formats.book import Area, Book, Row, Sheet
from inventory.sheets.plan.plan_sheet import plan_from_book

if TYPE_CHECKING:
    from inventory.core.planning.plan import Plan

Text = str | int | None
NEEDS = ("Step", "Part number", "Hand", "Quantity", "Unit", "Kind", "Cut length", "Spare")


def row_of(number: int, cells: tuple[Text, ...]) -> Row:
    bits = sum(1 << place for place, cell in enumerate(cells) if isinstance(cell, int))
    return Row(number, tuple("" if cell is None else str(cell) for cell in cells), bits)


def sheet_of(name: str, *rows: tuple[Text, ...], merged: tuple[Area, ...] = ()) -> Sheet:
    numbered = tuple(row_of(number, cells) for number, cells in enumerate(rows, 1))
    return Sheet(name=name, rows=numbered, merged=merged)


def plan_of(*sheets: Sheet) -> Plan:
    return plan_from_book(Book(name="plan.xlsx", sha256="0", form="xlsx", sheets=sheets))


def needs_plan(*rows: tuple[Text, ...]) -> Plan:
    return plan_of(
        sheet_of("Steps", ("Step", "Title"), ("10-01", "Keel")), sheet_of("Needs", NEEDS, *rows)
    )


def told(plan: Plan) -> list[str]:
    return [f"{problem.where}: {problem.what}" for problem in plan.problems]
