from __future__ import annotations

from dataclasses import replace
from itertools import permutations, product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from labels import (
    Flag,
    Label,
    LabelError,
    Line,
    Printer,
    Role,
    Shape,
    Square,
    fit,
    load_stock,
    stock_names,
)
from labels.areas import GAP
from labels.geometry import Rect
from labels.layout import lay_out
from labels.placing import LaidOut, Spot
from labels.typeface import CAP_HEIGHT, width

TINY = "letter-4x20-44.5x12.7"
LEFT = Flag("LEFT", Shape.POINTED_LEFT)
BIN = Label(content="LT20042M", lines=(Line("B-07", Role.HEADLINE),))
FULL = replace(
    BIN,
    lines=(
        Line("B-07", Role.HEADLINE),
        Line("T2-FL-0412", Role.NUMBER),
        Line("Nose rib, outboard"),
        Line("2026-11-25", Role.SMALL),
    ),
    flag=LEFT,
)


def spot(width: float, height: float, dots_per_inch: int = 300) -> Spot:
    return Spot((width, height), (1.5, 1.5), Printer(dots_per_inch))


def marks(laid_out: LaidOut) -> list[tuple[Rect, Rect]]:
    """Return each mark on the label, and the same with what must stay white around it."""
    frame, dot = laid_out.frame, laid_out.spot.printer.dot
    found: list[tuple[Rect, Rect]] = []
    if laid_out.label.content and laid_out.label.square:
        clear = (4 if laid_out.label.square is Square.QR else 1) * frame.cell * dot
        found.append((frame.square, frame.square.inset(-clear, -clear)))
    if frame.linear:
        found.append((frame.linear, frame.linear.inset(-10 * frame.bar * dot, 0)))
    areas = [laid_out.flag.area] if laid_out.flag else []
    for text in laid_out.texts:
        wide = width(text.text, text.face) / CAP_HEIGHT * text.cap
        areas.append(Rect(text.x, text.base - text.cap, wide, text.cap))
    return found + [(area, area) for area in areas]


def disturbed(laid_out: LaidOut) -> list[tuple[Rect, Rect]]:
    """Return each mark that lies in what must stay white around another."""
    return [
        (ink, zone)
        for (_, zone), (ink, _) in permutations(marks(laid_out), 2)
        if overlaps(ink, zone)
    ]


def overlaps(one: Rect, other: Rect) -> bool:
    return (
        min(one.right, other.right) - max(one.x, other.x) > 1e-6
        and min(one.bottom, other.bottom) - max(one.y, other.y) > 1e-6
    )


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
@pytest.mark.parametrize("name", stock_names())
@pytest.mark.parametrize("label", [BIN, FULL], ids=["bin", "full"])
def test_nothing_overlaps_a_quiet_zone_or_leaves_the_label(
    label: Label, name: str, dots_per_inch: int
) -> None:
    stock = load_stock(name)
    if (name, label) == (TINY, FULL):
        with pytest.raises(LabelError, match=r"It fits on .*letter-3x10-66\.7x25\.4"):
            fit(label, stock, Printer(dots_per_inch))
        return
    laid_out = fit(label, stock, Printer(dots_per_inch))
    face = Rect(0, 0, *laid_out.spot.size)
    ink = face.inset(*stock.margin)
    assert [zone for _, zone in marks(laid_out) if not face.holds(zone)] == []
    assert [mark for mark, _ in marks(laid_out) if not ink.holds(mark)] == []
    assert disturbed(laid_out) == []


@given(
    st.floats(30, 160),
    st.floats(12, 160),
    st.text("ABCDEFGHIJ-0123456789", min_size=1, max_size=30),
    st.text("BT-0123456789", min_size=1, max_size=20),
    st.sampled_from([203, 300, 600]),
)
@settings(max_examples=60, deadline=None)
def test_any_label_is_refused_or_laid_out_without_overlap(
    wide: float, tall: float, content: str, headline: str, dots_per_inch: int
) -> None:
    label = replace(FULL, content=content, lines=(Line(headline, Role.HEADLINE), *FULL.lines[1:]))
    try:
        laid_out = lay_out(label, spot(wide, tall, dots_per_inch))
    except LabelError:
        return
    assert disturbed(laid_out) == []
    assert laid_out.texts[0].text == headline
    assert laid_out.texts[0].cap >= 0.004 * 700 - 1e-9


