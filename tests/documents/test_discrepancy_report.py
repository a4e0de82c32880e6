from __future__ import annotations

import datetime as dt
import io
from dataclasses import replace

import openpyxl
import pypdfium2
import pytest
from PIL import Image

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.core.receiving.reporting import LetterDue
from inventory.documents.discrepancy_report import (
    Correspondence,
    DiscrepancyReport,
    ReportLine,
    discrepancy_book,
    discrepancy_pdf,
    discrepancy_table,
)
from inventory.documents.pictures import Photo
from tests.documents.pages import HEAD, outside, words

PLAIN = DiscrepancyReport(number="T2-3", to="Lakeside Aerokits", sender="Evening class")
FULL = replace(
    PLAIN,
    to="Lakeside Aerokits\n1 Quay Road",
    shipper="Lakeside Aerokits",
    order="4711",
    delivered_on=dt.date(2026, 11, 20),
    noted_on_receipt="crate 2 of 3: end panel punctured",
    letter="Dear Sirs,\n\nwhat differs stands below.",
    lines=(
        ReportLine(
            part="T2-FL-0412",
            hand=Hand.LEFT,
            where="crate 2, row 14",
            shipped="8",
            received="7",
            difference="1",
            finding="short",
            words="counted twice",
            wanted="send 1",
            price="EUR 12.50",
            cost="EUR 12.50",
            code="SF 364: S1",
        ),
        ReportLine(part="T2-FL-0413", finding="damaged", wanted="replace 1"),
        ReportLine(part="=T2-FL-0414", finding="over"),
    ),
    due=(LetterDue(printed="AN3-5A", quantity="6", promised="2026-12-14"),),
    sent=(Correspondence(on=dt.date(2026, 11, 22), words="sent by e-mail"),),
    cautions=("A date here is a reminder and no legal advice.",),
)


def photo(width: int = 800, height: int = 600, form: str = "JPEG") -> bytes:
    written = io.BytesIO()
    Image.new("RGB", (width, height), (200, 30, 30)).save(written, form)
    return written.getvalue()


def images(pdf: bytes) -> int:
    return sum(
        sum(1 for _ in page.get_objects(filter=[pypdfium2.raw.FPDF_PAGEOBJ_IMAGE]))
        for page in pypdfium2.PdfDocument(pdf)
    )


def test_report_tells_what_differs_and_what_is_asked() -> None:
    text = words(discrepancy_pdf(HEAD, FULL))
    assert "Discrepancy report T2-3" in text
    assert "Order: 4711 · Delivered on: 2026-11-20" in text
    assert "Written on the driver's paper: crate 2 of 3: end panel punctured" in text
    assert "1. send 1; EUR 12.50 each, EUR 12.50 in all; SF 364: S1" in text
    assert "2. replace 1" in text
    assert "3. " not in text
    assert "2026-11-22 sent by e-mail" in text
    assert "no legal advice" in text


def test_what_is_on_back_order_is_due_and_not_claimed() -> None:
    text = words(discrepancy_pdf(HEAD, FULL))
    due = text.index("On back-order: due, not claimed here")
    assert text.index("AN3-5A") > due > text.index("T2-FL-0413")
    assert "AN3-5A" not in str(discrepancy_table(FULL).rows)


def test_report_with_nothing_known_leaves_out_what_is_empty() -> None:
    text = words(discrepancy_pdf(HEAD, PLAIN))
    assert "Written on the driver's paper: nothing" in text
    for heading in ("What differs", "ask for", "back-order", "Photographs", "Sent"):
        assert heading not in text


def test_nothing_is_asked_where_no_line_asks() -> None:
    silent = replace(PLAIN, lines=(ReportLine(part="X", finding="over"),))
    assert "ask for" not in words(discrepancy_pdf(HEAD, silent))


def test_printing_again_changes_nothing() -> None:
    assert discrepancy_pdf(HEAD, FULL) == discrepancy_pdf(HEAD, FULL)


def test_workbook_holds_lines_and_back_orders_apart() -> None:
    book = openpyxl.load_workbook(io.BytesIO(discrepancy_book(HEAD, FULL)))
    assert book.sheetnames == ["Report T2-3", "On back-order", "About"]
    assert [cell.value for cell in list(book["On back-order"].rows)[1]] == [
        *("AN3-5A", None, None, 6, "2026-12-14"),
    ]
    assert book["Report T2-3"]["C4"].value == "=T2-FL-0414"
    assert book["Report T2-3"]["C4"].data_type == "s"


def test_quantities_are_numbers_that_a_spreadsheet_adds_up_and_halves_stay_text() -> None:
    line = replace(FULL.lines[0], shipped="8", received="7", difference="1/2")
    book = openpyxl.load_workbook(io.BytesIO(discrepancy_book(HEAD, replace(PLAIN, lines=(line,)))))
    row = [cell.value for cell in list(book.worksheets[0].rows)[1]]
    assert row[7:10] == [8, 7, "1/2"]


def test_photographs_stand_with_their_captions() -> None:
    shots = (
        Photo(photo(800, 600), "crate 2"),
        Photo(photo(300, 900), "rib"),
        Photo(photo(900, 300), "bag"),
        Photo(photo(form="PNG"), "a caption that is far too long for the width of one picture"),
    )
    pdf = discrepancy_pdf(HEAD, replace(PLAIN, photos=shots))
    assert images(pdf) == 4
    assert "crate 2 rib bag a caption that is far too long" in words(pdf)
    assert outside(pdf, 12) == []


@pytest.mark.parametrize("image", [b"", b"not a picture", photo()[:300], b"GIF89a" + photo()[6:]])
def test_what_is_no_picture_is_refused(image: bytes) -> None:
    with pytest.raises(InventoryError, match="JPEG or PNG") as refusal:
        discrepancy_pdf(HEAD, replace(PLAIN, photos=(Photo(image, "crate 2"),)))
    assert refusal.value.where == "crate 2"


def test_a_picture_that_would_fill_the_memory_is_refused() -> None:
    written = io.BytesIO()
    Image.new("1", (11_000, 10_000)).save(written, "PNG")
    with pytest.raises(InventoryError, match="sensible size"):
        discrepancy_pdf(HEAD, replace(PLAIN, photos=(Photo(written.getvalue(), "x"),)))
