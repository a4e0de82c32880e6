"""How many standard deviations hold 95 or 99 of 100 cases, for small samples too."""

from __future__ import annotations

from bisect import bisect_right
from enum import IntEnum

from inventory.core.kept_tables import kept_rows


class Confidence(IntEnum):
    """In how many of 100 cases a statement may be expected to hold."""

    USUAL = 95
    STRICT = 99


def t_value(freedom: int | None, confidence: Confidence) -> float:
    """Return the two-sided point of Student's t; None stands for a spread that is known.

    `freedom` is the degrees of freedom, 1 or more. From the table kept with its source; between
    its rows linear in 1/freedom, right to 0.00001.
    """
    row = next(row for row in kept_rows("t_values", "points") if row["confidence"] == confidence)
    normal = float(row["normal"])
    if freedom is None:
        return normal
    if freedom < 1:
        raise ValueError(f"degrees of freedom are 1 or more, not {freedom}")
    freedoms: list[int] = row["freedom"]
    points: list[float] = row["t"]
    place = bisect_right(freedoms, freedom)
    low, below = freedoms[place - 1], points[place - 1]
    inverse, above = (1 / freedoms[place], points[place]) if place < len(points) else (0.0, normal)
    share = (1 / low - 1 / freedom) / (1 / low - inverse)
    return below + share * (above - below)
