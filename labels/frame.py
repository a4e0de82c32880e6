"""Ways to divide a label between its symbols and its text, the best first."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from itertools import product
from typing import TYPE_CHECKING

from labels import code128
from labels.geometry import Rect
from labels.label import Role
from labels.legibility import CLOSE, IN_HAND, better_cap, least_cap
from labels.typeface import CAP_HEIGHT, CODE_WIDTH

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from labels.printer import Printer

LINEAR_HEIGHT = 8.0
"""Least height of the bars in millimetres, above the 5 mm that the sister standard ISO/IEC 16388
recommends for scanning by hand."""
LINEAR_SHARE = 0.15
"""Least height of the bars over their length with quiet zones (same recommendation)."""
LARGEST_CELL = 1.0
WIDEST_SQUARE = 0.45
"""Most of the label's width that the square symbol with its quiet zone may take."""
NARROWEST_TEXT = 8.0
GAP = 0.9
"""Millimetres between text, symbols and flag."""
MOST_GROWTH = 3.0
LINE = 1.42
"""Height of a line over that of its capitals: room for letters that hang below."""
FLAG = 1.7
"""Height of a flag over that of its capitals."""
SMALL_CAP = least_cap(CLOSE)
SMALL_LINE = SMALL_CAP * LINE


@dataclass(frozen=True, slots=True)
class Wanted:
    """What is to be placed, as far as the division of the label depends on it."""

    size: tuple[float, float]
    margin: tuple[float, float]
    printer: Printer
    cells: int
    quiet: int
    bars: int
    """Modules of the Code 128 symbol without quiet zones; 0 where none is wanted."""
    code_length: int
    """Characters of the encoded text in small print."""
    roles: tuple[Role, ...]
    flag: bool
    distance: float

    @property
    def ink(self) -> Rect:
        """Where print may go."""
        return Rect(0, 0, *self.size).inset(*self.margin)


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
    growth: float
    """By how much the lines and the flag may grow at most; small print doesn't."""
    code_line: Rect
    """Where the encoded text stands in small print."""


@dataclass(frozen=True, slots=True)
class _Way:
    """The choices behind one division."""

    cell: int
    bar: int
    below: bool
    """Code 128 runs under everything else, instead of beside the square symbol."""
    cap: Callable[[float], float]


@lru_cache(maxsize=512)
def frames(wanted: Wanted) -> tuple[Frame, ...]:
    """Return every division in which nothing overlaps and nothing is too small, best first.

    With Code 128 before without; letters of the preferred height before the least; coarse bars
    before fine ones; large cells before small ones.
    """
    return tuple(frame for way in _ways(wanted) if (frame := _frame(wanted, way)) is not None)


