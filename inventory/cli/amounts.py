"""Quantities as a person says them: pieces, pieces of a length, grams, millilitres."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from inventory.core.plan import Need

_SHOWN_IN = {"mass": "GRM", "volume": "MLT"}


def amount(need: Need, quantity: int, *, bare: bool = False) -> str:
    """Return a quantity of what a need asks for, with its unit, and its length unless `bare`."""
    if need.measure == "pieces" and (bare or not need.length):
        return str(quantity)
    from inventory.core.lengths import show_length
    from inventory.core.units import in_unit, unit_by_code

    if need.length:
        return f"{quantity} x {show_length(need.length)}"
    unit = unit_by_code(_SHOWN_IN.get(need.measure, ""))
    return f"{in_unit(quantity, unit)} {unit.word}" if unit else show_length(quantity)
