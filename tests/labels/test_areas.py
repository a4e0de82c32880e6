"""Where everything goes on a label, by hand: a printer of 254 dots per inch has dots of 0.1 mm.

QR of 21 cells, 5 dots each, is 10.5 mm; with 4 cells and a dot of white 2.1 mm stay clear. Code 128
of 123 modules, 3 dots each, is 36.9 mm; its quiet zone with a dot 3.1 mm. Small print: capitals of
1.4 mm (350 mm x 0.004) in lines of 1.932 mm. A margin of 1.5 mm on all sides.
"""

from __future__ import annotations

from dataclasses import replace

import pytest

from labels.areas import code_line_area, linear_area, square_area, text_area
from labels.choices import Place, Wanted, Way, best_cell, ways
from labels.frame import frames
from labels.geometry import Rect
from labels.label import Flag, Label, Role, Shape
from labels.layout import lay_out
from labels.legibility import better_cap, least_cap
from labels.placing import Spot
from labels.printer import Printer
from labels.typeface import CAP_HEIGHT, Face, width

WIDE = Wanted(
    size=(100, 40),
    margin=(1.5, 1.5),
    printer=Printer(254),
    cells=21,
    quiet=4,
    bars=123,
    code_length=8,
    roles=(Role.HEADLINE, Role.WORDS, Role.SMALL),
    flag=False,
    distance=700,
)
TALL = replace(WIDE, size=(60, 100))
BARE = replace(WIDE, cells=0, quiet=0)
LONG = replace(WIDE, code_length=20)

Sides = tuple[float, float, float, float]


def sides(rect: Rect | None) -> Sides:
    assert rect is not None
    return rect.x, rect.y, rect.width, rect.height


@pytest.mark.parametrize(
    ("wanted", "way", "square", "linear", "below"),
    [
        (
            WIDE, Way(5, 3, Place.BESIDE, better_cap), (2.1, 14.75, 10.5, 10.5),
            (15.7, 28.568, 36.9, 8),
            ((15.7, 36.568, 36.9, 1.932), (14.7, 1.5, 83.8, 26.168)),
        ),
        (
            WIDE, Way(5, 3, Place.BELOW, better_cap), (2.1, 9.034, 10.5, 10.5),
            (3.1, 28.568, 36.9, 8),
            ((3.1, 36.568, 36.9, 1.932), (14.7, 1.5, 83.8, 26.168)),
        ),
        (
            TALL, Way(5, 3, Place.STACKED, better_cap), (2.1, 75.968, 10.5, 10.5),
            (3.1, 88.568, 36.9, 8),
            ((3.1, 96.568, 36.9, 1.932), (1.5, 1.5, 57, 72.368)),
        ),
        (
            TALL, Way(5, 0, Place.STACKED, better_cap), (2.1, 83.968, 10.5, 10.5),
            None,
            ((1.5, 96.568, 57, 1.932), (1.5, 1.5, 57, 80.368)),
        ),
        (  # the encoded text has room under the symbol
            WIDE, Way(5, 0, Place.BESIDE, better_cap), (2.1, 12.734, 10.5, 10.5),
            None,
            ((1.5, 25.334, 13.2, 1.932), (14.7, 1.5, 83.8, 37)),
        ),
        (  # and where it is too long for that it stands last of all
            LONG, Way(5, 0, Place.BESIDE, better_cap), (2.1, 14.75, 10.5, 10.5),
            None,
            ((14.7, 36.568, 83.8, 1.932), (14.7, 1.5, 83.8, 35.068)),
        ),
        (
            BARE, Way(5, 3, Place.BESIDE, better_cap), (1.5, 20, 0, 0),
            (4.6, 28.568, 36.9, 8),
            ((4.6, 36.568, 36.9, 1.932), (1.5, 1.5, 97, 26.168)),
        ),
    ],
    ids=["beside", "below", "stacked", "stacked alone", "code under", "code last", "no square"],
)  # fmt: skip
def test_areas_by_hand(
    wanted: Wanted, way: Way, square: Sides, linear: Sides | None, below: tuple[Sides, Sides]
) -> None:
    code, text = below
    dark = square_area(wanted, way)
    assert dark is not None
    assert sides(dark) == pytest.approx(square)
    bars = linear_area(wanted, way, dark) if way.bar else None
    assert (bars is None) is (linear is None)
    assert linear is None or sides(bars) == pytest.approx(linear)
    line = code_line_area(wanted, way, dark, bars)
    assert sides(line) == pytest.approx(code)
    assert sides(text_area(wanted, way, dark, bars, line)) == pytest.approx(text)


