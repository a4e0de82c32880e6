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


LENGTHS = "page, label, pitch and lengths must be between 0 and 3000 mm"
MOST = "the grid must hold 1 to 10000 labels"
NEGATIVE = "margin and first can't be negative"
OFF = "the last label ends at {} mm, off the page of 210 by 297 mm"
NOTHING = "the margin leaves nothing to print on"
OVERLAP = "the labels overlap {}: the pitch is less than the label"


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"label": (60, 0)}, LENGTHS),
        ({"page": (210, 3000.1)}, LENGTHS),
        ({"lengths": (-1.0,)}, LENGTHS),
        ({"pitch": (0, 32)}, LENGTHS),
        ({"grid": (0, 8)}, MOST),
        ({"grid": (73, 137)}, MOST),  # 10,001
        ({"first": (-1, 15)}, NEGATIVE),
        ({"margin": (1, -1)}, NEGATIVE),
        ({"pitch": (59.9, 32)}, OVERLAP.format("side by side")),
        ({"pitch": (63, 29.9)}, OVERLAP.format("above each other")),
        ({"first": (24.1, 15)}, OFF.format("210.1 by 269")),
        ({"first": (10, 43.1)}, OFF.format("196 by 297.1")),
        ({"margin": (30, 1)}, NOTHING),
        ({"margin": (1, 15)}, NOTHING),
        ({"faces": (Face(Rect(0, 0, 60.1, 20)),)}, "a face lies outside the label"),
        (
            {"faces": (Face(Rect(0, 0, 20, 20)), Face(Rect(20, 0, 20, 21)))},
            "all faces of a label must be of one size",
        ),
    ],
)
def test_sheet_that_cannot_be_printed_is_refused(
    change: dict[str, tuple[float, float]], words: str
) -> None:
    with pytest.raises(LabelError) as refusal:
        checked(replace(SHEET, **change))  # type: ignore[arg-type]
    assert refusal.value.what == f"label stock try: {words}"
    assert refusal.value.remedy == "Measure the sheet and mend the file."


@pytest.mark.parametrize(
    ("change", "clear"),
    [({"first": (1, 15)}, "2.5"), ({"first": (21.6, 15)}, "3.9"), ({"first": (10, 2.4)}, "3.9")],
)
def test_print_that_would_come_too_near_the_edge_of_a_sheet_is_refused(
    change: dict[str, tuple[float, float]], clear: str
) -> None:
    with pytest.raises(LabelError) as refusal:
        checked(replace(SHEET, **change))  # type: ignore[arg-type]
    assert refusal.value.what == (
        f"label stock try: print would come within {clear} mm of the page's edge"
    )
    assert refusal.value.remedy == "Say how much of each label stays white: margin = [4, 4]."


@pytest.mark.parametrize(
    "change",
    [
        {"lengths": (3000.0, 0.1)},
        {"grid": (1, 1)},
        {"grid": (100, 100), "label": (1, 2), "pitch": (1, 2), "margin": (0, 0)},  # 10,000
        {"pitch": (60, 30)},
        {"first": (2.5, 15)},  # 4 mm stay white with the margin of 1.5
        {"first": (21.5, 15)},
        {"first": (0, 0), "margin": (4, 4)},
        {"faces": (Face(Rect(0, 0, 60, 30)),)},
    ],
)
def test_a_sheet_may_go_up_to_each_limit(change: dict[str, tuple[float, float]]) -> None:
    stock = replace(SHEET, **change)  # type: ignore[arg-type]
    assert checked(stock) is stock


def test_the_labels_of_a_sheet_may_end_a_twentieth_of_a_millimetre_off_the_page() -> None:
    """Sheets are measured with a ruler: 3 labels of 70 mm fill 210 mm, though 70.01 was read."""
    full = replace(SHEET, label=(70, 30), pitch=(70.02, 32), first=(0, 15), margin=(4.1, 4))
    assert checked(full) is full
    with pytest.raises(LabelError, match="off the page"):
        checked(replace(full, pitch=(70.03, 32)))


def test_a_roll_may_be_printed_to_its_edge() -> None:
    roll = replace(SHEET, page=(62, 30), label=(62, 30), grid=(1, 1), first=(0, 0), margin=(0, 0))
    assert checked(roll) is roll
    assert roll.is_roll
    assert not SHEET.is_roll


def test_a_roll_is_cut_into_labels_of_a_length() -> None:
    roll = replace(
        SHEET, page=(62, 10), label=(62, 10), grid=(1, 1), pitch=(62, 10), lengths=(10, 30)
    )
    assert roll.cut_to(30) == replace(
        roll, page=(62, 30), label=(62, 30), pitch=(62, 30), lengths=()
    )


def test_a_label_without_faces_is_one_face() -> None:
    assert SHEET.printed_faces() == (Face(Rect(0, 0, 60, 30)),)
    half = Face(Rect(0, 15, 60, 15), turned=True)
    assert replace(SHEET, faces=(half,)).printed_faces() == (half,)


def test_sheet_that_can_be_printed_is_returned() -> None:
    assert checked(SHEET) is SHEET


def test_one_row_may_have_any_pitch() -> None:
    one = replace(SHEET, grid=(1, 1), pitch=(1, 1))
    assert checked(one) is one
