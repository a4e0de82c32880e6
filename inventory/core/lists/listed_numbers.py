"""Quantities as bare numbers of the list's unit, for columns that hold numbers only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import Measure
from inventory.core.measures.units import find_unit, in_unit, unit_by_code

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine
    from inventory.core.measures.units import Unit


def listed_number(line: PackingLine | None, quantity: int) -> str:
    """Return a quantity as a number of the line's unit; pieces where no line is known."""
    unit = _unit(line)
    return str(in_unit(quantity, unit)) if unit else str(quantity)


def unit_word(line: PackingLine | None) -> str:
    """Return the unit that the number is of: a word, or EA for pieces."""
    unit = _unit(line)
    return unit.word if unit else "EA"


def _unit(line: PackingLine | None) -> Unit | None:
    """Return the unit of a line that isn't counted in pieces."""
    if line is None or line.measure is Measure.PIECES:
        return None
    return unit_by_code(line.unit) or find_unit(line.unit)
