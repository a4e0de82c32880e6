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
GOOD_BAR = 3
"""Printer dots; with two, a dot of spread is half a bar."""
GOOD_CELL = 0.5
LARGEST_CELL = 1.5
WIDEST_SQUARE = 0.45
"""Most of the label's width that the square symbol with its quiet zone may take."""
NARROWEST_TEXT = 8.0
GAP = 0.9
"""Millimetres between text, symbols and flag."""
_MOST_GROWTH = {Role.HEADLINE: 4.0, Role.NUMBER: 3.0, Role.WORDS: 1.4, Role.SMALL: 1.0}
"""By how much type may grow into room that is left; words don't shout."""
LINE = 1.38
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
    """Cells on each side of the square symbol; 0 where the label carries no code."""
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
    growths: tuple[float, ...]
    """By how much each line, and last the flag, may grow at most."""
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
    """Return every division in which nothing overlaps and nothing is too small, best first."""
    ways = sorted(_ways(wanted), key=lambda way: _rank(wanted, way))
    return tuple(frame for way in ways if (frame := _frame(wanted, way)) is not None)


def best_cell(distance: float) -> float:
    """Return the size of a cell, in millimetres, that is worth finer bars of Code 128.

    A phone needs about three pixels a cell (measured on photographs made for it).
    """
    return max(0.75, distance / 1000)


def _ways(wanted: Wanted) -> Iterator[_Way]:
    """Yield all choices."""
    least = wanted.printer.bar
    bars = tuple(range(least, 2 * least + 1, wanted.printer.step)) if wanted.bars else ()
    if wanted.cells or not wanted.bars:
        bars += (0,)
    for bar, cell, cap in product(bars, _cell_sizes(wanted), (better_cap, least_cap)):
        yield _Way(cell, bar, below=False, cap=cap)
        if bar and wanted.cells:
            yield _Way(cell, bar, below=True, cap=cap)


def _rank(wanted: Wanted, way: _Way) -> tuple[float, ...]:
    """Return what is less for a better way.

    With Code 128 before without; cells of half a millimetre before smaller ones; letters of the
    preferred height before the least; bars of three dots before two; beside before below; cells
    as large as the distance asks for; then whatever is coarser.
    """
    return (
        way.bar == 0,
        way.cell * wanted.printer.dot < GOOD_CELL,
        way.cap is least_cap,
        way.bar < GOOD_BAR,
        way.below,
        -min(way.cell * wanted.printer.dot, best_cell(wanted.distance)),
        -way.bar,
        -way.cell,
    )


def _cell_sizes(wanted: Wanted) -> range:
    """Return the printer dots that a cell may have."""
    if not wanted.cells:
        return range(1, 2)
    across = wanted.cells + 2 * wanted.quiet
    width, height = wanted.size
    most = min(LARGEST_CELL, WIDEST_SQUARE * width / across, height / across)
    return range(
        wanted.printer.cell, int(most / wanted.printer.dot + 1e-9) + 1, wanted.printer.step
    )


def _frame(wanted: Wanted, way: _Way) -> Frame | None:
    """Return the division by these choices, or None where something doesn't fit."""
    square = _square(wanted, way)
    linear = _linear(wanted, way, square) if way.bar else None
    if square is None or (way.bar and linear is None):
        return None
    code_line = _code_line(wanted, way, square, linear)
    text = _text(wanted, way, square, linear, code_line)
    if _code_width(wanted) > code_line.width or text.width < NARROWEST_TEXT:
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


def _clear(wanted: Wanted, way: _Way) -> float:
    """Return what stays white around the square symbol: its quiet zone, and a dot for rounding."""
    if not wanted.cells:
        return 0.0
    return (wanted.quiet * way.cell + 1) * wanted.printer.dot


def _side(wanted: Wanted, way: _Way) -> float:
    """Return the side of the square symbol's dark part."""
    return wanted.cells * way.cell * wanted.printer.dot


def _square(wanted: Wanted, way: _Way) -> Rect | None:
    """Return the dark part of the square symbol, halfway up the room it has."""
    clear, side = _clear(wanted, way), _side(wanted, way)
    x, top = max(wanted.margin[0], clear), max(wanted.margin[1], clear)
    bottom = wanted.size[1] - top
    if way.below:
        bottom = wanted.ink.bottom - SMALL_LINE - _bars_height(wanted, way) - max(clear, GAP)
    room = bottom - top
    if room < side:
        return None
    under = clear + SMALL_LINE if _code_fits_under(wanted, way) else 0.0
    return Rect(x, top + max(0.0, room - side - under) / 2, side, side)


def _code_width(wanted: Wanted) -> float:
    """Return how wide the encoded text runs in small print."""
    return wanted.code_length * SMALL_CAP / CAP_HEIGHT * CODE_WIDTH


def _code_fits_under(wanted: Wanted, way: _Way) -> bool:
    """Say whether the encoded text has room right under the square symbol."""
    clear, side = _clear(wanted, way), _side(wanted, way)
    return (
        not way.bar
        and _code_width(wanted) <= side + 2 * max(0.0, clear - wanted.margin[0])
        and max(wanted.margin[1], clear) + side + clear + SMALL_LINE <= wanted.ink.bottom
    )


def _linear(wanted: Wanted, way: _Way, square: Rect | None) -> Rect | None:
    """Return the bars, with their quiet zones clear of everything."""
    if square is None:
        return None
    module = way.bar * wanted.printer.dot
    quiet, length = code128.QUIET * module + wanted.printer.dot, wanted.bars * module
    beside = square.right + max(_clear(wanted, way), quiet)
    left = max(wanted.margin[0], quiet) if way.below else beside
    right = min(wanted.ink.right, wanted.size[0] - quiet)
    height = _bars_height(wanted, way)
    if left + length > right:
        return None
    return Rect(left, wanted.ink.bottom - SMALL_LINE - height, length, height)


def _code_line(wanted: Wanted, way: _Way, square: Rect, linear: Rect | None) -> Rect:
    """Return where the encoded text stands: under the bars, under the square, or last of all."""
    ink, clear = wanted.ink, _clear(wanted, way)
    if linear:
        return Rect(linear.x, linear.bottom, linear.width, SMALL_LINE)
    if _code_fits_under(wanted, way):
        return Rect(ink.x, square.bottom + clear, square.right + clear - ink.x, SMALL_LINE)
    x = square.right + max(clear, GAP)
    return Rect(x, ink.bottom - SMALL_LINE, ink.right - x, SMALL_LINE)


def _text(wanted: Wanted, way: _Way, square: Rect, linear: Rect | None, code_line: Rect) -> Rect:
    """Return the room beside the square symbol, above what stands under it."""
    ink = wanted.ink
    x = square.right + max(_clear(wanted, way), GAP) if wanted.cells else ink.x
    bottom = ink.bottom
    if linear:
        bottom = linear.y - GAP
    elif wanted.cells and code_line.x >= x:
        bottom = code_line.y
    return Rect(x, ink.y, ink.right - x, bottom - ink.y)
