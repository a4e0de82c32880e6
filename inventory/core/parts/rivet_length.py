"""Which rivet length a grip asks for: a hint, the plans decide."""

from __future__ import annotations

from fractions import Fraction

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.lengths import INCH

HALF_SIZE = INCH // 32
"""Nanometres: lengths come in sixteenths and half sizes (FAA AC 43.13-1B, 4-57a(4))."""


@frozen
class RivetLength:
    """The length that a grip and a diameter ask for."""

    needed: int
    """Nanometres: grip and one and a half diameters."""
    code: Fraction
    """Length code in sixteenths, in halves: 9/2 is printed 4.5."""

    def __str__(self) -> str:
        """Return the code as it is printed behind the dash."""
        whole, half = divmod(self.code, 1)
        return f"{whole}.5" if half else f"{whole}"


def rivet_length(grip: int, diameter: int, *, nearest: bool = False) -> RivetLength:
    """Return the length for a grip, both in nanometres: grip + 1.5 diameters, in half sizes.

    Rounded up (US Army TM 10-7360-208-13&P, 5-3: the nearest length greater than the sum), or to
    the nearest where the person set it so, as many shops do. Rule: study guide on the FAA handbook.
    """
    if grip <= 0 or diameter <= 0:
        raise InventoryError(
            "grip and rivet diameter are above 0", remedy="Measure the stack of sheets again."
        )
    needed = Fraction(grip) + Fraction(3 * diameter, 2)
    halves = round(needed / HALF_SIZE) if nearest else -(-needed // HALF_SIZE)
    return RivetLength(int(needed), Fraction(int(halves), 2))
