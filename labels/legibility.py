"""How tall letters must be to be read from where a person stands."""

from __future__ import annotations

from labels.geometry import POINT
from labels.typeface import CAP_HEIGHT

LEAST = 0.004
"""Height of a capital over reading distance, 15 minutes of arc (NUREG-0700 Rev. 3, 11.4.1.5-1)."""
BETTER = 0.006
"""20 minutes of arc, preferred by the same guideline."""
IN_HAND = 500.0
"""Millimetres from the eye to a bag or part held in the hand (common practice, no source)."""
CLOSE = 350.0
"""Millimetres to small print that is held up to be read (common practice, no source)."""


def least_cap(distance: float) -> float:
    """Return the least height of a capital, in millimetres, to be read from `distance`."""
    return LEAST * distance


def better_cap(distance: float) -> float:
    """Return the preferred height of a capital, in millimetres, to be read from `distance`."""
    return BETTER * distance


def type_size(cap: float) -> float:
    """Return the type size in points whose capitals are this many millimetres tall."""
    return cap / CAP_HEIGHT / POINT


def shortened(text: str, keep: int) -> str:
    """Return the text with its middle left out, `keep` characters and an ellipsis in all."""
    if len(text) <= keep:
        return text
    head = keep // 2
    tail = keep - 1 - head
    return f"{text[:head].rstrip()}…{text[len(text) - tail :].lstrip() if tail > 0 else ''}"
