from __future__ import annotations

from dataclasses import replace

import pytest

from labels import LabelError, LabelStock, load_stock, stock_names
from labels.geometry import Rect
from labels.stock import Face, checked

SHEET = LabelStock(
    name="try",
    page=(210, 297),
    label=(60, 30),
    grid=(3, 8),
    first=(10, 15),
    pitch=(63, 32),
)


def test_labels_run_row_by_row_from_the_top_left() -> None:
    rects = list(SHEET.rects())
    assert rects[0] == Rect(10, 15, 60, 30)
    assert rects[1] == Rect(73, 15, 60, 30)
    assert rects[3] == Rect(10, 47, 60, 30)
    assert rects[-1] == Rect(136, 239, 60, 30)


def test_labels_run_down_the_columns_where_that_is_asked_for() -> None:
    rects = list(SHEET.rects(by_column=True))
    assert rects[1] == Rect(10, 47, 60, 30)
    assert rects[8] == Rect(73, 15, 60, 30)


@pytest.mark.parametrize(
    ("name", "labels", "last"),
    [
        # width, height, columns, rows, first and pitch as measured on sheets of several makers
        ("letter-3x10-66.7x25.4", 30, Rect(144.46, 241.3, 66.675, 25.4)),
        ("letter-2x5-101.6x50.8", 10, Rect(110.49, 215.9, 101.6, 50.8)),
        ("letter-4x20-44.5x12.7", 80, Rect(164.31, 254.0, 44.45, 12.7)),
        ("a4-3x8-70x37", 24, Rect(140, 259, 70, 37)),
        ("a4-3x8-70x36", 24, Rect(140, 256.5, 70, 36)),
        ("a4-3x7-63.5x38.1", 21, Rect(139.2, 243.75, 63.5, 38.1)),
        ("a4-2x7-99.1x38.1", 14, Rect(106.25, 243.75, 99.1, 38.1)),
        ("a4-5x13-38.1x21.2", 65, Rect(167.1, 265.3, 38.1, 21.2)),
        ("roll-57x32", 1, Rect(0, 0, 57, 32)),
        ("roll-57.2x31.8", 1, Rect(0, 0, 57.15, 31.75)),
        ("roll-101.6x152.4", 1, Rect(0, 0, 101.6, 152.4)),
    ],
)
def test_last_label_of_each_stock(name: str, labels: int, last: Rect) -> None:
    stock = load_stock(name)
    found = list(stock.rects())[-1]
    assert stock.per_page == labels
    assert (found.x, found.y) == pytest.approx((last.x, last.y))
    assert (found.width, found.height) == (last.width, last.height)


@pytest.mark.parametrize("name", stock_names())
def test_name_tells_the_geometry(name: str) -> None:
    stock = load_stock(name)
    kind, *middle = name.removesuffix("-fold").removesuffix("-wrap").split("-")
    size = middle[-1].split("x")
    across, down = (
        stock.faces[0].area.width if stock.faces else stock.label[0],
        (stock.faces[0].area.height if stock.faces else stock.label[1]),
    )
    assert float(size[0]) == pytest.approx(across, abs=0.051)
    assert len(size) == 1 or float(size[1]) == pytest.approx(down, abs=0.051)
    assert {"a4": (210, 297), "letter": (215.9, 279.4), "roll": stock.label}[kind] == stock.page
    assert kind == "roll" or middle[0] == f"{stock.grid[0]}x{stock.grid[1]}"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"label": (60, 0)}, "between 0 and 3000"),
        ({"page": (210, 4000)}, "between 0 and 3000"),
        ({"lengths": (-1.0,)}, "between 0 and 3000"),
        ({"grid": (0, 8)}, "1 to 10000 labels"),
        ({"grid": (300, 300)}, "1 to 10000 labels"),
        ({"first": (-1, 15)}, "can't be negative"),
        ({"margin": (1, -1)}, "can't be negative"),
        ({"pitch": (59, 32)}, "overlap side by side"),
        ({"pitch": (63, 29)}, "overlap above each other"),
        ({"first": (30, 15)}, "off the page"),
        ({"first": (10, 60)}, "off the page"),
        ({"first": (1, 15)}, "within 2.5 mm of the page's edge"),
        ({"margin": (30, 1)}, "leaves nothing to print on"),
        ({"faces": (Face(Rect(0, 0, 61, 20)),)}, "outside the label"),
        ({"faces": (Face(Rect(0, 0, 20, 20)), Face(Rect(20, 0, 30, 20)))}, "of one size"),
    ],
)
def test_sheet_that_cannot_be_printed_is_refused(
    change: dict[str, tuple[float, float]], words: str
) -> None:
    with pytest.raises(LabelError, match=words):
        checked(replace(SHEET, **change))  # type: ignore[arg-type]


def test_sheet_that_can_be_printed_is_returned() -> None:
    assert checked(SHEET) is SHEET


def test_one_row_may_have_any_pitch() -> None:
    one = replace(SHEET, grid=(1, 1), pitch=(1, 1))
    assert checked(one) is one
