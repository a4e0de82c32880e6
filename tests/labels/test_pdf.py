from __future__ import annotations

from dataclasses import replace

import numpy as np
import pypdfium2
import pytest

from labels import (
    Flag,
    Label,
    LabelError,
    Line,
    Printer,
    Role,
    Run,
    Shape,
    fit,
    load_stock,
    write_pdf,
)
from labels.geometry import Rect
from tests.labels.raster import cropped, printed, raster, read_zxing

STOCK = load_stock("a4-2x7-99.1x38.1")
BIN = Label(
    content="LT20042M",
    lines=(
        Line("B-07", Role.HEADLINE),
        Line("T2-FL-0412 (A\\B)", Role.NUMBER),
        Line("Querrippe, außen 肋骨"),
    ),
)


def bins(count: int) -> list[Label]:
    return [replace(BIN, content=f"LT2{number:04d}X") for number in range(1, count + 1)]


def where(pdf: bytes, text: str, page: int = 0) -> tuple[float, float]:
    """Return left end and base line of a text, in millimetres from the page's top left corner."""
    document = pypdfium2.PdfDocument(pdf)
    opened = document[page]
    read = opened.get_textpage()
    index, _ = read.search(text).get_next()
    left, bottom, _, _ = read.get_charbox(index)
    return left * 25.4 / 72, (opened.get_height() - bottom) * 25.4 / 72


def test_same_labels_give_the_same_bytes() -> None:
    assert write_pdf(bins(3), STOCK) == write_pdf(bins(3), STOCK)


def test_pages_are_exactly_the_stocks() -> None:
    document = pypdfium2.PdfDocument(write_pdf(bins(15), STOCK))
    assert len(document) == 2
    assert document[1].get_size() == pytest.approx((210 * 72 / 25.4, 297 * 72 / 25.4), abs=0.01)


def test_text_stands_where_the_layout_says_and_as_tall() -> None:
    pdf = write_pdf([BIN], STOCK)
    headline = fit(BIN, STOCK).texts[0]
    corner = next(STOCK.rects())
    x, base = where(pdf, "B-07")
    assert (x, base) == pytest.approx((corner.x + headline.x, corner.y + headline.base), abs=0.8)
    document = pypdfium2.PdfDocument(pdf)
    read = document[0].get_textpage()
    _, bottom, _, top = read.get_charbox(read.search("B-07").get_next()[0])
    assert (top - bottom) * 25.4 / 72 == pytest.approx(headline.cap, rel=0.02)


def test_words_of_any_script_can_be_read_back() -> None:
    words = pypdfium2.PdfDocument(write_pdf([BIN], STOCK))[0].get_textpage().get_text_range()
    assert set(words.split("\r\n")) == {
        *("B-07", "T2-FL-0412 (A\\B)", "Querrippe, außen 肋骨", "LT20042M"),
    }


def test_a_document_may_hold_more_letters_than_one_part_of_a_typeface() -> None:
    letters = [
        *map(chr, range(0xC0, 0x180)),
        *(chr(code) for code in range(0x391, 0x3CA) if code != 0x3A2),
        *map(chr, range(0x410, 0x450)),
        *map(chr, range(0x4E00, 0x4F00)),
    ]
    words = ["".join(letters[start : start + 12]) for start in range(0, len(letters), 12)]
    labels = [replace(BIN, lines=(Line("B-07", Role.HEADLINE), Line(word))) for word in words]
    pdf = pypdfium2.PdfDocument(write_pdf(labels, STOCK))
    read = "\r\n".join(page.get_textpage().get_text_range() for page in pdf)
    assert [word for word in words if word not in read.split("\r\n")] == []


def test_a_part_used_sheet_begins_at_its_first_free_label() -> None:
    pdf = write_pdf(bins(2), STOCK, run=Run(start=14))
    page = printed(raster(pdf, 300))
    last = list(STOCK.rects())[-1]
    assert {text for _, text in read_zxing(cropped(page, last, 300))} == {"LT20001X"}
    assert {text for _, text in read_zxing(page)} == {"LT20001X"}


def test_copies_stand_side_by_side() -> None:
    page = printed(raster(write_pdf(bins(2), STOCK, run=Run(copies=2)), 300))
    rects = list(STOCK.rects())[:4]
    read = [{text for _, text in read_zxing(cropped(page, rect, 300))} for rect in rects]
    assert read == [{"LT20001X"}, {"LT20001X"}, {"LT20002X"}, {"LT20002X"}]


def test_measured_offset_moves_everything_by_whole_dots() -> None:
    x, base = where(write_pdf([BIN], STOCK), "B-07")
    moved = write_pdf([BIN], STOCK, printer=Printer(300, 1.0, -2.0))
    dot = 25.4 / 300
    assert where(moved, "B-07") == pytest.approx((x + 12 * dot, base - 24 * dot), abs=0.01)