def test_long_bars_are_taller() -> None:
    """143 modules of 0.5 mm are 71.5 mm; 15 % of them are 10.725 mm."""
    way = Way(5, 5, Place.BELOW, better_cap)
    bars = linear_area(WIDE, way, Rect(2.1, 9, 10.5, 10.5))
    assert sides(bars) == pytest.approx((5.1, 38.5 - 1.932 - 10.725, 61.5, 10.725))


@pytest.mark.parametrize(("width", "fits"), [(55.8, True), (55.6, False)])
def test_bars_need_their_quiet_zone_at_the_right(width: float, *, fits: bool) -> None:
    """15.7 + 36.9 + 3.1 = 55.7 mm."""
    way = Way(5, 3, Place.BESIDE, better_cap)
    wanted = replace(WIDE, size=(width, 40))
    assert (linear_area(wanted, way, square_area(wanted, way)) is not None) is fits


@pytest.mark.parametrize(("height", "fits"), [(14.71, True), (14.69, False)])
def test_the_square_needs_white_above_and_below(height: float, *, fits: bool) -> None:
    """2.1 + 10.5 + 2.1 = 14.7 mm."""
    wanted = replace(WIDE, size=(100, height))
    assert (square_area(wanted, Way(5, 0, Place.BESIDE, better_cap)) is not None) is fits


def test_without_a_square_nothing_is_placed_by_it() -> None:
    assert linear_area(WIDE, Way(5, 3, Place.BESIDE, better_cap), None) is None


def growths(wanted: Wanted) -> tuple[tuple[float, ...], float, tuple[float, ...]]:
    """Return capitals, the flag's, and by how much they may grow, beside cells of 5 dots."""
    frame = next(
        frame
        for frame in frames(wanted)
        if (frame.cell, frame.bar, frame.linear and frame.linear.x < 5) == (5, 3, False)
    )
    return frame.caps, frame.flag_cap, frame.growths


def test_the_headline_gets_the_room_that_words_and_small_print_leave() -> None:
    """Capitals of 4.2, 2 and 1.4 mm in lines of 5.796, 2.76 and 1.932 mm, in 26.168 mm: words
    grow by 1.4, so the headline may take 26.168 - 1.932 - 3.864 = 20.372 mm, 3.5148 times its own.
    """
    caps, flag, grown = growths(WIDE)
    assert (*caps, flag) == pytest.approx((4.2, 2.0, 1.4, 0.0))
    assert grown == pytest.approx((20.372 / 5.796, 1.4, 1.0, 20.372 / 5.796))


def test_a_flag_shares_the_room_with_the_headline() -> None:
    """A flag of 1.7 x 4.2 = 7.14 mm and two gaps of 0.9 mm: 18.572 mm for 5.796 and 7.14."""
    caps, flag, grown = growths(replace(WIDE, flag=True))
    assert (*caps, flag) == pytest.approx((4.2, 2.0, 1.4, 4.2))
    both = (26.168 - 1.8 - 1.932 - 3.864) / (5.796 + 7.14)
    assert grown == pytest.approx((both, 1.4, 1.0, both))


def test_a_part_number_is_read_in_the_hand() -> None:
    """3 mm from 500 mm, whatever the headline's distance."""
    assert growths(replace(WIDE, roles=(Role.NUMBER,)))[0] == pytest.approx((3.0,))


def test_the_first_way_tried_has_bars_large_cells_and_large_letters() -> None:
    """0.45 x 100 mm and 40 mm over 29 cells: at most 13 dots; bars from 3 to twice as many."""
    found = ways(WIDE)
    assert found[0] == Way(13, 6, Place.BESIDE, better_cap)
    assert found[-1] == Way(4, 0, Place.BESIDE, least_cap)
    assert {way.cell for way in found} == set(range(4, 14))
    assert {way.bar for way in found} == {0, 3, 4, 5, 6}
    assert len(found) == len(set(found)) == 10 * 2 * (4 * 2 + 1)
    assert ways(TALL)[0] == Way(9, 6, Place.STACKED, better_cap)