def _ways(wanted: Wanted) -> Iterator[_Way]:
    """Yield all choices in order of preference."""
    least = wanted.printer.bar
    bars = [(least + max(1, least // 3), least), (0,)] if wanted.bars else [(0,)]
    for choice, cap in product(bars, (better_cap, least_cap)):
        for bar in choice:
            places = (False, True) if bar else (False,)
            for below, cell in product(places, _cell_sizes(wanted)):
                yield _Way(cell, bar, below, cap)


def _cell_sizes(wanted: Wanted) -> range:
    """Return the printer dots that a cell may have, most first."""
    across = wanted.cells + 2 * wanted.quiet
    width, height = wanted.size
    most = min(LARGEST_CELL, WIDEST_SQUARE * width / across, height / across)
    return range(int(most / wanted.printer.dot + 1e-9), wanted.printer.cell - 1, -1)


def _frame(wanted: Wanted, way: _Way) -> Frame | None:
    """Return the division by these choices, or None where something doesn't fit."""
    square = _square(wanted, way)
    linear = _linear(wanted, way, square) if way.bar else None
    if square is None or (way.bar and linear is None):
        return None
    code_line = _code_line(wanted, way, square, linear)
    text = _text(wanted, way, square, linear, code_line)
    caps, flag_cap = _caps(wanted, way)
    growing = LINE * sum(
        cap for cap, role in zip(caps, wanted.roles, strict=True) if role is not Role.SMALL
    ) + (FLAG * flag_cap)
    fixed = LINE * sum(caps) + FLAG * flag_cap - growing + (2 * GAP if wanted.flag else 0)
    growth = (text.height - fixed) / growing if growing else 1.0
    if growth < 1 or text.width < NARROWEST_TEXT:
        return None
    return Frame(
        way.cell, square, way.bar, linear, text, caps, flag_cap, min(growth, MOST_GROWTH), code_line
    )


def _caps(wanted: Wanted, way: _Way) -> tuple[tuple[float, ...], float]:
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


def _bars_height(wanted: Wanted, way: _Way) -> float:
    """Return the height of the bars."""
    length = (wanted.bars + 2 * code128.QUIET) * way.bar * wanted.printer.dot
    return max(LINEAR_HEIGHT, LINEAR_SHARE * length)


def _square(wanted: Wanted, way: _Way) -> Rect | None:
    """Return the dark part of the square symbol, halfway up the room it has."""
    cell = way.cell * wanted.printer.dot
    quiet, side = wanted.quiet * cell, wanted.cells * cell
    x, top = max(wanted.margin[0], quiet), max(wanted.margin[1], quiet)
    bottom = wanted.size[1] - top
    if way.below:
        bottom = wanted.ink.bottom - SMALL_LINE - _bars_height(wanted, way) - max(quiet, GAP)
    room = bottom - top
    if room < side:
        return None
    under = quiet + SMALL_LINE if _code_fits_under(wanted, way) else 0
    return Rect(x, top + max(0.0, room - side - under) / 2, side, side)


def _code_fits_under(wanted: Wanted, way: _Way) -> bool:
    """Say whether the encoded text has room right under the square symbol."""
    cell = way.cell * wanted.printer.dot
    quiet, side = wanted.quiet * cell, wanted.cells * cell
    top = max(wanted.margin[1], quiet)
    wide = wanted.code_length * SMALL_CAP / CAP_HEIGHT * CODE_WIDTH
    return (
        not way.bar
        and wide <= side + 2 * max(0.0, quiet - wanted.margin[0])
        and top + side + quiet + SMALL_LINE <= wanted.ink.bottom
    )


def _linear(wanted: Wanted, way: _Way, square: Rect | None) -> Rect | None:
    """Return the bars, with their quiet zones clear of everything."""
    if square is None:
        return None
    module = way.bar * wanted.printer.dot
    quiet, length = code128.QUIET * module, wanted.bars * module
    left = max(wanted.margin[0], quiet)
    if not way.below:
        clear = wanted.quiet * way.cell * wanted.printer.dot
        left = square.right + max(clear, quiet)
    right = min(wanted.ink.right, wanted.size[0] - quiet)
    height = _bars_height(wanted, way)
    if left + length > right:
        return None
    return Rect(left, wanted.ink.bottom - SMALL_LINE - height, length, height)


def _code_line(wanted: Wanted, way: _Way, square: Rect, linear: Rect | None) -> Rect:
    """Return where the encoded text stands: under the bars, under the square, or last of all."""
    ink = wanted.ink
    if linear:
        return Rect(linear.x, linear.bottom, linear.width, SMALL_LINE)
    quiet = wanted.quiet * way.cell * wanted.printer.dot
    if _code_fits_under(wanted, way):
        return Rect(ink.x, square.bottom + quiet, square.right + quiet - ink.x, SMALL_LINE)
    x = square.right + max(quiet, GAP)
    return Rect(x, ink.bottom - SMALL_LINE, ink.right - x, SMALL_LINE)


def _text(wanted: Wanted, way: _Way, square: Rect, linear: Rect | None, code_line: Rect) -> Rect:
    """Return the room beside the square symbol, above what stands under it."""
    ink = wanted.ink
    x = square.right + max(wanted.quiet * way.cell * wanted.printer.dot, GAP)
    below = linear.y - GAP if linear else code_line.y
    beside = linear is None and code_line.x < square.right
    return Rect(x, ink.y, ink.right - x, (ink.bottom if beside else below) - ink.y)
