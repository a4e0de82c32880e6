"""The list's own totals as a check on the lines and pieces that were read."""

from __future__ import annotations

import re
from fractions import Fraction
from itertools import pairwise
from typing import TYPE_CHECKING

from inventory.core.items import Measure
from inventory.core.lists.packing import Reading
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.units import find_unit
from inventory.core.patterns import pattern
from inventory.sheets.packing.asking import Doubt
from inventory.sheets.packing.packing_vocabulary import COUNTED

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.row_results import PartRow, SheetRows, TotalRow

_LINES = pattern(
    r"\b(?:LINES?|LINE ITEMS|ITEMS)\b\W*(?:LISTED|TOTAL)?\W*([0-9][0-9,]*)"
    r"|\b([0-9][0-9,]*)\s*(?:LINES?|LINE ITEMS|ITEMS)\b",
    re.IGNORECASE,
)


def check_totals(sheets: Sequence[SheetRows], asking: Asking) -> None:
    """Ask about each total that agrees with no way of adding up what stands above it."""
    every = [part for sheet in sheets for part in sheet.parts]
    for sheet in sheets:
        for total in sheet.totals:
            wrong = _disagreements(total, sheet, every)
            if wrong:
                _ask(total, wrong, asking)


def _disagreements(total: TotalRow, sheet: SheetRows, every: Sequence[PartRow]) -> list[str]:
    ranges = _ranges(total, sheet, every)
    return [*_wrong_lines(total, ranges), *_wrong_sums(total, ranges)]


def _ranges(total: TotalRow, sheet: SheetRows, every: Sequence[PartRow]) -> list[Sequence[PartRow]]:
    """Return the part rows that a total can be over: its block, its sub-kit, its sheet, all."""
    above = sheet.parts[: total.parts_before]
    starts = [0, *(other.parts_before for other in sheet.totals if other is not total)]
    blocks = [above[start:] for start in starts if start < len(above)]
    blocks += [above[at:] for at in _changes(above)]
    return [above, every, *blocks]


def _changes(parts: Sequence[PartRow]) -> list[int]:
    """Return where crate, bag or sub-kit change, from the bottom up; a few suffice."""
    where = [(part.crate, part.bag, part.sub_kit) for part in parts]
    changed = [at + 1 for at, (a, b) in enumerate(pairwise(where)) if a != b]
    return changed[-20:]


def _wrong_lines(total: TotalRow, ranges: Sequence[Sequence[PartRow]]) -> list[str]:
    found = _LINES.search(total.view.words)
    if found is None:
        return []
    said = int((found[1] or found[2]).replace(",", ""))
    if any(said in _line_counts(parts) for parts in ranges):
        return []
    return [f"{said} lines, but {len(ranges[0])} were read above it"]


def _line_counts(parts: Sequence[PartRow]) -> set[int]:
    counted = sum(
        quantity.kind is QuantityKind.NUMBER
        for part in parts
        for quantity in list(part.view.amounts().values())[:1]
    )
    items = {part.text("item") for part in parts} - {""}
    shown = sum(not part.row.hidden for part in parts)
    return {len(parts), counted, len(items), shown}


def _wrong_sums(total: TotalRow, ranges: Sequence[Sequence[PartRow]]) -> list[str]:
    wrong = []
    for column in total.view.table.columns:
        text = total.view.row.text(column.place)
        quantity = total.view.amounts().get(column.meaning)
        if column.meaning not in COUNTED or not text or quantity is None:
            continue
        if quantity.kind is not QuantityKind.NUMBER or _LINES.search(text):
            continue
        sums = [_sum(parts, column.meaning) for parts in ranges]
        counted = [_sum(_in_pieces(parts), column.meaning) for parts in ranges]
        if quantity.number not in {*sums, *counted, *(len(parts) for parts in ranges)}:
            wrong.append(f"{text} as {column.heading or column.name}, the rows make {sums[0]}")
    return wrong


def _in_pieces(parts: Sequence[PartRow]) -> list[PartRow]:
    """Return the rows that count pieces: totals leave out pounds and litres."""
    units = ((part, find_unit(part.text("unit") or "EA")) for part in parts)
    return [part for part, unit in units if unit is None or unit.measure is Measure.PIECES]


def _sum(parts: Sequence[PartRow], meaning: str) -> Fraction:
    amounts = (part.view.amounts().get(meaning) for part in parts)
    numbers = (q.number for q in amounts if q is not None and q.kind is QuantityKind.NUMBER)
    return sum(numbers, Fraction(0))


def _ask(total: TotalRow, wrong: Sequence[str], asking: Asking) -> None:
    row = total.view.row.number
    asking.ask(
        Doubt(
            f"{total.sheet} row {row} total",
            f"the list's own total says {'; '.join(wrong)}",
            (Reading("rows hold", "the rows are taken as they stand, the total is wrong"),),
        ),
        total.sheet,
        row,
    )
