"""Label stock: where the labels lie on a sheet or roll."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from labels.errors import LabelError
from labels.geometry import Rect

if TYPE_CHECKING:
    from collections.abc import Iterator

SHEET_EDGE = 4.0
"""Millimetres at a sheet's edge that desk printers leave white (from memory, varies by maker)."""

_LARGEST, _MOST = 3000, 10_000


@dataclass(frozen=True, slots=True)
class Face:
    """A part of one label that carries the whole print; a folded tag has two."""

    area: Rect
    """From the label's own top left corner."""
    turned: bool = False
    """Upside down on the sheet, so that it stands upright on the folded tag."""


@dataclass(frozen=True, slots=True, kw_only=True)
class LabelStock:
    """Labels of one size in a grid on one page, all lengths in millimetres."""

    name: str
    page: tuple[float, float]
    label: tuple[float, float]
    grid: tuple[int, int]
    """Columns and rows."""
    first: tuple[float, float]
    """Left and top edge of the first label."""
    pitch: tuple[float, float]
    """From one label's edge to the same edge of the next."""
    margin: tuple[float, float] = (1.5, 1.5)
    """Kept free of print inside the label, at the sides and at top and bottom."""
    lengths: tuple[float, ...] = ()
    """Lengths to which a continuous roll may be cut, shortest first."""
    faces: tuple[Face, ...] = ()
    """Empty where the whole label is one face; else all of one size."""
    cut: bool = False
    """Printed on a plain sheet, with marks where to cut and to fold."""

    @property
    def per_page(self) -> int:
        """Labels on one page."""
        return self.grid[0] * self.grid[1]

    @property
    def is_roll(self) -> bool:
        """Say whether each label is a page of its own."""
        return self.page == self.label

    def cut_to(self, length: float) -> LabelStock:
        """Return the stock of a continuous roll with labels of this length."""
        width = self.page[0]
        return replace(
            self, page=(width, length), label=(width, length), pitch=(width, length), lengths=()
        )

    def rects(self, *, by_column: bool = False) -> Iterator[Rect]:
        """Yield where each label lies, row by row from the top left or column by column."""
        columns, rows = self.grid
        spots = (
            ((column, row) for column in range(columns) for row in range(rows))
            if by_column
            else ((column, row) for row in range(rows) for column in range(columns))
        )
        for column, row in spots:
            x = self.first[0] + column * self.pitch[0]
            y = self.first[1] + row * self.pitch[1]
            yield Rect(x, y, *self.label)

    def printed_faces(self) -> tuple[Face, ...]:
        """Return the faces of one label; the label itself where it has no others."""
        return self.faces or (Face(Rect(0, 0, *self.label)),)


def checked(stock: LabelStock) -> LabelStock:
    """Return the stock if its labels lie on its page without overlapping.

    Raises `LabelError` that names the measure at fault.
    """
    sizes = (*stock.page, *stock.label, *stock.pitch, *stock.lengths)
    if min(sizes) <= 0 or max(sizes) > _LARGEST:
        raise _wrong(stock, f"page, label, pitch and lengths must be between 0 and {_LARGEST} mm")
    if min(stock.grid) < 1 or stock.per_page > _MOST:
        raise _wrong(stock, f"the grid must hold 1 to {_MOST} labels")
    if min(*stock.margin, *stock.first) < 0:
        raise _wrong(stock, "margin and first can't be negative")
    _check_grid(stock)
    _check_faces(stock)
    return stock


def _check_grid(stock: LabelStock) -> None:
    """Refuse labels that overlap, leave the page, or print where the printer can't."""
    for axis, word in enumerate(("side by side", "above each other")):
        if stock.grid[axis] > 1 and stock.pitch[axis] < stock.label[axis] - 1e-6:
            raise _wrong(stock, f"the labels overlap {word}: the pitch is less than the label")
    last = list(stock.rects())[-1]
    if not Rect(0, 0, *stock.page).holds(last, slack=0.05):
        raise _wrong(
            stock,
            f"the last label ends at {last.right:g} by {last.bottom:g} mm, off the page"
            f" of {stock.page[0]:g} by {stock.page[1]:g} mm",
        )
    edge = 0 if stock.is_roll else SHEET_EDGE
    for axis, end in enumerate((last.right, last.bottom)):
        clear = min(stock.first[axis], stock.page[axis] - end) + stock.margin[axis]
        if clear < edge - 1e-6:
            raise LabelError(
                f"label stock {stock.name}: print would come within {clear:g} mm of"
                " the page's edge",
                f"Say how much of each label stays white: margin = [{edge:g}, {edge:g}].",
            )


def _check_faces(stock: LabelStock) -> None:
    """Refuse a face that isn't on its label, or has nothing left inside its margin."""
    label = Rect(0, 0, *stock.label)
    faces = stock.printed_faces()
    if len({(face.area.width, face.area.height) for face in faces}) > 1:
        raise _wrong(stock, "all faces of a label must be of one size")
    for face in faces:
        if not label.holds(face.area):
            raise _wrong(stock, "a face lies outside the label")
        for axis, size in enumerate((face.area.width, face.area.height)):
            if size - 2 * stock.margin[axis] <= 0:
                raise _wrong(stock, "the margin leaves nothing to print on")


def _wrong(stock: LabelStock, what: str) -> LabelError:
    """Return the refusal of this stock."""
    return LabelError(f"label stock {stock.name}: {what}", "Measure the sheet and mend the file.")
