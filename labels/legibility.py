"""How tall letters must be to be read from where a person stands."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.geometry import POINT
from labels.typeface import CAP_HEIGHT

if TYPE_CHECKING:
    from collections.abc import Callable

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


def shortened(text: str, fits: Callable[[str], bool]) -> str:
    """Return the text with words left out of its middle, as many kept as fit.

    Words stay whole, since half of 0.063 is another measure; only where not even one word fits
    is it cut itself.
    """
    words = text.split(" ")
    kept = ""
    head, tail = 0, 0
    growing = [True, True]
    while any(growing) and head + tail < len(words) - 1:
        for end in (0, 1):
            longer = _with_gap(words, head + (end == 0), tail + (end == 1))
            growing[end] = growing[end] and fits(longer)
            if growing[end]:
                head, tail, kept = head + (end == 0), tail + (end == 1), longer
    return kept or _cut(text, fits)


def _with_gap(words: list[str], head: int, tail: int) -> str:
    """Return the first and last words with an ellipsis between."""
    return " ".join([*words[:head], "…", *words[len(words) - tail :]])


def _cut(text: str, fits: Callable[[str], bool]) -> str:
    """Return the longest beginning and end of the text that fit together."""
    for keep in range(len(text) - 1, 1, -1):
        head = (keep + 1) // 2
        candidate = f"{text[:head]}…{text[len(text) - keep + head :]}"
        if fits(candidate):
            return candidate
    return "…"
