"""Cutting diagrams as SVG, for pages and for printing at any size."""

from __future__ import annotations

from html import escape
from typing import TYPE_CHECKING

from inventory.documents.cut_bars import CutBar, left_over, left_words, placed_pieces, shown, title

if TYPE_CHECKING:
    from collections.abc import Iterable

_WIDE = 1000.0
_TALL = 46.0
_TOP = 30.0
_PAD = 14.0
_CHARACTER = 8.4
_STYLE = (
    "text{font:14px sans-serif;fill:#000}.h{font-weight:bold;font-size:16px}"
    ".n{font-weight:bold;text-anchor:middle}.m{font-size:13px;text-anchor:end}.a{font-size:13px}"
    ".p{fill:#fff;stroke:#000}.k{fill:#000}.t{fill:#777}.l{fill:#ddd;stroke:#000}"
)


def cutting_svg(bars: Iterable[CutBar], *, styled: bool = True) -> str:
    """Return one drawing of all bars, each to the same scale, with its marks in words.

    A page that has a style sheet of its own for the drawing takes it without one.
    """
    every = list(bars)
    longest = max((bar.length for bar in every), default=1)
    drawn: list[str] = []
    y = _PAD
    for bar in every:
        marks, height = _bar(bar, _WIDE / longest)
        drawn.append(f'<g transform="translate({_PAD:g} {y:g})">{marks}</g>')
        y += height + 2 * _PAD
    words = "Cutting diagrams: " + "; ".join(title(bar) for bar in every)
    style = f"<style>{_STYLE}</style>" if styled else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {_WIDE + 2 * _PAD:g} {y:g}"'
        f' class="bars" role="img"><title>{escape(words)}</title>{style}{"".join(drawn)}</svg>'
    )


def _bar(bar: CutBar, scale: float) -> tuple[str, float]:
    """Return one bar's marks, and how tall they are."""
    parts = [f'<text class="h" y="16">{escape(title(bar))}</text>']
    trim = bar.front_trim * scale
    parts.append(_box("t", 0, trim))
    left = left_over(bar) * scale
    end = (bar.length - bar.back_trim) * scale
    parts.append(_box("l", end - left, left))
    parts.append(_box("t", end, bar.back_trim * scale))
    levels = 0
    for at in placed_pieces(bar):
        x, width = at.start * scale, (at.end - at.start) * scale
        parts.append(_box("p", x, width))
        parts.append(_box("k", x + width, min(bar.kerf, bar.length - at.end) * scale))
        words = f"{at.number} {at.piece.name}"
        shown_words = words if len(words) * _CHARACTER < width else str(at.number)
        middle, base = x + width / 2, _TOP + _TALL / 2 + 5
        parts.append(f'<text class="n" x="{middle:.2f}" y="{base:g}">{escape(shown_words)}</text>')
        level = (at.number - 1) % 4
        levels = max(levels, level + 1)
        parts.append(_mark(shown(bar, at.end), x + width, level))
    words = f"kerf {shown(bar, bar.kerf)}, {left_words(bar)}"
    base = _TOP + _TALL + 20 + 18 * levels
    parts.append(f'<text y="{base:g}">{escape(words)}</text>')
    return "".join(parts), base


def _mark(words: str, x: float, level: int) -> str:
    """Return a mark of the tape measure, on one of four levels so that none hides another."""
    base = _TOP + _TALL + 16 + 18 * level
    room_before = len(words) * _CHARACTER < x
    side, at = ("m", x - 3) if room_before else ("a", x + 3)
    return (
        f'<path d="M{x:.2f} {_TOP + _TALL:g}V{base:g}" stroke="#000"/>'
        f'<text class="{side}" x="{at:.2f}" y="{base:g}">{escape(words)}</text>'
    )


def _box(kind: str, x: float, width: float) -> str:
    """Return a box of the bar's height; nothing where it has no width."""
    if width <= 0:
        return ""
    return f'<rect class="{kind}" x="{x:.3f}" y="{_TOP:g}" width="{width:.3f}" height="{_TALL:g}"/>'
