"""Masses as a scale shows them: read to nanograms, and shown again in grams."""

from __future__ import annotations

import re

from inventory.core.errors import InventoryError
from inventory.core.items import Measure
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.core.measures.units import UNITS, find_unit

_MILLIGRAMS = re.compile(r"(.*[0-9])\s*mg\.?", re.IGNORECASE | re.DOTALL)
_OUNCES = frozenset({"OZ"})
"""Words that may mean something else on a list, but not beside a scale."""


def parse_mass(text: str) -> int:
    """Return a mass in nanograms; `61.6 g`, `0.5 oz`, `1/4 lb`, `2 kg`, `500 mg`.

    Raises `InventoryError` for anything that isn't plainly a mass with its unit.
    """
    small = _MILLIGRAMS.fullmatch(text.strip())
    read = parse_quantity(f"{small[1]} g" if small else text)
    if read.kind is not QuantityKind.NUMBER or read.doubt:
        raise _refusal(text, read.doubt or "it is no number with a unit")
    ounces = read.unit.upper().rstrip(".") in _OUNCES
    unit = UNITS["ounce"] if ounces else find_unit(read.unit)
    if unit is None or unit.measure is not Measure.MASS:
        raise _refusal(text, "its unit isn't one of mass" if read.unit else "it has no unit")
    nanograms = read.number * unit.size / (1000 if small else 1)
    return round(nanograms)


def show_mass(nanograms: int) -> str:
    """Return a mass in grams, exactly."""
    grams, rest = divmod(nanograms, 10**9)
    return f"{grams}.{rest:09d}".rstrip("0").rstrip(".") + " g"


def _refusal(text: str, why: str) -> InventoryError:
    return InventoryError(
        f"{text.strip()[:40]!r} can't be read as a mass: {why}",
        remedy="Write it with its unit, for instance 61.6g, 0.5oz or 1/4lb.",
    )
