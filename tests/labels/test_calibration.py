from __future__ import annotations

import pypdfium2
import pytest

from labels import (
    LabelError,
    Measured,
    Printer,
    calibrated,
    calibration_pdf,
    load_stock,
    rulers,
    stock_names,
)
from tests.labels.raster import printed, raster, read_zxing

SHEET = load_stock("a4-3x7-63.5x38.1")


def test_offset_is_taken_out() -> None:
    measured = Measured(across=100.4, down=99.8, right_by=1.5, low_by=-0.5)
    assert calibrated(Printer(300, 0.25), SHEET, measured) == Printer(300, -1.25, 0.5)


@pytest.mark.parametrize(("across", "down"), [(97, 100), (100, 101.2)])
def test_a_printer_that_scales_is_refused(across: float, down: float) -> None:
    with pytest.raises(LabelError, match="the printer scales the page") as refusal:
        calibrated(Printer(), SHEET, Measured(across=across, down=down))
    assert "actual size" in refusal.value.remedy


def test_more_than_half_a_centimetre_is_refused() -> None:
    with pytest.raises(LabelError, match="more than 5 mm"):
        calibrated(Printer(), SHEET, Measured(across=100, down=100, low_by=6))


@pytest.mark.parametrize(
    ("name", "lengths"),
    [("letter-3x10-66.7x25.4", (100, 100)), ("roll-57x32", (20, 10)), ("roll-62", (20, 10))],
)
def test_rulers_fit_the_page(name: str, lengths: tuple[float, float]) -> None:
    assert rulers(load_stock(name)) == lengths


@pytest.mark.parametrize("name", stock_names())
def test_page_has_the_stocks_size_and_numbers_every_label(name: str) -> None:
    stock = load_stock(name)
    document = pypdfium2.PdfDocument(calibration_pdf(stock, Printer()))
    words = document[0].get_textpage().get_text_range()
    assert document[0].get_size() == pytest.approx(
        [side * 72 / 25.4 for side in stock.page], abs=0.01
    )
    assert len(document) == (2 if min(stock.page) >= 150 else 1)
    assert {str(number) for number in range(1, stock.per_page + 1)} <= set(words.split())


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
def test_every_rung_of_the_ladder_can_be_read_from_a_clean_print(dots_per_inch: int) -> None:
    page = raster(calibration_pdf(SHEET, Printer(dots_per_inch)), dots_per_inch, page=1)
    assert read_zxing(printed(page)) == {("QR", "L0123456X"), ("Code 128", "L0123456X")}


def test_an_outline_lies_where_the_stock_says() -> None:
    page = printed(raster(calibration_pdf(SHEET, Printer()), 300))
    first = next(SHEET.rects())
    x, y = (round(side * 300 / 25.4) for side in (first.x, first.y + 20))
    assert [page.getpixel((x + dot, y)) for dot in (-6, 0, 6)] == [255, 0, 255]
