from __future__ import annotations

from dataclasses import replace
from itertools import product

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
from tests.labels.drawn import boxes_on, words_on
from tests.labels.raster import printed, raster, read_zxing

SHEET = load_stock("a4-3x7-63.5x38.1")


def test_offset_is_taken_out() -> None:
    measured = Measured(across=100.4, down=99.8, right_by=1.5, low_by=-0.5)
    assert calibrated(Printer(300, 0.25), SHEET, measured) == Printer(300, -1.25, 0.5)


@pytest.mark.parametrize(("across", "down"), [(97, 100), (100, 101.2)])
def test_a_printer_that_scales_is_refused(across: float, down: float) -> None:
    with pytest.raises(LabelError) as refusal:
        calibrated(Printer(), SHEET, Measured(across=across, down=down))
    wrong = across if across != 100 else down
    assert refusal.value.what == (
        f"a ruler measures {wrong:g} mm instead of 100: the printer scales the page"
    )
    assert refusal.value.remedy == "Print at actual size, without fitting to the page."


def test_a_ruler_may_be_off_by_just_a_hundredth() -> None:
    """More than a hundredth is refused: 101 mm of 100 mm is not more."""
    printer = Printer(300, 1.0, -1.0)
    assert calibrated(printer, SHEET, Measured(across=101, down=99)) == printer


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


LADDER = "Scan the codes below: the smallest that your scanner and phone read with ease are yours."
PEN = 0.3
"""Points of a hairline's width."""


def test_the_first_page_shows_every_label_crosses_in_the_corners_and_two_rulers() -> None:
    """A4: crosses of 8 mm stand 7 mm from the edges, rulers of 100 mm cross in mid-page."""
    labels = [(rect.x, rect.y, rect.width, rect.height) for rect in SHEET.rects()]
    corners = list(product((7.0, 203.0), (7.0, 290.0)))
    lying = [(x - 4, y, 8.0, 0.0) for x, y in corners]
    upright = [(x, y - 4, 0.0, 8.0) for x, y in corners]
    x, y = 105.0, 0.47 * 297  # clear of the middle, where labels of two columns meet
    ends = [3.0, *[1.5] * 9, 3.0]  # half a tick: every 10 mm, longer at both ends
    rulers_drawn = [(x - 50, y, 100.0, 0.0), (x, y - 50, 0.0, 100.0)]
    ticks = [(x - 50 + 10 * n, y - end, 0.0, 2 * end) for n, end in enumerate(ends)]
    ticks += [(x - end, y - 50 + 10 * n, 2 * end, 0.0) for n, end in enumerate(ends)]
    expected = sorted([*labels, *lying, *upright, *rulers_drawn, *ticks])
    drawn = sorted(boxes_on(calibration_pdf(SHEET, Printer()), pen=PEN))
    assert drawn == [pytest.approx(box, abs=0.11) for box in expected]


def test_the_rulers_say_their_length_and_each_label_its_number() -> None:
    found = words_on(calibration_pdf(SHEET, Printer()))
    numbers = [(rect.x + 1.2, rect.y + 4, str(n)) for n, rect in enumerate(SHEET.rects(), 1)]
    told = [(107.0, 137.6, "100 mm across,"), (107.0, 143.6, "100 mm down")]
    for (x, base, text), (at, stands, said) in zip(found, [*numbers, *told], strict=True):
        assert text == said
        assert (x, base) == pytest.approx((at, stands), abs=0.06)


def test_on_a_small_label_the_rulers_are_short_and_fit() -> None:
    """57 by 32 mm: 20 mm across, 10 mm down, and one page only."""
    roll = load_stock("roll-57x32")
    pdf = calibration_pdf(roll, Printer())
    drawn = boxes_on(pdf, pen=PEN)
    assert (18.5, 15.0, 20.0, 0.0) in drawn
    assert (28.5, 10.0, 0.0, 10.0) in drawn
    assert [text for _, _, text in words_on(pdf)] == ["1", "20 mm across,", "10 mm down"]


@pytest.mark.parametrize(
    ("side", "length"),
    [
        (114.0, 100.0),
        (113.9, 50.0),
        (64.0, 50.0),
        (63.9, 20.0),
        (34.0, 20.0),
        (33.9, 10.0),
        (9, 10),
    ],
)
def test_a_ruler_leaves_7_mm_of_the_page_at_both_ends(side: float, length: float) -> None:
    stock = replace(load_stock("roll-57x32"), page=(side, 300))
    assert rulers(stock) == (length, 100.0)


def test_what_was_measured_moves_the_whole_page() -> None:
    """A print that lies 1.5 mm too far left and 2 mm too low is put right by as much."""
    plain, moved = Printer(300), Printer(300, 1.5, -2.0)
    at_first = boxes_on(calibration_pdf(SHEET, plain), pen=PEN)
    then = boxes_on(calibration_pdf(SHEET, moved), pen=PEN)
    expected = [(x + 1.5, y - 2.0, *sizes) for x, y, *sizes in at_first]
    assert then == [pytest.approx(box, abs=0.11) for box in expected]


def test_nothing_measured_beside_the_rulers_moves_nothing() -> None:
    assert calibrated(Printer(), SHEET, Measured(across=100, down=100)) == Printer()


def test_the_second_page_says_what_to_do_and_shows_four_sizes_of_each_symbol() -> None:
    """300 dots per inch: a dot is 0.0847 mm; bars from 2 dots and cells from 3, one more each."""
    pdf = calibration_pdf(SHEET, Printer(300), ["Measure both rulers."])
    told, rungs = words_on(pdf, 1)[:3], words_on(pdf, 1)[3:]
    assert told == [
        (15.0, 18.0, "a4-3x7-63.5x38.1, printer of 300 dots per inch"),
        (15.0, 24.0, "Measure both rulers."),
        (15.0, 30.0, LADDER),
    ]  # fmt: skip
    assert [text for _, _, text in rungs] == [
        "2 dots, 0.169 mm", "3 dots, 0.254 mm", "3 dots, 0.254 mm", "4 dots, 0.339 mm",
        "4 dots, 0.339 mm", "5 dots, 0.423 mm", "5 dots, 0.423 mm", "6 dots, 0.508 mm",
    ]  # fmt: skip
    dot = 25.4 / 300
    symbols = []
    for n in range(4):  # a rung each 32 mm; 123 modules of Code 128, 21 cells of QR (version 1)
        top = 24 + 6 * 3 + 32 * n
        bar, cell = (2 + n) * dot, (3 + n) * dot
        symbols += [
            (15 + 10 * bar, top, 123 * bar, 12.0),
            (130 + 4 * cell, top, 21 * cell, 21 * cell),
        ]
    drawn = boxes_on(pdf, 1)
    assert drawn == [pytest.approx(box, abs=0.12) for box in symbols]
    under = [(x, top + height + (4 if height == 12 else 6)) for x, top, _, height in symbols]
    assert [(x, y) for x, y, _ in rungs] == [pytest.approx(place, abs=0.12) for place in under]


def test_only_pages_of_150_mm_and_more_get_the_second() -> None:
    def pages(side: float) -> int:
        stock = replace(load_stock("roll-101.6x152.4"), page=(side, 150.0), label=(side, 150.0))
        return len(pypdfium2.PdfDocument(calibration_pdf(stock, Printer())))

    assert [pages(150.0), pages(149.9)] == [2, 1]


def test_the_page_is_titled_with_its_stock() -> None:
    document = pypdfium2.PdfDocument(calibration_pdf(SHEET, Printer()))
    assert document.get_metadata_dict()["Title"] == "Calibration of a4-3x7-63.5x38.1"
