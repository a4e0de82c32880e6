"""Quantities in words: pieces plain, other measures in the unit the list prints."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

from inventory.core.items import Measure
from inventory.core.measures.lengths import show_length
from inventory.core.measures.units import EACH, find_unit, in_unit, unit_by_code

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine


_SHOWN_IN = {Measure.MASS: ("GRM", "g"), Measure.VOLUME: ("MLT", "ml")}
"""Unit and its symbol (SI brochure, 9th edition; symbols from memory)."""


def measured(quantity: int, measure: Measure) -> str:
    """Return a quantity in the unit of its measure: `8`, `453.59237 g`, `4 ft`."""
    code, symbol = _SHOWN_IN.get(measure, ("", ""))
    unit = unit_by_code(code)
    if unit:
        return f"{(Decimal(quantity) / int(unit.size)).normalize():f} {symbol}"
    return show_length(quantity) if measure is Measure.LENGTH else str(quantity)


def amount_words(line: PackingLine, quantity: int) -> str:
    """Return a quantity of the line as a person says it: `8`, `1/4 pound`, `12 foot`."""
    if line.measure is Measure.PIECES:
        return str(quantity)
    unit = unit_by_code(line.unit) or find_unit(line.unit) or EACH
    return f"{in_unit(quantity, unit)} {unit.word}"
