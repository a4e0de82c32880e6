"""A PDF with a text layer to lines, its words put where they stand on the page."""

from __future__ import annotations

from statistics import median
from typing import TYPE_CHECKING

import pypdfium2

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Sequence

MOST_PAGES = 500
MOST_SIGNS = 4_000_000
"""Characters on all pages; a list of 1,400 lines has about 150,000."""
_SAME_LINE = 0.5
"""Of a sign's height: signs closer than this stand on one line."""
_NEW_WORD = 0.28
"""Of a sign's width: a gap wider than this parts two words."""
_WIDE_GAP = 1.4
"""Of a sign's width: a gap wider than this parts two columns."""


@frozen
class _Sign:
    text: str
    left: float
    right: float
    bottom: float
    height: float


def pdf_pages(content: bytes, name: str) -> list[list[str]]:
    """Return the lines of each page as text set out by blanks.

    Raises `InventoryError` for a scan without text, a password, a damaged file.
    """
    try:
        document = pypdfium2.PdfDocument(content)
    except pypdfium2.PdfiumError as cause:
        raise _refusal(str(cause), name) from cause
    try:
        if len(document) > MOST_PAGES:
            raise InventoryError(
                f"it has {len(document)} pages; nothing was read",
                where=name,
                remedy="Save only the pages of the list",
            )
        pages = [_signs(document, number) for number in range(len(document))]
    except pypdfium2.PdfiumError as cause:
        raise _refusal(str(cause), name) from cause
    finally:
        document.close()
    if not any(pages):
        raise InventoryError(
            "its pages are pictures without text (a scan)",
            where=name,
            remedy="Ask the supplier for the list as a spreadsheet, or type it into one",
        )
    width = _width(pages)
    return [_lines(signs, width) for signs in pages]


def _refusal(why: str, name: str) -> InventoryError:
    if "password" in why.lower():
        return InventoryError(
            "it is protected by a password", where=name, remedy="Save it without a password"
        )
    return InventoryError(
        "the PDF is damaged; nothing was read", where=name, remedy="Download or copy it again"
    )


def _signs(document: pypdfium2.PdfDocument, number: int) -> list[_Sign]:
    page = document[number]
    textpage = page.get_textpage()
    count = textpage.count_chars()
    if count > MOST_SIGNS:
        raise _refusal("too much text", f"page {number + 1}")
    text = textpage.get_text_range(0, count) if count else ""
    found = []
    if len(text) != count:
        text = "".join(textpage.get_text_range(place, 1) or " " for place in range(count))
    for place, sign in enumerate(text):
        if sign.isspace() or not sign.isprintable():
            continue
        left, bottom, right, top = textpage.get_charbox(place, loose=True)
        found.append(_Sign(sign, left, right, bottom, max(top - bottom, 0.1)))
    textpage.close()
    page.close()
    return found


def _width(pages: Sequence[Sequence[_Sign]]) -> float:
    widths = [sign.right - sign.left for signs in pages for sign in signs[:5000]]
    return max(median(widths), 0.5)


def _lines(signs: Sequence[_Sign], width: float) -> list[str]:
    """Return the lines from the top; each word begins at the place it has on the page."""
    rows: list[list[_Sign]] = []
    for sign in sorted(signs, key=lambda each: -each.bottom):
        if rows and rows[-1][0].bottom - sign.bottom < _SAME_LINE * sign.height:
            rows[-1].append(sign)
        else:
            rows.append([sign])
    return [_line(sorted(row, key=lambda each: each.left), width) for row in rows]


def _line(row: Sequence[_Sign], width: float) -> str:
    line = ""
    before: _Sign | None = None
    for sign in row:
        gap = sign.left - before.right if before else 0.0
        own = max(sign.right - sign.left, 0.3 * width)
        if before is None or gap > _WIDE_GAP * width:
            place = round(sign.left / width)
            line = line.ljust(max(place, len(line) + (2 if before else 0)))
        elif gap > _NEW_WORD * own:
            line += " "
        line += sign.text
        before = sign
    return line
