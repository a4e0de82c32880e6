"""Marks as PDF operators: symbols in whole printer dots, text in embedded type."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import TYPE_CHECKING

from labels import code128
from labels.geometry import points
from labels.legibility import type_size
from labels.shapes import flag_path
from labels.symbol import cells
from labels.typeface import Face, font, runs

if TYPE_CHECKING:
    from reportlab.pdfgen.canvas import Canvas

    from labels.geometry import Rect
    from labels.placing import LaidOut, Text
    from labels.printer import Printer
    from labels.symbol import Square

INSET = 0.02
"""Part of a dot by which each bar is narrower on each side: renderers that blacken every dot
they touch would else widen it by a whole one (measured with two of them)."""
_WIDEST = 177
"""Modules on a side of the largest QR symbol (ISO/IEC 18004:2015, table 1)."""
_ESCAPES = str.maketrans(
    {"\\": "\\\\", "(": "\\(", ")": "\\)"}
    | {chr(code): f"\\{code:03o}" for code in [*range(32), *range(127, 256)]}
)
"""Codes that aren't ASCII go as octal digits: a page is written in UTF-8, which would make two
bytes of them, and readers take a bare carriage return for a line feed."""
_RUN = re.compile("1+")


class Pen:
    """Writes marks into the page that a canvas has open."""

    def __init__(self, canvas: Canvas, printer: Printer) -> None:
        self._canvas = canvas
        self._dot = points(printer.dot)
        self._names: dict[Face, str] = {}

    def label(self, laid_out: LaidOut, corner: tuple[float, float], *, turned: bool) -> None:
        """Draw a label; its top left corner is in points, y upwards, on the printer's dots."""
        content, frame = laid_out.label.content, laid_out.frame
        marks = []
        if content and laid_out.label.square:
            marks.append(self.square(content, laid_out.label.square, frame.square, frame.cell))
        if frame.linear:
            marks.append(self.linear(content, frame.linear, frame.bar))
        if laid_out.flag:
            marks.append(flag_path(laid_out.flag.flag.shape, laid_out.flag.area))
            marks.append(f"1 g {self.text(laid_out.flag.word)} 0 g")
        marks.extend(map(self.text, laid_out.texts))
        sign = -1 if turned else 1
        x, y = corner
        self.write(f"q {sign} 0 0 {sign} {x:.4f} {y:.4f} cm {' '.join(marks)} Q")

    def write(self, operators: str) -> None:
        """Put operators on the page; the one place that touches the canvas's own list.

        A call of the canvas for each bar takes four times as long.
        """
        self._canvas._code.append(operators)  # noqa: SLF001  # see above

    def square(self, content: str, kind: Square, area: Rect, cell: int) -> str:
        """Return a QR or Data Matrix symbol whose dark part starts at the area's corner."""
        symbol = cells(content, kind)
        side = cell * self._dot
        x, top = self._snapped(area.x), self._snapped(area.y)
        shift = INSET * self._dot
        return (
            f"q {side:.5f} 0 0 {side:.5f} {x + shift:.4f} {shift - top - symbol.size * side:.4f} cm"
            f" {_cell_runs(content, kind, cell)} f Q"
        )

    def linear(self, content: str, area: Rect, bar: int) -> str:
        """Return a Code 128 symbol whose first bar starts at the area's left edge."""
        x, bottom = self._snapped(area.x), self._snapped(area.bottom)
        height = self._snapped(area.height)
        return (
            f"q {bar * self._dot:.5f} 0 0 {height:.4f} {x + INSET * self._dot:.4f} {-bottom:.4f} cm"
            f" {_bar_runs(content, bar)} f Q"
        )

    def text(self, mark: Text) -> str:
        """Return one line of type, in as many typefaces as it needs."""
        shown = f"BT {points(mark.x):.2f} {-points(mark.base):.2f} Td"
        size = type_size(mark.cap)
        if mark.text.isascii():
            return f"{shown} {self._name(mark.face)} {size:.2f} Tf ({_escaped(mark.text)}) Tj ET"
        strings = [
            f"{name} {size:.2f} Tf ({chunk}) Tj"
            for face, run in runs(mark.text, mark.face)
            for name, chunk in self._chunks(face, run)
        ]
        return f"{shown} {' '.join(strings)} ET"

    def _snapped(self, millimetres: float) -> float:
        """Return the nearest whole number of dots, in points."""
        return round(points(millimetres) / self._dot) * self._dot

    def _name(self, face: Face) -> str:
        """Return the document's name for the part of a typeface that holds ASCII."""
        if face not in self._names:
            self._names[face] = self._chunks(face, " ")[0][0]
        return self._names[face]

    def _chunks(self, face: Face, run: str) -> list[tuple[str, str]]:
        """Return the run cut by the parts of the typeface that are embedded."""
        document = self._canvas._doc  # noqa: SLF001  # where the parts are counted
        used = font(face)
        return [
            (used.getSubsetInternalName(part, document), _escaped(chunk.decode("latin-1")))
            for part, chunk in used.splitString(run, document)
        ]


def _escaped(text: str) -> str:
    """Return the text as it stands in a PDF string (ISO 32000-1, 7.3.4.2)."""
    return text.translate(_ESCAPES)


@lru_cache(maxsize=4096)
def _bar_part(place: int, value: int, bar: int) -> str:
    """Return the bars of one symbol value at its place, in modules."""
    pattern = code128.pattern(value)
    return _rectangles(pattern, place * code128.SYMBOL, 0, bar, "1")


def _bar_runs(content: str, bar: int) -> str:
    """Return all bars of a text, each as one rectangle in modules."""
    symbols = [*code128.values(content), code128.STOP_VALUE]
    return " ".join([_bar_part(place, value, bar) for place, value in enumerate(symbols)])


@lru_cache(maxsize=4096)
def _cell_runs(content: str, kind: Square, cell: int) -> str:
    """Return the dark runs of each row, in cells from the lower left corner."""
    rows = cells(content, kind).rows
    tall = _narrowed(cell)[1]
    return " ".join(
        _rectangles(row, 0, y, cell, tall) for y, row in enumerate(reversed(rows)) if "1" in row
    )


def _rectangles(pattern: str, start: int, y: int, dots: int, tall: str) -> str:
    """Return a rectangle for each run of ones, narrower by the inset on both sides."""
    widths = _narrowed(dots)
    end = f" {tall} re"
    return " ".join(
        [
            f"{start + run.start()} {y} {widths[run.end() - run.start()]}{end}"
            for run in _RUN.finditer(pattern)
        ]
    )


@lru_cache(maxsize=64)
def _narrowed(dots: int) -> tuple[str, ...]:
    """Return the width of a run of each length, in modules of so many dots, less the inset."""
    return tuple(f"{modules - 2 * INSET / dots:.4g}" for modules in range(_WIDEST + 1))
