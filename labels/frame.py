"""Ways to divide a label between its symbols and its text, the best first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from typing import TYPE_CHECKING

from labels.areas import (
    GAP,
    LINE,
    SMALL_CAP,
    code_line_area,
    code_width,
    linear_area,
    square_area,
    text_area,
)
from labels.choices import ways
from labels.label import Role
from labels.legibility import IN_HAND, least_cap

if TYPE_CHECKING:
    from labels.choices import Wanted, Way
    from labels.geometry import Rect

NARROWEST_TEXT = 8.0
FLAG = 1.7
"""Height of a flag over that of its capitals."""
_MOST_GROWTH = {Role.HEADLINE: 4.0, Role.NUMBER: 3.0, Role.WORDS: 1.4, Role.SMALL: 1.0}
"""By how much type may grow into room that is left; words don't shout."""


@dataclass(frozen=True, slots=True)
class Frame:
    """One division: all lengths in millimetres from the label's top left corner."""

    cell: int
    """Printer dots of one cell."""
    square: Rect
    """The dark part of the square symbol."""
    bar: int
    """Printer dots of the narrowest bar; 0 where there is no Code 128."""
    linear: Rect | None
    text: Rect
    caps: tuple[float, ...]
    """Height of the capitals of each line."""
    flag_cap: float
    growths: tuple[float, ...]
    """By how much each line, and last the flag, may grow at most."""
    code_line: Rect
    """Where the encoded text stands in small print."""


@lru_cache(maxsize=512)
def frames(wanted: Wanted) -> tuple[Frame, ...]:
    """Return every division in which nothing overlaps and nothing is too small, best first."""
    tried = (_frame(wanted, way) for way in ways(wanted))
    return tuple(frame for frame in tried if frame is not None)


def _frame(wanted: Wanted, way: Way) -> Frame | None:
    """Return the division by these choices, or None where something doesn't fit."""
    square = square_area(wanted, way)
    linear = linear_area(wanted, way, square) if way.bar else None
    if square is None or (way.bar and linear is None):
        return None
    code_line = code_line_area(wanted, way, square, linear)
    text = text_area(wanted, way, square, linear, code_line)
    if code_width(wanted) > code_line.width or text.width < NARROWEST_TEXT:
        return None
    caps, flag_cap = _caps(wanted, way)
    growths = _growths(wanted, caps, flag_cap, text.height)
    if growths is None:
        return None
    return Frame(way.cell, square, way.bar, linear, text, caps, flag_cap, growths, code_line)


def _growths(
    wanted: Wanted, caps: tuple[float, ...], flag_cap: float, room: float
) -> tuple[float, ...] | None:
    """Return by how much each line, and last the flag, may grow; None where there is no room.

    Small print doesn't grow, words little, so that the headline gets what is left.
    """
    tall = [cap * LINE for cap in caps] + [flag_cap * FLAG]
    room -= 2 * GAP if wanted.flag else 0
    if sum(tall) > room:
        return None
    most = [_MOST_GROWTH[role] for role in wanted.roles] + [_MOST_GROWTH[Role.HEADLINE]]
    grown = [1.0] * len(tall)
    for limit in sorted(set(most)):
        freely = sum(height for height, end in zip(tall, most, strict=True) if end >= limit)
        spare = room - sum(height * by for height, by in zip(tall, grown, strict=True))
        step = grown[most.index(limit)] + spare / freely if freely else 1.0
        grown = [
            min(limit, step) if end >= limit else by for by, end in zip(grown, most, strict=True)
        ]
    return tuple(grown)


def _caps(wanted: Wanted, way: Way) -> tuple[tuple[float, ...], float]:
    """Return the height of the capitals of each line, and of the flag's word."""
    heights = {
        Role.HEADLINE: way.cap(wanted.distance),
        Role.NUMBER: way.cap(IN_HAND),
        Role.WORDS: least_cap(IN_HAND),
        Role.SMALL: SMALL_CAP,
    }
    return tuple(heights[role] for role in wanted.roles), (
        way.cap(wanted.distance) if wanted.flag else 0.0
    )
