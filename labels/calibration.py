"""The calibration page: whether the printer scales, and where it puts the page."""

from __future__ import annotations

from dataclasses import dataclass, replace
from io import BytesIO
from typing import TYPE_CHECKING

from labels import code128
from labels.canvas import open_canvas
from labels.errors import LabelError
from labels.geometry import Rect, points
from labels.operators import Pen
from labels.placing import Text
from labels.printer import MOST_STRETCH
from labels.symbol import QUIET, Square, cells
from labels.typeface import Face

if TYPE_CHECKING:
    from collections.abc import Sequence

    from labels.printer import Printer
    from labels.stock import LabelStock

_RULERS = (100.0, 50.0, 20.0, 10.0)
_EDGE = 7.0
_CROSS = 4.0
_SHEET = 150.0
"""Pages at least this wide and tall get a second page with symbols."""
_SAMPLE = "L0123456X"
_SMALL = 1.8
_LADDER = "Scan the codes below: the smallest that your scanner and phone read with ease are yours."


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a person measures on the printed page, in millimetres."""

    across: float
    """Length of the ruler that runs across."""
    down: float
    right_by: float = 0.0
    """How much too far right the outlines lie on the sheet; less than 0 is too far left."""
    low_by: float = 0.0
    """How much too low the outlines lie on the sheet."""


def rulers(stock: LabelStock) -> tuple[float, float]:
    """Return the lengths of the rulers across and down: 100 mm where the page has room."""
    return _ruler(stock.page[0]), _ruler(stock.page[1])


def calibrated(printer: Printer, stock: LabelStock, measured: Measured) -> Printer:
    """Return the printer with its offset taken out.

    Raises `LabelError` where the printer scales by more than a hundredth, or is off by more than
    half a centimetre.
    """
    for length, drawn in zip((measured.across, measured.down), rulers(stock), strict=True):
        if abs(length - drawn) > MOST_STRETCH * drawn:
            raise LabelError(
                f"a ruler measures {length:g} mm instead of {drawn:g}: the printer scales the page",
                "Print at actual size, without fitting to the page.",
            )
    return replace(
        printer,
        offset_x=printer.offset_x - measured.right_by,
        offset_y=printer.offset_y - measured.low_by,
    )


def calibration_pdf(stock: LabelStock, printer: Printer, steps: Sequence[str] = ()) -> bytes:
    """Return outlines and rulers for plain paper; for sheets also symbols in steps of one dot.

    `steps` are lines that say what to measure and where to write it down.
    """
    written = BytesIO()
    canvas = open_canvas(written)
    canvas.setTitle(f"Calibration of {stock.name}")
    canvas.setPageSize((points(stock.page[0]), points(stock.page[1])))
    page = _Page(Pen(canvas, printer), stock, printer)
    page.outlines()
    canvas.showPage()
    if min(stock.page) >= _SHEET:
        page.ladder(steps)
        canvas.showPage()
    canvas.save()
    return written.getvalue()


def _ruler(side: float) -> float:
    """Return the longest ruler that the page has room for."""
    return next((length for length in _RULERS if length + 2 * _EDGE <= side), _RULERS[-1])


class _Page:
    """The pages as they are drawn, in millimetres from the top left corner."""

    def __init__(self, pen: Pen, stock: LabelStock, printer: Printer) -> None:
        self._pen = pen
        self._stock = stock
        self._printer = printer

    def outlines(self) -> None:
        """Draw each label's outline and number, crosses near the corners, and two rulers."""
        width, height = self._stock.page
        across, down = self._printer.offset_x, self._printer.offset_y
        self._pen.write(f"q 1 0 0 1 {points(across):.4f} {points(height - down):.4f} cm")
        for number, rect in enumerate(self._stock.rects(), start=1):
            self._outline(rect)
            self._text(rect.x + 1.2, rect.y + 4, str(number))
        for x in (_EDGE, width - _EDGE):
            for y in (_EDGE, height - _EDGE):
                self._stroke((x - _CROSS, y), (x + _CROSS, y))
                self._stroke((x, y - _CROSS), (x, y + _CROSS))
        self._rulers(width / 2, height * 0.47)
        self._pen.write("Q")

    def ladder(self, steps: Sequence[str]) -> None:
        """Draw Code 128 and QR from the finest useful module upwards, one dot at a time."""
        height = self._stock.page[1]
        self._pen.write(f"q 1 0 0 1 0 {points(height):.4f} cm")
        dots = self._printer.dots_per_inch
        told = (f"{self._stock.name}, printer of {dots} dots per inch", *steps, _LADDER)
        for line, words in enumerate(told):
            self._text(15, 18 + 6 * line, words)
        y = 24.0 + 6 * len(told)
        for more in range(4):
            self._bars(self._printer.bar + more - 1, y)
            self._cells(self._printer.cell + more - 1, y)
            y += 32
        self._pen.write("Q")

    def _bars(self, bar: int, y: float) -> None:
        """Draw one rung of Code 128."""
        x = 15 + code128.QUIET * bar * self._printer.dot
        width = code128.width(_SAMPLE) * bar * self._printer.dot
        self._pen.write(self._pen.linear(_SAMPLE, Rect(x, y, width, 12), bar))
        self._text(x, y + 16, f"{bar} dots, {bar * self._printer.dot:.3f} mm")

    def _cells(self, cell: int, y: float) -> None:
        """Draw one rung of QR."""
        side = cells(_SAMPLE, Square.QR).size * cell * self._printer.dot
        x = 130 + QUIET[Square.QR] * cell * self._printer.dot
        self._pen.write(self._pen.square(_SAMPLE, Square.QR, Rect(x, y, side, side), cell))
        self._text(x, y + side + 6, f"{cell} dots, {cell * self._printer.dot:.3f} mm")

    def _rulers(self, x: float, y: float) -> None:
        """Draw both rulers through the middle of the page, marked in tens of millimetres."""
        across, down = rulers(self._stock)
        for tenth in range(11):
            tick = 3.0 if tenth in {0, 10} else 1.5
            at = x + across * (tenth / 10 - 0.5)
            self._stroke((at, y - tick), (at, y + tick))
            at = y + down * (tenth / 10 - 0.5)
            self._stroke((x - tick, at), (x + tick, at))
        self._stroke((x - across / 2, y), (x + across / 2, y))
        self._stroke((x, y - down / 2), (x, y + down / 2))
        self._text(x + 2, y - 2, f"{across:g} mm across,")
        self._text(x + 2, y + 4, f"{down:g} mm down")

    def _outline(self, rect: Rect) -> None:
        """Draw a label's outline."""
        self._pen.write(
            f"0.3 w {points(rect.x):.3f} {-points(rect.bottom):.3f}"
            f" {points(rect.width):.3f} {points(rect.height):.3f} re S"
        )

    def _stroke(self, start: tuple[float, float], end: tuple[float, float]) -> None:
        """Draw a hairline."""
        self._pen.write(
            f"0.3 w {points(start[0]):.3f} {-points(start[1]):.3f} m"
            f" {points(end[0]):.3f} {-points(end[1]):.3f} l S"
        )

    def _text(self, x: float, base: float, words: str) -> None:
        """Write a line."""
        self._pen.write(self._pen.text(Text(x, base, _SMALL, Face.PLAIN, words)))
