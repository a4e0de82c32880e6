"""A reading of a packing list row by row, for a machine to check."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.lists.packing import CountRule, HeldLine, ListedHand, PackingLine
from inventory.core.measures.units import EACH, find_unit, in_unit, unit_by_code

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.lists.packing import PackingList, SourceRow

    Number = int | float | str | None
    Entry = dict[str, object]
    Key = tuple[str, int, int]


def audit_rows(packing_list: PackingList) -> list[Entry]:
    """Return one entry for each source row, with what it was taken for and why it is held.

    A row of two tables side by side gives one for each table, a row that prints two part numbers
    for left and right one for each. Amounts are in the printed unit: a whole number, else a
    decimal, else a fraction as text; null where the list gives none (AR, REF) or it is asked.
    `left` and `right` are of the ordered pieces; null where the part has no hand.
    """
    lines: defaultdict[Key, list[PackingLine]] = defaultdict(list)
    for line in packing_list.lines:
        lines[line.sheet, line.row, line.table].append(line)
    held = {(h.line.sheet, h.line.row, h.line.table): h for h in packing_list.held}
    asked: defaultdict[tuple[str, int], list[str]] = defaultdict(list)
    for question in packing_list.questions:
        for place in question.rows:
            asked[place].append(question.id)
    entries: list[Entry] = []
    for row in packing_list.rows:
        key = (row.sheet, row.row, row.table)
        if key in held:
            entries.append({**_row(row, held[key].questions), **_held(held[key])})
        elif key in lines:
            entries += [{**_row(row, ()), **part} for part in _parts(lines[key])]
        else:
            entries.append(_row(row, asked.get((row.sheet, row.row), ())))
    return entries


def _row(row: SourceRow, questions: Sequence[str]) -> Entry:
    return {
        "sheet": row.sheet,
        "row": row.row,
        "class": row.row_class.value,
        "why": row.why,
        "cells": list(row.cells),
        "questions": list(questions),
    }


def _parts(lines: list[PackingLine]) -> Iterable[Entry]:
    """Return the entries of a row's lines: a pair of one number is one entry again."""
    first = lines[0]
    if first.paired and len({line.part for line in lines}) == 1:
        return [_entry(first, ListedHand.PAIR, lines)]
    return [_entry(line, ListedHand(line.hand.value), [line]) for line in lines]


def _entry(line: PackingLine, hand: ListedHand, lines: Sequence[PackingLine]) -> Entry:
    counted = line.count_rule is CountRule.COUNTED
    handed = hand in {ListedHand.LEFT, ListedHand.RIGHT, ListedHand.PAIR}
    left, right = (
        sum(each.ordered for each in lines if each.hand is side) for side in (Hand.LEFT, Hand.RIGHT)
    )
    return {
        **_described(line),
        "hand": hand.value,
        "ordered": _amount(sum(each.ordered for each in lines), line) if counted else None,
        "shipped": _amount(sum(each.shipped for each in lines), line) if counted else None,
        "back_ordered": _amount(sum(e.back_ordered for e in lines), line) if counted else None,
        "left": left if handed and counted else None,
        "right": right if handed and counted else None,
    }


def _held(held: HeldLine) -> Entry:
    line, unknown = held.line, held.unknown
    counted = line.count_rule is CountRule.COUNTED
    amounts = {
        name: _amount(getattr(line, name), line) if counted and name not in unknown else None
        for name in ("ordered", "shipped", "back_ordered")
    }
    left = right = None
    if amounts["ordered"] is not None and held.hand in {ListedHand.LEFT, ListedHand.RIGHT}:
        is_left = held.hand is ListedHand.LEFT
        left, right = (line.ordered, 0) if is_left else (0, line.ordered)
    return {
        **_described(line),
        "hand": ListedHand.UNKNOWN.value if "hand" in unknown else held.hand.value,
        **amounts,
        "left": left,
        "right": right,
        "unknown": sorted(unknown),
    }


def _described(line: PackingLine) -> Entry:
    return {
        "part": line.part,
        "printed": line.printed,
        "description": line.description,
        "unit": line.unit,
        "unit_word": line.unit_word,
        "measure": line.measure.value,
        "count_rule": line.count_rule.value,
        "length_nm": line.length,
        "crate": line.crate,
        "bag": line.bag,
        "sub_kit": line.sub_kit,
        "revision": line.revision,
        "remark": line.remark,
        "item_number": line.item_number,
        "rounded": line.rounded,
    }


def _amount(quantity: int, line: PackingLine) -> Number:
    unit = unit_by_code(line.unit) or find_unit(line.unit) or EACH
    return plain_number(in_unit(quantity, unit))


def plain_number(number: Fraction) -> Number:
    """Return a number as JSON can say it exactly: whole, a short decimal, else a fraction."""
    if number.denominator == 1:
        return int(number)
    decimal = float(number)
    return decimal if Fraction(repr(decimal)) == number else str(number)
