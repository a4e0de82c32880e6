"""Choices behind the layout of a label: sizes of cells and bars, the best first."""

from __future__ import annotations

from dataclasses import dataclass
from enum import Enum
from itertools import product
from typing import TYPE_CHECKING

from labels.geometry import Rect
from labels.legibility import better_cap, least_cap

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator

    from labels.label import Role
    from labels.printer import Printer

GOOD_BAR = 3
"""Printer dots; with two, a dot of spread is half a bar."""
GOOD_CELL = 0.5
LARGEST_CELL = 1.5
WIDEST_SQUARE = 0.45
"""Most of the label's width that the square symbol with its quiet zone may take."""


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


class Place(Enum):
    """Where the symbols stand; the text takes what is left."""

    BESIDE = "beside"
    """Square symbol at the left, Code 128 under the text."""
    BELOW = "below"
    """Square symbol at the left, Code 128 under everything."""
    STACKED = "stacked"
    """On tall labels: text, then the square symbol, then Code 128."""


@dataclass(frozen=True, slots=True)
class Way:
    """The choices behind one division."""

    cell: int
    bar: int
    place: Place
    cap: Callable[[float], float]


def ways(wanted: Wanted) -> list[Way]:
    """Return all choices, those to be tried first in front."""
    return sorted(_ways(wanted), key=lambda way: _rank(wanted, way))


def best_cell(distance: float) -> float:
    """Return the size of a cell, in millimetres, that is worth finer bars of Code 128.

    A phone needs about three pixels a cell (measured on photographs made for it).
    """
    return max(0.75, distance / 1000)


def _ways(wanted: Wanted) -> Iterator[Way]:
    """Yield all choices."""
    least = wanted.printer.bar
    bars = tuple(range(least, 2 * least + 1, wanted.printer.step)) if wanted.bars else ()
    if wanted.cells or not wanted.bars:
        bars += (0,)
    for bar, cell, cap in product(bars, _cell_sizes(wanted), (better_cap, least_cap)):
        for place in _places(wanted, bar):
            yield Way(cell, bar, place, cap)


def _places(wanted: Wanted, bar: int) -> Iterator[Place]:
    """Yield where the symbols may stand."""
    width, height = wanted.size
    if wanted.cells and height > width:
        yield Place.STACKED
    yield Place.BESIDE
    if bar and wanted.cells:
        yield Place.BELOW


_PREFERRED = (Place.STACKED, Place.BESIDE, Place.BELOW)


def _rank(wanted: Wanted, way: Way) -> tuple[float, ...]:
    """Return what is less for a better way.

    With Code 128 before without; cells of half a millimetre before smaller ones; letters of the
    preferred height before the least; bars of three dots before two; stacked before beside
    before below; cells as large as the distance asks for; then whatever is coarser.
    """
    return (
        way.bar == 0,
        way.cell * wanted.printer.dot < GOOD_CELL,
        way.cap is least_cap,
        way.bar < GOOD_BAR,
        _PREFERRED.index(way.place),
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
