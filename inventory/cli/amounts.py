"""Quantities as a person says them: pieces, pieces of a length, grams, millilitres."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from inventory.core.items import Measure
    from inventory.core.plan import Need

_SHOWN_IN = {"mass": "GRM", "volume": "MLT"}


def quantity_words(quantity: int, measure: Measure, length: int = 0) -> str:
    """Return a quantity with its unit; of pieces with a length, with that length."""
    if measure == "pieces" and not length:
        return str(quantity)
    from inventory.core.lengths import show_length
    from inventory.core.units import in_unit, unit_by_code

    if length:
        return f"{quantity} x {show_length(length)}"
    unit = unit_by_code(_SHOWN_IN.get(measure, ""))
    return f"{in_unit(quantity, unit)} {unit.word}" if unit else show_length(quantity)


def amount(need: Need, quantity: int, *, bare: bool = False) -> str:
    """Return a quantity of what a need asks for, with its unit, and its length unless `bare`."""
    plain = bare and need.measure == "pieces"
    return str(quantity) if plain else quantity_words(quantity, need.measure, need.length)


def needed(need: Need) -> str:
    """Return what a need asks for; AR where the plan says as required."""
    return "AR" if need.as_required else amount(need, need.quantity)
