"""What must hold of every reading, whatever the file: no row lost, none made up."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.lists.packing import RowClass
from inventory.core.lists.packing_audit import audit_rows

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingList
    from inventory.sheets.formats.book import Book


def faults(book: Book, read: PackingList) -> list[str]:
    """Return in words what is lost or made up between a book and its reading."""
    found = [*_rows(book, read), *_lines(read), *_questions(read)]
    entries = {(entry["sheet"], entry["row"]) for entry in audit_rows(read)}
    if entries != {(row.sheet, row.row) for row in read.rows}:
        found.append("the entries are of other rows than the list")
    return found


def _rows(book: Book, read: PackingList) -> list[str]:
    there = Counter((sheet.name, row.number) for sheet in book.sheets for row in sheet.rows)
    names = Counter(sheet.name for sheet in book.sheets)
    classed = Counter((row.sheet, row.row, row.table) for row in read.rows)
    found = []
    if set(there) != {(sheet, row) for sheet, row, _ in classed}:
        found.append("rows of the sheet and rows of the list differ")
    if max(names.values(), default=1) == 1 and max(classed.values(), default=1) > 1:
        found.append("a row has two classes")
    blank = {(s.name, row.number) for s in book.sheets for row in s.rows if not row.blank}
    lost = [r for r in read.rows if r.row_class is RowClass.BLANK and (r.sheet, r.row) in blank]
    return found + [f"row {row.row} is called blank" for row in lost if max(names.values()) == 1]


def _lines(read: PackingList) -> list[str]:
    parts = {(r.sheet, r.row, r.table) for r in read.rows if r.row_class is RowClass.PART}
    lines = {(line.sheet, line.row, line.table) for line in read.lines}
    held = {(h.line.sheet, h.line.row, h.line.table) for h in read.held}
    found = [f"part row {key} gives nothing" for key in parts - lines - held]
    found += [f"line {key} is of no part row" for key in (lines | held) - parts]
    return found + [f"row {key} is held and taken" for key in lines & held]


def _questions(read: PackingList) -> list[str]:
    ids = {question.id for question in read.questions}
    asked = {name for held in read.held for name in held.questions}
    found = [f"question {name!r} isn't asked" for name in asked - ids]
    negative = [
        line for line in read.lines if min(line.ordered, line.shipped, line.back_ordered) < 0
    ]
    return found + [f"row {line.row} has a negative amount" for line in negative]
