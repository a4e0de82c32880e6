"""What a person counted, in the measure of the part: pieces, or a mass, volume or length."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.items import Measure
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.core.measures.units import UNITS, amount_of, find_unit, meanings
from inventory.core.receiving.counts import read_pieces

if TYPE_CHECKING:
    from inventory.core.measures.units import Unit


def has_unit(text: str) -> bool:
    """Say whether the text is a number with a unit other than pieces: `1/2 LB`, `400 ml`."""
    read = parse_quantity(text)
    if read.kind is not QuantityKind.NUMBER or not read.unit:
        return False
    return any(unit.measure is not Measure.PIECES for unit in _units(read.unit))


def read_amount(text: str, measure: Measure, listed_unit: str = "") -> int:
    """Return a typed count in the smallest unit of the part's measure.

    A part counted by mass, volume or length needs its unit said: a bare number could be meant in
    any. A unit of two meanings is the one of that measure: `oz` of a rivet is an ounce.
    """
    if measure is Measure.PIECES:
        return read_pieces(text)
    read = parse_quantity(text)
    if read.kind is not QuantityKind.NUMBER or read.doubt:
        raise _refusal(text, read.doubt or "it is no number with a unit", listed_unit)
    unit = next((each for each in _units(read.unit) if each.measure is measure), None)
    if unit is None:
        raise _refusal(text, f"the part is counted by {measure}", listed_unit)
    amount = amount_of(read.number, unit)
    if amount is None or amount.quantity < 0:
        raise _refusal(text, "it is no whole number of nanometres", listed_unit)
    return amount.quantity


def _units(word: str) -> list[Unit]:
    found = find_unit(word)
    return [found] if found else [UNITS[name] for name in meanings(word) if name in UNITS]


def _refusal(text: str, why: str, listed_unit: str) -> InventoryError:
    unit = f", as the list does: {listed_unit}" if listed_unit else ""
    return InventoryError(
        f"{text.strip()[:40]!r} is not a count: {why}",
        remedy=f"Write it with its unit{unit}; for instance 1/2 LB or 400 ML.",
    )