def test_what_is_given_up_in_which_order() -> None:
    """Code 128 last, then cells above half a millimetre, then letters of the preferred height."""
    found = ways(WIDE)
    first_without = next(n for n, way in enumerate(found) if not way.bar)
    assert all(way.bar for way in found[:first_without])
    small = [way.cell < 6 for way in found[:first_without]]
    assert small == sorted(small)
    letters = [way.cap is least_cap for way in found[:first_without] if way.cell >= 6]
    assert letters == sorted(letters)
    best = [way for way in found if way.bar and way.cell >= 6 and way.cap is better_cap]
    places = [way.place is Place.BELOW for way in best]
    assert places == sorted(places)


def test_without_a_square_the_cell_says_nothing_and_bars_stay() -> None:
    assert {(way.cell, way.place) for way in ways(BARE)} == {(1, Place.BESIDE)}
    assert {way.bar for way in ways(BARE)} == {3, 4, 5, 6}
    assert {way.bar for way in ways(replace(BARE, bars=0))} == {0}


@pytest.mark.parametrize(("distance", "cell"), [(300, 0.75), (750, 0.75), (1000, 1.0), (2000, 2.0)])
def test_cells_grow_with_the_distance(distance: float, cell: float) -> None:
    assert best_cell(distance) == cell


def test_a_way_with_coarser_bars_of_two_dots_comes_later() -> None:
    """At 203 dots per inch bars of 2 dots are fine enough, but those of 3 come first."""
    found = [way.bar for way in ways(replace(WIDE, printer=Printer(203))) if way.bar]
    letters = len(found) // 4
    assert found.index(2) > found.index(3)
    assert set(found[:letters]) <= {3, 4}


@pytest.mark.parametrize(
    ("length", "height", "under"),
    [(8, 40, True), (10, 40, True), (11, 40, False), (8, 18.2, True), (8, 18.1, False)],
)
def test_the_encoded_text_stands_under_the_square_where_it_has_room(
    length: int, height: float, *, under: bool
) -> None:
    """A character is 1.156 mm wide, the symbol with its white beyond the margin 11.7 mm; down it
    takes 2.1 + 10.5 + 2.1 + 1.932 mm, and 1.5 mm of margin: 18.132 mm.
    """
    wanted, way = (
        replace(WIDE, code_length=length, size=(100, height)),
        Way(5, 0, Place.BESIDE, better_cap),
    )
    square = square_area(wanted, way)
    assert square is not None
    assert (code_line_area(wanted, way, square, None).x == 1.5) is under


def test_a_cell_of_just_half_a_millimetre_is_large_enough() -> None:
    """At 1270 dots per inch 25 dots of 0.02 mm: tried before any smaller cell."""
    found = [way for way in ways(replace(WIDE, printer=Printer(1270))) if way.bar]
    small = [way.cell < 25 for way in found]
    assert small == sorted(small)
    assert {17, 21, 25, 29} <= {way.cell for way in found}


def test_a_flag_is_as_wide_as_its_word_and_both_ends() -> None:
    """1.7 times its capitals tall; beside the word 1.3 times that height."""
    label = Label(content="LT20042M", lines=(), flag=Flag("LEFT", Shape.POINTED_LEFT))
    flag = lay_out(label, Spot((100, 40), (1.5, 1.5), Printer(254))).flag
    assert flag is not None
    cap = flag.word.cap
    word = width("LEFT", Face.BOLD) / CAP_HEIGHT * cap
    assert flag.area.height == pytest.approx(1.7 * cap)
    assert flag.area.width == pytest.approx(word + 1.3 * 1.7 * cap)
    assert flag.word.x - flag.area.x == pytest.approx(1.3 * 1.7 * cap / 2)
    assert flag.word.base - flag.area.y == pytest.approx((1.7 * cap + cap) / 2)
