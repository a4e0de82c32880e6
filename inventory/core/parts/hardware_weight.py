"""Rough weight of solid rivets, to see whether a count and a weight can belong together."""

from __future__ import annotations

import math
import re
from functools import cache
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.kept_tables import kept_rows
from inventory.core.measures.lengths import INCH

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.parts.hardware import HardwareNumber

POUND = 453_592_370_000
"""Nanograms (16 CFR 500.19, exact)."""
_RIVET = re.compile(
    r"(?:AN|MS20)(?P<head>426|470)(?P<material>AD|A|B|DD|D|E|M)(?P<diameter>\d+)-(?P<length>[\d.]+)"
)
_FLUSH = "426"
_FLUSH_DOUBT = 0.03
_ALLOWANCE = 0.05


@frozen
class MassRange:
    """What one piece may weigh, in nanograms; computed, never weighed."""

    low: int
    high: int

    def pieces_in(self, mass: int) -> tuple[int, int]:
        """Return the fewest and the most pieces that a net mass in nanograms may be."""
        return mass // self.high, -(-mass // self.low)

    def doubt(self, pieces: int, mass: int) -> str:
        """Return in words why a count and a weight hardly belong together; empty if they may."""
        fewest, most = self.pieces_in(mass)
        if fewest * (1 - _ALLOWANCE) <= pieces <= most * (1 + _ALLOWANCE):
            return ""
        return f"by weight it should be about {fewest} to {most} pieces, not {pieces}"


def rivet_mass(number: HardwareNumber) -> MassRange | None:
    """Return the mass of one solid rivet; None for other hardware and sizes not kept here.

    m = density x (pi/4 D^2 L + head) where the length is under the head: a universal head lies
    between a spherical cap and half an ellipsoid. A flush rivet's length is overall: cone frustum
    of the head plus the shank behind it, 3 % either way.
    """
    match = _RIVET.fullmatch(number.normal)
    heads = _heads().get(int(match["diameter"])) if match else None
    if match is None or heads is None:
        return None
    shank = number.length("diameter") / INCH
    length = number.length("length") / INCH
    if match["head"] == _FLUSH:
        volume = _flush_volume(shank, length, *heads["flush"])
        low, high = volume / (1 + _FLUSH_DOUBT), volume / (1 - _FLUSH_DOUBT)
    else:
        low, high = _universal_volumes(shank, length, *heads["universal"])
    density = _densities()[match["material"]] * POUND
    return MassRange(round(low * density), round(high * density))


def _universal_volumes(
    shank: float, length: float, width: float, height: float
) -> tuple[float, float]:
    rod = math.pi / 4 * shank**2 * length
    radius = width / 2
    cap = math.pi * height / 6 * (3 * radius**2 + height**2)
    half_ellipsoid = 2 / 3 * math.pi * radius**2 * height
    return rod + cap, rod + half_ellipsoid


def _flush_volume(shank: float, length: float, width: float, height: float) -> float:
    cone = math.pi * height / 12 * (width**2 + width * shank + shank**2)
    return cone + math.pi / 4 * shank**2 * (length - height)


@cache
def _heads() -> Mapping[int, Mapping[str, tuple[float, float]]]:
    return {
        row["diameter"]: {kind: tuple(row[kind]) for kind in ("universal", "flush")}
        for row in kept_rows("rivets", "head")
    }


@cache
def _densities() -> Mapping[str, float]:
    return {row["material"]: row["pounds_per_cubic_inch"] for row in kept_rows("rivets", "density")}