def test_a_folded_tag_carries_the_label_twice_once_upside_down() -> None:
    stock = load_stock("a4-2x3-90x45-fold")
    page = printed(raster(write_pdf([BIN], stock), 300))
    rect = next(stock.rects())
    halves = [Rect(rect.x, rect.y + down, 90, 45) for down in (0, 45)]
    upper, lower = (cropped(page, half, 300) for half in halves)
    turned = upper.rotate(180).resize(lower.size)
    difference = np.asarray(turned, dtype=int) - np.asarray(lower, dtype=int)
    assert np.mean(np.abs(difference)) < 4  # of 255: fold and cut marks, edges of letters
    assert read_zxing(upper) == read_zxing(lower) == {("QR", "LT20042M"), ("Code 128", "LT20042M")}


def test_a_strip_around_a_tube_carries_the_label_twice_upright() -> None:
    stock = load_stock("a4-1x12-70x20-wrap")
    page = printed(raster(write_pdf([BIN], stock), 300))
    rect = next(stock.rects())
    ends = [Rect(rect.x + right, rect.y, 70, 20) for right in (0, 90)]
    assert [read_zxing(cropped(page, end, 300)) for end in ends] == [{("QR", "LT20042M")}] * 2
    fold = round((rect.x + 70) * 300 / 25.4), round(rect.y * 300 / 25.4)
    assert page.crop((fold[0] - 3, fold[1], fold[0] + 3, fold[1] + 10)).getextrema() == (0, 255)


def test_code_128_may_stand_alone_and_words_too() -> None:
    alone = write_pdf([replace(BIN, square=None)], STOCK)
    assert read_zxing(printed(raster(alone, 300))) == {("Code 128", "LT20042M")}
    words = write_pdf([replace(BIN, content="")], STOCK)
    assert read_zxing(printed(raster(words, 300))) == set()


def test_cut_marks_stand_at_the_corners_where_they_are_asked_for() -> None:
    rect = next(STOCK.rects())
    x, y = (round(side * 300 / 25.4) for side in (rect.x, rect.y))
    plain, marked = (
        printed(raster(write_pdf([BIN], STOCK, run=Run(cut_marks=marks)), 300)).crop(
            (x - 3, y + 2, x + 5, y + 12)
        )
        for marks in (False, True)
    )
    assert plain.getextrema() == (255, 255)
    assert marked.getextrema() == (0, 255)


@pytest.mark.parametrize("shape", list(Shape))
def test_each_flag_has_a_shape_of_its_own(shape: Shape) -> None:
    label = replace(BIN, flag=Flag("SAME", shape))
    flag = fit(label, STOCK).flag
    assert flag is not None
    corner = next(STOCK.rects())
    page = printed(raster(write_pdf([label], STOCK), 600))
    picture = cropped(page, flag.area.moved(corner.x, corner.y), 600)
    dark = np.asarray(picture) == 0
    middle, edge = dark[dark.shape[0] // 2], dark[3]
    ends = [bool(edge[4]), bool(middle[4]), bool(edge[-5]), bool(middle[-5])]
    assert (
        ends
        == {
            # left end and right end, each near the top and half-way down
            Shape.POINTED_LEFT: [False, True, True, True],
            Shape.ROUND_RIGHT: [True, True, False, True],
            Shape.STRIPED: [False, False, True, False],
            Shape.CROSSED: [True, False, True, False],
            Shape.PLAIN: [True, True, True, True],
        }[shape]
    )


def test_each_length_of_a_continuous_roll_makes_its_own_page() -> None:
    roll = load_stock("roll-62")
    more = replace(BIN, lines=(*BIN.lines, *[Line(f"line {number}") for number in range(6)]))
    document = pypdfium2.PdfDocument(write_pdf([BIN, more], roll))
    heights = [round(document[page].get_height() * 25.4 / 72) for page in range(2)]
    assert heights == [fit(BIN, roll).spot.size[1], fit(more, roll).spot.size[1]]


def test_no_labels_are_refused() -> None:
    with pytest.raises(LabelError) as refused:
        write_pdf([], STOCK)
    assert refused.value.what == "there is no label to print"
    assert refused.value.remedy == "Name at least one."


def test_the_document_is_titled_with_what_is_on_it() -> None:
    document = pypdfium2.PdfDocument(write_pdf(bins(3), STOCK))
    assert document.get_metadata_dict()["Title"] == "3 labels on a4-2x7-99.1x38.1"


def test_the_word_of_a_flag_is_white_and_what_follows_is_black() -> None:
    label = replace(BIN, flag=Flag("SAME", Shape.PLAIN))
    laid_out = fit(label, STOCK)
    assert laid_out.flag is not None
    corner = next(STOCK.rects())
    page = printed(raster(write_pdf([label], STOCK), 300))
    word = laid_out.flag.word
    inside = Rect(word.x, word.base - word.cap, word.cap * 2, word.cap)
    flag = np.asarray(cropped(page, inside.moved(corner.x, corner.y), 300))
    assert 0.2 < np.mean(flag == 255) < 0.8
    last = laid_out.texts[-1]
    small = Rect(last.x, last.base - last.cap, last.cap * 4, last.cap)
    assert np.min(np.asarray(cropped(page, small.moved(corner.x, corner.y), 300))) == 0
