"""What stands on a page of a PDF and where, as an independent reader of PDFs finds it."""

from __future__ import annotations

from typing import Any

import pypdfium2

MILLIMETRES = 25.4 / 72

Words = tuple[float, float, str]
"""Left end and base line in millimetres from the page's top left corner, and the text."""
Box = tuple[float, float, float, float]
"""Left, top, width and height in millimetres, from the page's top left corner."""


def _objects(pdf: bytes, page: int, kind: int) -> tuple[Any, list[Any]]:
    document = pypdfium2.PdfDocument(pdf)
    opened = document[page]
    return opened, [each for each in opened.get_objects() if each.type == kind]


def words_on(pdf: bytes, page: int = 0) -> list[Words]:
    """Return every line of type in the order of drawing."""
    opened, found = _objects(pdf, page, 1)
    read = opened.get_textpage()
    lines = []
    for each in found:
        *_, x, y = each.get_matrix().get()
        text = read.get_text_bounded(*each.get_bounds()).strip()
        base = (opened.get_height() - y) * MILLIMETRES
        lines.append((round(x * MILLIMETRES, 1), round(base, 1), text))
    return lines


def boxes_on(pdf: bytes, page: int = 0, pen: float = 0.0) -> list[Box]:
    """Return the outer bounds of every path as it was drawn, less a pen of so many points."""
    opened, found = _objects(pdf, page, 2)
    boxes = []
    for each in found:
        left, bottom, right, top = each.get_bounds()
        sides = (left + pen, opened.get_height() - top + pen)
        sizes = (right - left - 2 * pen, top - bottom - 2 * pen)
        x, y, width, height = (round(side * MILLIMETRES, 1) + 0.0 for side in (*sides, *sizes))
        boxes.append((x, y, width, height))
    return boxes
