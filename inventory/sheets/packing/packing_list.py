"""A supplier's packing list, whatever its shape, to lines, held rows and questions."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.lists.packing import PackingList, RowClass
from inventory.sheets.formats.collector import resting_collector
from inventory.sheets.formats.reading import read_book
from inventory.sheets.packing.asking import Asking
from inventory.sheets.packing.doubtful_sheets import DoubtfulSheets
from inventory.sheets.packing.list_evidence import evidence_of
from inventory.sheets.packing.packing_columns import columns_read, settled_sections
from inventory.sheets.packing.packing_totals import check_totals
from inventory.sheets.packing.packing_vocabulary import VOCABULARY
from inventory.sheets.packing.plain_rows import PlainRows
from inventory.sheets.packing.row_reading import SheetClasses
from inventory.sheets.packing.rows_too_long import RowsTooLong
from inventory.sheets.packing.sheet_titles import title_print
from inventory.sheets.packing.title_block import supplier_of

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence
    from pathlib import Path

    from inventory.core.lists.layouts import SupplierLayout
    from inventory.core.lists.packing import HeldLine, PackingLine
    from inventory.sheets.formats.book import Book
    from inventory.sheets.packing.packing_tables import Section
    from inventory.sheets.packing.row_results import SheetRows


_CUT_BY = frozenset(f"columns by {sign}" for sign in ("commas", "semicolons", "tabs", "bars"))


def read_packing_list(
    path: Path,
    *,
    layout: SupplierLayout | None = None,
    answers: Mapping[str, str] | None = None,
) -> PackingList:
    """Return what a file says; raises `InventoryError` where it can't be read as a list at all.

    Doubts are questions in the result, and the rows they hold are in `held`, not in `lines`.
    `answers` are by the id of the question; a layout's standing answers go behind them.
    """
    with resting_collector():
        return packing_list_of(read_book(path), layout=layout, answers=answers)


def packing_list_of(
    book: Book,
    *,
    layout: SupplierLayout | None = None,
    answers: Mapping[str, str] | None = None,
) -> PackingList:
    """Return what a file says that was read already."""
    standing = dict(layout.answers) if layout else {}
    asking = Asking({**standing, **(answers or {})})
    vocabulary = replace(VOCABULARY, exact=layout.columns) if layout else VOCABULARY
    sections = settled_sections(book.sheets, vocabulary, asking)
    sheets = _classed(book, sections, asking)
    parts = [part for sheet in sheets for part in sheet.parts]
    too_long = RowsTooLong(parts, asking, delimited=not _CUT_BY.isdisjoint(book.remarks))
    doubtful = DoubtfulSheets(book.sheets, sheets, asking)
    lines, held = _lines(sheets, doubtful, too_long, asking)
    check_totals(sheets, asking)
    facts = _facts(sheets)
    return PackingList(
        source=book.name,
        sha256=book.sha256,
        supplier=_supplier(book, sections, facts),
        order=facts.get("order", ""),
        revision=facts.get("revision", ""),
        rows=tuple(row for sheet in sheets for row in sheet.rows),
        lines=lines,
        questions=asking.questions(),
        problems=(*asking.problems(), *([] if lines or held else [_nothing_listed(book)])),
        held=held,
        columns=columns_read(book.sheets, sections),
        form=book.form,
        remarks=(*book.remarks, *_remarks(book, sheets, asking, standing)),
        layout=layout.name if layout else "",
    )


def _classed(book: Book, sections: Sequence[Sequence[Section]], asking: Asking) -> list[SheetRows]:
    """Return the rows of each sheet with their classes; titles are compared over all sheets."""
    both = list(zip(book.sheets, sections, strict=True))
    titles = {
        title_print(row)
        for sheet, found in both
        if found
        for row in sheet.rows[: found[0].head.start]
    }
    return [SheetClasses(sheet, found, asking, titles).read() for sheet, found in both]


def _lines(
    sheets: Sequence[SheetRows], doubtful: DoubtfulSheets, too_long: RowsTooLong, asking: Asking
) -> tuple[tuple[PackingLine, ...], tuple[HeldLine, ...]]:
    parts = [part for sheet in sheets for part in sheet.parts]
    evidence = evidence_of(parts, [text for sheet in sheets for _, text in sheet.notes])
    plain = PlainRows(evidence)
    lines: list[PackingLine] = []
    held: list[HeldLine] = []
    doubted = doubtful.any or too_long.any
    for part in parts:
        held_by = (doubtful.question(part) or too_long.question(part)) if doubted else ""
        if doubted and doubtful.left_out(part):
            continue
        line = None if held_by else plain.line(part)
        if line is not None:
            lines.append(line)
            continue
        # Many lists have no such row, and the long way takes a while to load.
        from inventory.sheets.packing.packing_parts import lines_of_row  # noqa: PLC0415

        read, waiting = lines_of_row(part, evidence, asking, held_by)
        lines.extend(read)
        if waiting is not None:
            held.append(waiting)
    return tuple(lines), tuple(held)


def _nothing_listed(book: Book) -> Problem:
    return Problem(
        "no row of it was understood as a part",
        book.name,
        "Give the list itself; name its columns in a row above them, or in a layout",
    )


def _facts(sheets: Sequence[SheetRows]) -> dict[str, str]:
    facts: dict[str, str] = {}
    for sheet in sheets:
        for name, value in sheet.facts.items():
            facts.setdefault(name, value)
    return facts


def _supplier(book: Book, sections: Sequence[Sequence[Section]], facts: dict[str, str]) -> str:
    for sheet, found in zip(book.sheets, sections, strict=True):
        first = found[0].head.start if found else len(sheet.rows)
        name = supplier_of(sheet.rows[:first], facts)
        if name:
            return name
    return ""


def _remarks(
    book: Book, sheets: Sequence[SheetRows], asking: Asking, standing: Mapping[str, str]
) -> list[str]:
    remarks = []
    for sheet, read in zip(book.sheets, sheets, strict=True):
        hidden = sum(part.row.hidden for part in read.parts)
        if hidden:
            how = "a filter" if sheet.filtered else "the sheet"
            remarks.append(f"sheet {sheet.name}: {hidden} part rows that {how} hides were read too")
        remarks += [
            f"sheet {sheet.name}: rows without a {kind.replace('_', '-')}: {rows}; the one named "
            "above them is taken"
            for kind, rows in read.carried.items()
        ]
    known = {" ".join(name.split()).casefold() for name in standing}
    remarks += [
        f"no question of this list is named {name!r}"
        for name in asking.unused()
        if name not in known
    ]
    return remarks


def counts_by_class(packing_list: PackingList) -> dict[RowClass, int]:
    """Return how many rows are of each class, in the order of the classes."""
    return {each: sum(row.row_class is each for row in packing_list.rows) for each in RowClass}
