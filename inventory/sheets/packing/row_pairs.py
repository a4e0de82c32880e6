"""A row of both hands settled: how many left, how many right, ordered and shipped."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.sheets.packing.pair_split import Sides, checked_sides, split, split_shipped
from inventory.sheets.packing.row_read import RowRead, ask_whole, in_smallest

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.measures.printed_quantity import PrintedQuantity
    from inventory.sheets.packing.open_row import OpenRow


def as_pair(
    row: OpenRow, read: RowRead, cells: Mapping[str, PrintedQuantity], said: Sides | None
) -> RowRead:
    """Settle a row of both hands: how many left, how many right, ordered and shipped."""
    ordered = checked_sides(row, said, read.amounts, read.unit.unit) if said else None
    if said is None:
        ordered = split(row, read.amounts, cells, read.unit.unit)
    if ordered is None:
        return _unsplit(read)
    return with_sides(row, read, ordered)


def _unsplit(read: RowRead) -> RowRead:
    whole = in_smallest(read.amounts, read.unit.unit)
    return read if whole is None else replace(read, amounts=whole)


def with_sides(row: OpenRow, read: RowRead, ordered: Sides) -> RowRead:
    """Return the row with its ordered pieces by side, and its shipped ones."""
    printed = read.amounts.ordered
    factor = ordered.total / printed if printed else Fraction(1)
    shipped_total = read.amounts.shipped * factor
    shipped = split_shipped(ordered, shipped_total, read.marks.marks, row.asking)
    amounts = replace(
        read.amounts,
        ordered=ordered.total,
        shipped=shipped_total,
        back_ordered=read.amounts.back_ordered * factor,
    )
    sides = (*_numbers(ordered), *(_numbers(shipped) if shipped else ()))
    if any(number.denominator != 1 for number in sides):
        ask_whole(row, read)
        return read
    return replace(read, amounts=amounts, ordered=ordered, shipped=shipped)


def _numbers(sides: Sides) -> tuple[Fraction, Fraction]:
    return sides.left, sides.right
