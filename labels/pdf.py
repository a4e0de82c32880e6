"""Sheets of labels as a PDF."""

from __future__ import annotations

from io import BytesIO
from typing import TYPE_CHECKING

from labels.canvas import open_canvas
from labels.cut_marks import cut_marks, fold_marks
from labels.errors import LabelError
from labels.fitting import fit
from labels.geometry import points
from labels.operators import Pen
from labels.printer import UNKNOWN_PRINTER
from labels.sheet import ONE_EACH, Run, spots

if TYPE_CHECKING:
    from collections.abc import Iterable

    from reportlab.pdfgen.canvas import Canvas

    from labels.label import Label
    from labels.placing import LaidOut
    from labels.printer import Printer
    from labels.stock import LabelStock


def write_pdf(
    labels: Iterable[Label],
    stock: LabelStock,
    *,
    run: Run = ONE_EACH,
    printer: Printer = UNKNOWN_PRINTER,
) -> bytes:
    """Return the labels as a PDF whose pages are exactly the stock's, to print at actual size.

    The same labels give the same bytes. Raises `LabelError` for the first label that can't be
    printed well, with the stocks it would fit; nothing is returned then.
    """
    written = BytesIO()
    canvas = open_canvas(written)
    sheets = _Sheets(canvas, stock, run, printer)
    number = 0
    for number, label in enumerate(labels, start=1):  # noqa: B007  # counted for the title
        laid_out = fit(label, stock, printer)
        for _ in range(run.copies):
            sheets.add(laid_out)
    if not number:
        raise LabelError("there is no label to print", "Name at least one.")
    canvas.setTitle(f"{number} labels on {stock.name}")
    canvas.save()
    return written.getvalue()


class _Sheets:
    """The pages as they fill up."""

    def __init__(self, canvas: Canvas, stock: LabelStock, run: Run, printer: Printer) -> None:
        self._canvas = canvas
        self._stock = stock
        self._faces = stock.printed_faces()
        self._printer = printer
        self._pen = Pen(canvas, printer)
        self._spots = spots(stock, run)
        self._cut_marks = run.cut_marks or stock.cut
        self._page = -1
        self._height = 0.0

    def add(self, laid_out: LaidOut) -> None:
        """Draw the label in the next free place, on a new page where the last one is full."""
        page, rect = next(self._spots)
        if page != self._page:
            self._turn_page(laid_out)
            self._page = page
        for face in self._faces:
            area = face.area.moved(rect.x, rect.y)
            x, y = (area.right, area.bottom) if face.turned else (area.x, area.y)
            self._pen.label(laid_out, self._corner(x, y), turned=face.turned)
        if self._cut_marks:
            self._pen.write(cut_marks(rect, self._height))
            self._pen.write(fold_marks(self._stock, rect, self._height))

    def _turn_page(self, laid_out: LaidOut) -> None:
        """Open a page of the stock's size; on a continuous roll it is the label's."""
        if self._page >= 0:
            self._canvas.showPage()
        width, self._height = laid_out.spot.size if self._stock.lengths else self._stock.page
        self._canvas.setPageSize((points(width), points(self._height)))

    def _corner(self, x: float, y: float) -> tuple[float, float]:
        """Return a place on the page, moved by the measured offset onto the printer's dots."""
        printer = self._printer
        across = printer.dots(x + printer.offset_x) * printer.dot
        down = printer.dots(y + printer.offset_y) * printer.dot
        return points(across), points(self._height - down)