@pytest.mark.parametrize(
    ("name", "cap"),
    # 0.006 of 700 mm where it fits, never less than 0.004 of it
    [("letter-2x5-101.6x50.8", 4.2), (TINY, 2.8)],
)
def test_headline_can_be_read_from_its_distance(name: str, cap: float) -> None:
    assert fit(BIN, load_stock(name)).texts[0].cap >= cap


def test_a_headline_read_from_farther_is_larger() -> None:
    far = fit(replace(BIN, distance=2000), load_stock("roll-101.6x152.4"))
    assert far.texts[0].cap >= 12


def test_small_print_does_not_grow() -> None:
    laid_out = fit(FULL, load_stock("roll-101.6x152.4"))
    small = [text.cap for text in laid_out.texts if text.text in {"2026-11-25", "LT20042M"}]
    assert small == [pytest.approx(1.4)] * 2


@pytest.mark.parametrize(
    ("wide", "noted"),
    [(66.675, ()), (30.0, ("no room for Code 128",))],
)
def test_code_128_is_left_off_rather_than_made_too_fine(
    wide: float, noted: tuple[str, ...]
) -> None:
    laid_out = lay_out(BIN, spot(wide, 25.4))
    assert laid_out.left_out == noted
    assert bool(laid_out.frame.bar) is not bool(noted)


def test_code_128_stands_below_where_it_has_no_room_beside() -> None:
    long = replace(BIN, content="1PMS20470AD4-6-LONG", lines=(Line("X", Role.HEADLINE),))
    laid_out = lay_out(long, spot(70, 37))
    assert laid_out.frame.linear is not None
    assert laid_out.frame.linear.x < laid_out.frame.square.right
    assert laid_out.frame.linear.y > laid_out.frame.square.bottom


def test_on_a_tall_label_text_and_symbols_stand_above_each_other() -> None:
    laid_out = lay_out(FULL, spot(60, 100))
    frame = laid_out.frame
    assert frame.linear is not None
    assert frame.text.bottom < frame.square.y < frame.square.bottom < frame.linear.y
    assert frame.text.width == pytest.approx(57)


def test_on_a_tall_label_without_code_128_the_code_stands_under_the_square() -> None:
    frame = lay_out(replace(FULL, linear=False), spot(40, 60)).frame
    assert frame.square.bottom < frame.code_line.y < 60 - 1.5


def test_bars_are_at_least_eight_millimetres_and_15_percent_of_their_length() -> None:
    laid_out = lay_out(replace(BIN, content="1PMS20470AD4-6X12345678901234"), spot(160, 60))
    assert laid_out.frame.linear is not None
    length = laid_out.frame.linear.width + 20 * laid_out.frame.bar * laid_out.spot.printer.dot
    assert laid_out.frame.linear.height >= max(8, 0.15 * length) - 1e-9


def test_words_are_shortened_and_it_is_said() -> None:
    words = "Nose rib, outboard, with lightening holes and a doubler"
    laid_out = lay_out(replace(BIN, lines=(*BIN.lines, Line(words))), spot(66.675, 25.4))
    assert laid_out.texts[1].text == "Nose rib, … and a doubler"
    assert laid_out.left_out == (f"“{words}” was shortened",)


def test_small_print_then_words_are_left_out_where_there_is_no_room() -> None:
    laid_out = lay_out(replace(FULL, flag=None), Spot((44.45, 12.7), (1.2, 1.2), Printer(300)))
    assert [text.text for text in laid_out.texts] == ["B-07", "T2-FL-0412", "LT20042M"]
    assert laid_out.left_out[:2] == (
        "no room for “2026-11-25”",
        "no room for “Nose rib, outboard”",
    )


