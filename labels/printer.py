"""What is known of the printer: how fine its dots are, and where it puts the page."""

from __future__ import annotations

import math
from dataclasses import dataclass

from labels.errors import LabelError
from labels.geometry import INCH

FINEST_BAR = 0.25
"""Millimetres of the narrowest Code 128 bar that printers and scanners can be relied on for."""
FINEST_CELL = 0.33
"""Millimetres of the smallest QR or Data Matrix cell: 4 dots at 300 per inch."""
MOST_OFFSET = 5.0
"""Millimetres that a measured offset may have; more means that the wrong stock is in the tray."""
MOST_STRETCH = 0.01
"""Above this the printer scales the page, and bars leave its dots."""


_COARSEST, _FINEST = 150, 2400


@dataclass(frozen=True, slots=True)
class Printer:
    """Dots per inch of the print head, and the offset measured on a calibration page.

    Nobody's printer is known beforehand: 300 also suits 600 and 1200 exactly. The usual 8, 12
    and 24 dots per millimetre are 203, 300 and 600 per inch in the words of printer drivers.
    """

    dots_per_inch: int = 300
    offset_x: float = 0.0
    """Millimetres by which the print lies too far left."""
    offset_y: float = 0.0
    """Millimetres by which the print lies too high."""

    def __post_init__(self) -> None:
        """Refuse what no printer has."""
        if not _COARSEST <= self.dots_per_inch <= _FINEST:
            raise LabelError(
                f"{self.dots_per_inch} dots per inch is no printer's",
                "Give 203, 300, 600 or what the printer's manual says.",
            )
        if max(abs(self.offset_x), abs(self.offset_y)) > MOST_OFFSET:
            raise LabelError(
                f"an offset of {self.offset_x:g} by {self.offset_y:g} mm is more than"
                f" {MOST_OFFSET:g} mm",
                "Check that the stock in the tray is the one that was named.",
            )

    @property
    def dot(self) -> float:
        """Millimetres of one dot."""
        return INCH / self.dots_per_inch

    def dots(self, millimetres: float) -> int:
        """Return the nearest whole number of dots."""
        return round(millimetres / self.dot)

    def dots_at_least(self, millimetres: float) -> int:
        """Return the fewest dots that are as wide as this."""
        return math.ceil(millimetres / self.dot - 1e-9)

    @property
    def bar(self) -> int:
        """Dots of the narrowest bar: 2 at 203 per inch, 3 at 300, 6 at 600."""
        return self.dots_at_least(FINEST_BAR)

    @property
    def cell(self) -> int:
        """Dots of the smallest cell of a square symbol: 3 at 203 per inch, 4 at 300, 8 at 600."""
        return max(3, self.dots_at_least(FINEST_CELL))

    @property
    def step(self) -> int:
        """Dots from one size of bars and cells to the next: a twelfth of a millimetre or so."""
        return max(1, self.bar // 3)


UNKNOWN_PRINTER = Printer()
"""Bars of 0.254 mm and cells of 0.508 mm, whole dots at 300, 600 and 1200 per inch."""
