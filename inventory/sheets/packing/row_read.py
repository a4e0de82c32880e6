"""What the cells of one part row come to: number, hand, amounts, unit, marks."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.measures.units import amount_of
from inventory.sheets.packing.amounts import ALL, Amounts

if TYPE_CHECKING:
    from inventory.core.lists.packing import ListedHand
    from inventory.core.measures.units import Unit
    from inventory.sheets.packing.amount_cells import UnitRead
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.pair_split import Sides
    from inventory.sheets.packing.part_cells import NumberRead
    from inventory.sheets.packing.row_marks import RowMarks


@frozen(kw_only=True)
class RowRead:
    """What one part row says, before it becomes lines."""

    number: NumberRead
    hand: ListedHand
    parts: tuple[str, str] | None
    amounts: Amounts
    """In smallest units."""
    unit: UnitRead
    length: int
    marks: RowMarks
    ordered: Sides | None = None
    """By side, in smallest units, where the row is a pair."""
    shipped: Sides | None = None


def in_smallest(amounts: Amounts, unit: Unit) -> Amounts | None:
    """Return amounts in smallest units; None where pieces or a length come out broken."""
    ordered = amount_of(amounts.ordered, unit)
    shipped = amount_of(amounts.shipped, unit)
    waiting = amount_of(amounts.back_ordered, unit)
    if ordered is None or shipped is None or waiting is None:
        return None
    return Amounts(
        ordered=Fraction(ordered.quantity),
        shipped=Fraction(shipped.quantity),
        back_ordered=Fraction(waiting.quantity),
        rounded=ordered.rounded or shipped.rounded,
    )


def ask_whole(row: OpenRow, read: RowRead) -> None:
    """Ask what half a piece is meant to be."""
    answer = row.asking.about_row(
        "quantity",
        f"{read.amounts.ordered} {read.unit.unit.word} isn't a whole number of pieces",
        {},
    )
    if answer is None:
        row.asking.unknown.update(ALL)