@pytest.mark.parametrize(
    ("label", "size", "words"),
    [
        (BIN, (10, 10), "label LT20042M: a label of 10 by 10 mm is too small for its QR symbol"),
        (
            replace(BIN, lines=(Line("SHELF-12-LEFT-OF-DOOR", Role.HEADLINE),)),
            (38.1, 21.2),
            "SHELF-12-LEFT-OF-DOOR can't be printed large enough to read on a label of 38.1",
        ),
        (
            replace(BIN, lines=(), flag=Flag("EITHER SIDE OF THE AIRCRAFT")),
            (38.1, 21.2),
            "EITHER SIDE OF THE AIRCRAFT can't be printed large enough",
        ),
        (
            replace(BIN, square=None, content="1PMS20470AD4-6-1234567890"),
            (38.1, 21.2),
            "too small for its Code 128 symbol",
        ),
        (
            replace(BIN, content="", lines=(Line("T2-FL-0412-LONGER", Role.NUMBER),)),
            (20, 20),
            "label: T2-FL-0412-LONGER can't",
        ),
    ],
    ids=["symbol", "headline", "flag", "linear", "no code"],
)
def test_label_that_cannot_be_printed_well_is_refused(
    label: Label, size: tuple[float, float], words: str
) -> None:
    with pytest.raises(LabelError, match=words):
        lay_out(label, spot(*size))


def test_number_with_a_character_that_cannot_be_printed_is_refused() -> None:
    label = replace(BIN, lines=(Line("T2\u0e01", Role.NUMBER),))
    with pytest.raises(LabelError, match=r"U\+0E01 THAI CHARACTER KO KAI") as refusal:
        lay_out(label, spot(66.675, 25.4))
    assert refusal.value.remedy == "Write the number as the drawing shows it."


def test_label_without_a_code_carries_words_alone() -> None:
    laid_out = lay_out(replace(FULL, content=""), spot(90, 42))
    assert [text.text for text in laid_out.texts] == [line.text for line in FULL.lines]
    assert laid_out.texts[0].x == pytest.approx(1.5)
    assert laid_out.left_out == ()


def test_code_128_may_stand_alone() -> None:
    laid_out = lay_out(replace(FULL, square=None, flag=None), spot(90, 42))
    assert laid_out.frame.bar
    assert laid_out.texts[0].x == pytest.approx(1.5)


def test_a_flag_without_lines_stands_on_top() -> None:
    laid_out = lay_out(replace(FULL, lines=()), spot(90, 42))
    assert laid_out.flag is not None
    assert laid_out.flag.area.y == pytest.approx(1.5)


def test_the_flag_stands_under_the_first_line() -> None:
    laid_out = lay_out(FULL, spot(90, 42))
    assert laid_out.flag is not None
    assert laid_out.texts[0].base < laid_out.flag.area.y
    assert laid_out.flag.area.bottom + GAP <= laid_out.texts[1].base - laid_out.texts[1].cap + 1e-6
    assert laid_out.flag.word.text == "LEFT"


def test_data_matrix_makes_larger_cells_on_a_tiny_label() -> None:
    stock = load_stock(TINY)
    qr = fit(BIN, stock)
    matrix = fit(replace(BIN, square=Square.DATA_MATRIX), stock)
    assert matrix.frame.cell > qr.frame.cell


@pytest.mark.parametrize(
    ("square", "dots_per_inch"), list(product([Square.QR, Square.DATA_MATRIX], [203, 300, 600]))
)
def test_cells_and_bars_are_whole_dots_of_the_printer(square: Square, dots_per_inch: int) -> None:
    laid_out = fit(
        replace(BIN, square=square), load_stock("a4-2x7-99.1x38.1"), Printer(dots_per_inch)
    )
    dot = 25.4 / dots_per_inch
    cells = laid_out.frame.square.width / laid_out.frame.cell / dot
    assert cells == pytest.approx(round(cells))
    assert laid_out.frame.cell * dot >= 0.33
    assert laid_out.frame.bar * dot >= 0.25
