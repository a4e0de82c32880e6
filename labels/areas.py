"""Where symbols and text go on a label, once their sizes are chosen; lengths in millimetres."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels import code128
from labels.choices import Place
from labels.geometry import Rect
from labels.legibility import CLOSE, least_cap
from labels.typeface import CAP_HEIGHT, CODE_WIDTH

if TYPE_CHECKING:
    from labels.choices import Wanted, Way

LINEAR_HEIGHT = 8.0
"""Least height of the bars, above the 5 mm that the sister standard ISO/IEC 16388 recommends for
scanning by hand."""
LINEAR_SHARE = 0.15
"""Least height of the bars over their length with quiet zones (same recommendation)."""
GAP = 0.9
"""Between text, symbols and flag."""
LINE = 1.38
"""Height of a line over that of its capitals: room for letters that hang below."""
SMALL_CAP = least_cap(CLOSE)
SMALL_LINE = SMALL_CAP * LINE


def _bars_height(wanted: Wanted, way: Way) -> float:
    """Return the height of the bars."""
    length = (wanted.bars + 2 * code128.QUIET) * way.bar * wanted.printer.dot
    return max(LINEAR_HEIGHT, LINEAR_SHARE * length)


def _clear(wanted: Wanted, way: Way) -> float:
    """Return what stays white around the square symbol: its quiet zone, and a dot for rounding."""
    if not wanted.cells:
        return 0.0
    return (wanted.quiet * way.cell + 1) * wanted.printer.dot


def _side(wanted: Wanted, way: Way) -> float:
    """Return the side of the square symbol's dark part."""
    return wanted.cells * way.cell * wanted.printer.dot


def square_area(wanted: Wanted, way: Way) -> Rect | None:
    """Return the dark part of the square symbol: halfway up its room, when stacked at its foot."""
    clear, side = _clear(wanted, way), _side(wanted, way)
    x, top = max(wanted.margin[0], clear), max(wanted.margin[1], clear)
    bottom = wanted.size[1] - top
    if way.place is not Place.BESIDE:
        under = _bars_height(wanted, way) + max(clear, GAP) if way.bar else clear
        bottom = wanted.ink.bottom - SMALL_LINE - under
    room = bottom - top
    if room < side:
        return None
    if way.place is Place.STACKED:
        return Rect(x, bottom - side, side, side)
    under = clear + SMALL_LINE if _code_fits_under(wanted, way) else 0.0
    return Rect(x, top + max(0.0, room - side - under) / 2, side, side)


def code_width(wanted: Wanted) -> float:
    """Return how wide the encoded text runs in small print."""
    return wanted.code_length * SMALL_CAP / CAP_HEIGHT * CODE_WIDTH


def _code_fits_under(wanted: Wanted, way: Way) -> bool:
    """Say whether the encoded text has room right under the square symbol."""
    clear, side = _clear(wanted, way), _side(wanted, way)
    return (
        not way.bar
        and code_width(wanted) <= side + 2 * max(0.0, clear - wanted.margin[0])
        and max(wanted.margin[1], clear) + side + clear + SMALL_LINE <= wanted.ink.bottom
    )


def linear_area(wanted: Wanted, way: Way, square: Rect | None) -> Rect | None:
    """Return the bars, with their quiet zones clear of everything."""
    if square is None:
        return None
    module = way.bar * wanted.printer.dot
    quiet, length = code128.QUIET * module + wanted.printer.dot, wanted.bars * module
    beside = square.right + max(_clear(wanted, way), quiet)
    left = beside if way.place is Place.BESIDE else max(wanted.margin[0], quiet)
    right = min(wanted.ink.right, wanted.size[0] - quiet)
    height = _bars_height(wanted, way)
    if left + length > right:
        return None
    return Rect(left, wanted.ink.bottom - SMALL_LINE - height, length, height)


def code_line_area(wanted: Wanted, way: Way, square: Rect, linear: Rect | None) -> Rect:
    """Return where the encoded text stands: under the bars, under the square, or last of all."""
    ink, clear = wanted.ink, _clear(wanted, way)
    if linear:
        return Rect(linear.x, linear.bottom, linear.width, SMALL_LINE)
    if way.place is Place.STACKED:
        return Rect(ink.x, square.bottom + clear, ink.width, SMALL_LINE)
    if _code_fits_under(wanted, way):
        return Rect(ink.x, square.bottom + clear, square.right + clear - ink.x, SMALL_LINE)
    x = square.right + max(clear, GAP)
    return Rect(x, ink.bottom - SMALL_LINE, ink.right - x, SMALL_LINE)


def text_area(wanted: Wanted, way: Way, square: Rect, linear: Rect | None, code_line: Rect) -> Rect:
    """Return the room beside the square symbol, above what stands under it, or above it."""
    ink, clear = wanted.ink, max(_clear(wanted, way), GAP)
    if way.place is Place.STACKED:
        return Rect(ink.x, ink.y, ink.width, square.y - clear - ink.y)
    x = square.right + clear if wanted.cells else ink.x
    bottom = ink.bottom
    if linear:
        bottom = linear.y - GAP
    elif wanted.cells and code_line.x >= x:
        bottom = code_line.y
    return Rect(x, ink.y, ink.right - x, bottom - ink.y)
