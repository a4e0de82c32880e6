"""What a person finds on a paper."""

from __future__ import annotations

import datetime as dt

import pypdfium2

from inventory.documents.page_head import PageHead, PaperSize

HEAD = PageHead(
    kit="Floatplane Tarn T2",
    kit_code="T2",
    store_id="K7F3-92QD",
    printed_on=dt.date(2026, 11, 25),
    seal="4f1c 93ab",
)
LETTER = PageHead(
    kit="Floatplane Tarn T2",
    kit_code="T2",
    store_id="K7F3-92QD",
    printed_on=dt.date(2026, 11, 25),
    paper=PaperSize.LETTER,
)


def pages(pdf: bytes) -> list[str]:
    """Return the words of each page, in the order in which they were written."""
    document = pypdfium2.PdfDocument(pdf)
    return [page.get_textpage().get_text_range().replace("\r\n", "\n") for page in document]


def words(pdf: bytes) -> str:
    """Return the words of all pages on one line."""
    return " ".join(" ".join(pages(pdf)).split())


def outside(pdf: bytes, margin: float) -> list[str]:
    """Return every character that stands within so many millimetres of a page's edge."""
    found = []
    for page in pypdfium2.PdfDocument(pdf):
        width, height = page.get_size()
        edge = margin * 72 / 25.4
        read = page.get_textpage()
        for index in range(read.count_chars()):
            left, bottom, right, top = read.get_charbox(index)
            if right > left and not (
                edge <= left <= right <= width - edge and edge <= bottom <= top <= height - edge
            ):
                found.append(read.get_text_range(index, 1))
    return found
