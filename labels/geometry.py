"""Lengths on paper, and rectangles measured in millimetres from the top left corner."""

from __future__ import annotations

from dataclasses import dataclass

INCH = 25.4
"""Millimetres; exact by NIST SP 811, appendix B.6."""
POINT = INCH / 72
"""Millimetres of one PDF point (ISO 32000-1, 8.3.2.3)."""


@dataclass(frozen=True, slots=True)
class Rect:
    """A rectangle: `x` to the right and `y` downwards, all in millimetres."""

    x: float
    y: float
    width: float
    height: float

    @property
    def right(self) -> float:
        """The far side from the left edge."""
        return self.x + self.width

    @property
    def bottom(self) -> float:
        """The far side from the top edge."""
        return self.y + self.height

    def inset(self, across: float, down: float) -> Rect:
        """Return the rectangle without a strip `across` at both sides, `down` at both ends."""
        return Rect(self.x + across, self.y + down, self.width - 2 * across, self.height - 2 * down)

    def moved(self, x: float, y: float) -> Rect:
        """Return the same rectangle, further right by `x` and further down by `y`."""
        return Rect(self.x + x, self.y + y, self.width, self.height)

    def holds(self, other: Rect, *, slack: float = 1e-6) -> bool:
        """Say whether `other` lies inside."""
        return (
            other.x >= self.x - slack
            and other.y >= self.y - slack
            and other.right <= self.right + slack
            and other.bottom <= self.bottom + slack
        )


def points(millimetres: float) -> float:
    """Return the same length in PDF points."""
    return millimetres / POINT
