"""Hairlines that show where to cut a plain sheet into labels, and where to fold them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from labels.geometry import points

if TYPE_CHECKING:
    from labels.geometry import Rect
    from labels.stock import LabelStock

_MARK = 2.0
"""Millimetres of a mark; it runs along the label's own edge, clear of its margin."""


def cut_marks(rect: Rect, height: float) -> str:
    """Return corners of a label on a page of this height, as PDF operators."""
    strokes = []
    for x, inward in ((rect.x, 1), (rect.right, -1)):
        for y, down in ((rect.y, 1), (rect.bottom, -1)):
            strokes.append(_stroke((x, y), (x + inward * _MARK, y), height))
            strokes.append(_stroke((x, y), (x, y + down * _MARK), height))
    return f"q 0.25 w {' '.join(strokes)} S Q"


def fold_marks(stock: LabelStock, rect: Rect, height: float) -> str:
    """Return dashes at both ends of every line on which a label is folded."""
    strokes = []
    for face in stock.faces:
        area = face.area.moved(rect.x, rect.y)
        for y in {area.y, area.bottom} - {rect.y, rect.bottom}:
            strokes += _ends((rect.x, y), (rect.right, y), height)
        for x in {area.x, area.right} - {rect.x, rect.right}:
            strokes += _ends((x, rect.y), (x, rect.bottom), height)
    return f"q 0.4 w [0.6 0.6] 0 d {' '.join(strokes)} S Q" if strokes else ""


def _ends(start: tuple[float, float], end: tuple[float, float], height: float) -> list[str]:
    """Return the two ends of a line."""
    across = _MARK if start[1] == end[1] else 0.0
    down = _MARK - across
    return [
        _stroke(start, (start[0] + across, start[1] + down), height),
        _stroke((end[0] - across, end[1] - down), end, height),
    ]


def _stroke(start: tuple[float, float], end: tuple[float, float], height: float) -> str:
    """Return one line, in points with y upwards."""
    return (
        f"{points(start[0]):.2f} {points(height - start[1]):.2f} m"
        f" {points(end[0]):.2f} {points(height - end[1]):.2f} l"
    )
