"""A PDF with a text layer: the same rows as any list."""

from __future__ import annotations

import io
from typing import TYPE_CHECKING

import pytest
from reportlab.lib.pagesizes import A4
from reportlab.pdfgen.canvas import Canvas

from inventory.core.errors import InventoryError
from inventory.sheets.formats.pdf import pdf_pages
from inventory.sheets.formats.reading import book_from_bytes
from inventory.sheets.packing.packing_list import packing_list_of

if TYPE_CHECKING:
    from collections.abc import Sequence

TABLE = [
    ("ITEM", "PART NUMBER", "DESCRIPTION", "HAND", "QTY"),
    ("1", "T2-WR-0101", "POST, LOWER", "", "4"),
    ("2", "T2-WR-0102", "BLADE", "LH", "2"),
    ("3", "T2-WR-0103", "TILLER ARM, LONG", "", "12"),
]


PLACES = (50, 90, 190, 330, 400)


def pdf(*pages: Sequence[tuple[str, ...]]) -> bytes:
    content = io.BytesIO()
    canvas = Canvas(content, pagesize=A4, invariant=1)
    for page in pages:
        canvas.setFont("Helvetica", 10)
        for number, cells in enumerate(page):
            for left, text in zip(PLACES, cells, strict=True):
                canvas.drawString(left, 780 - 15 * number, text)
        canvas.showPage()
    canvas.save()
    return content.getvalue()


def test_pdf_with_a_text_layer_reads_like_any_list() -> None:
    book = book_from_bytes("list.pdf", pdf(TABLE, TABLE[:1] + TABLE[2:3]))
    assert [sheet.name for sheet in book.sheets] == ["page 1", "page 2"]
    assert [each.texts for each in book.sheets[0].rows] == [
        tuple(cells) if cells[-1] else cells for cells in TABLE
    ]
    read = packing_list_of(book)
    assert [(line.part, line.hand, line.ordered) for line in read.lines] == [
        ("T2-WR-0101", "none", 4),
        ("T2-WR-0102", "left", 2),
        ("T2-WR-0103", "none", 12),
        ("T2-WR-0102", "left", 2),
    ]


def test_page_without_headings_takes_those_of_the_page_before() -> None:
    read = packing_list_of(book_from_bytes("list.pdf", pdf(TABLE[:2], TABLE[2:])))
    assert [line.ordered for line in read.lines] == [4, 2, 12]


def test_scan_without_text_is_refused_kindly() -> None:
    with pytest.raises(InventoryError, match="pictures without text") as refusal:
        book_from_bytes("scan.pdf", pdf([]))
    assert "spreadsheet" in refusal.value.remedy


@pytest.mark.parametrize("content", [b"%PDF-1.4 nothing", b"%PDF-"])
def test_damaged_pdf_is_refused(content: bytes) -> None:
    with pytest.raises(InventoryError, match="damaged"):
        book_from_bytes("list.pdf", content)


def test_protected_pdf_is_refused() -> None:
    content = io.BytesIO()
    canvas = Canvas(content, encrypt="secret")
    canvas.drawString(50, 700, "T2-1")
    canvas.save()
    with pytest.raises(InventoryError, match="password"):
        book_from_bytes("list.pdf", content.getvalue())


def test_pdf_with_more_than_a_list_holds_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("inventory.sheets.formats.pdf.MOST_PAGES", 0)
    with pytest.raises(InventoryError, match="1 pages"):
        pdf_pages(pdf(TABLE), "list.pdf")
    monkeypatch.setattr("inventory.sheets.formats.pdf.MOST_PAGES", 9)
    monkeypatch.setattr("inventory.sheets.formats.pdf.MOST_SIGNS", 5)
    with pytest.raises(InventoryError, match="damaged"):
        pdf_pages(pdf(TABLE), "list.pdf")
