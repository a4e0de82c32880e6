"""Small lists written in a test, read as any other."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.lists.packing_audit import audit_rows
from inventory.sheets.formats.book import Book, Row, Sheet
from inventory.sheets.packing.packing_list import packing_list_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.lists.layouts import SupplierLayout
    from inventory.core.lists.packing import PackingList

HEAD = ("PART NUMBER", "DESCRIPTION", "HAND", "QTY", "U/M", "REMARKS")


def sheet_of(rows: Sequence[Sequence[str]], name: str = "L", *, hidden: bool = False) -> Sheet:
    """Return rows of texts as a sheet."""
    cut = [tuple(row) for row in rows]
    ends = [max((place + 1 for place, text in enumerate(row) if text), default=0) for row in cut]
    kept = [Row(n, row[:end]) for n, (row, end) in enumerate(zip(cut, ends, strict=True), 1)]
    return Sheet(name=name, rows=tuple(kept), hidden=hidden)


def read(
    *rows: Sequence[str],
    head: Sequence[str] = HEAD,
    answers: Mapping[str, str] | None = None,
    layout: SupplierLayout | None = None,
) -> PackingList:
    """Read a list of one sheet named L: a head row and the rows under it."""
    return read_sheets(sheet_of([head, *rows]), answers=answers, layout=layout)


def read_sheets(
    *sheets: Sheet,
    answers: Mapping[str, str] | None = None,
    layout: SupplierLayout | None = None,
) -> PackingList:
    """Read a list of several sheets."""
    book = Book(name="list.xlsx", sha256="0", form="xlsx", sheets=sheets)
    return packing_list_of(book, answers=answers, layout=layout)


def parts(packing_list: PackingList) -> list[str]:
    """Return each part in words: number, hand, amounts, unit, left and right, or what is asked."""
    return [_said(entry) for entry in audit_rows(packing_list) if "part" in entry]


def _said(entry: Mapping[str, object]) -> str:
    three = [entry[name] for name in ("ordered", "shipped", "back_ordered")]
    words = [
        str(entry["part"]),
        str(entry["hand"]),
        "/".join("-" if value is None else str(value) for value in three),
        str(entry["unit"]),
    ]
    if entry["left"] is not None:
        words.append(f"L{entry['left']} R{entry['right']}")
    questions = entry["questions"]
    if isinstance(questions, list) and questions:
        words.append(f"? {', '.join(questions)}")
    return " ".join(words)
