from __future__ import annotations

import pytest

from labels import LabelError, Printer
from labels.printer import UNKNOWN_PRINTER


@pytest.mark.parametrize(
    ("dots_per_inch", "bar", "cell"),
    [(203, 2, 3), (300, 3, 4), (600, 6, 8), (1200, 12, 16)],
)
def test_bars_and_cells_are_whole_dots_of_a_readable_size(
    dots_per_inch: int, bar: int, cell: int
) -> None:
    printer = Printer(dots_per_inch)
    assert (printer.bar, printer.cell) == (bar, cell)
    assert printer.bar * printer.dot >= 0.25
    assert printer.cell * printer.dot >= 0.33


def test_dots_are_rounded_to_the_nearest() -> None:
    assert Printer(300).dots(25.4) == 300
    assert Printer(300).dots(0.1) == 1


@pytest.mark.parametrize("dots_per_inch", [0, 149, 2401])
def test_resolution_that_no_printer_has_is_refused(dots_per_inch: int) -> None:
    with pytest.raises(LabelError) as refused:
        Printer(dots_per_inch)
    assert refused.value.what == f"{dots_per_inch} dots per inch is no printer's"
    assert refused.value.remedy == "Give 203, 300, 600 or what the printer's manual says."


@pytest.mark.parametrize("dots_per_inch", [150, 2400])
def test_the_coarsest_and_the_finest_are_taken(dots_per_inch: int) -> None:
    assert Printer(dots_per_inch).dot == 25.4 / dots_per_inch


@pytest.mark.parametrize(
    ("dots_per_inch", "step"), [(150, 1), (203, 1), (300, 1), (600, 2), (1200, 4), (2400, 8)]
)
def test_sizes_grow_by_a_twelfth_of_a_millimetre_or_so(dots_per_inch: int, step: int) -> None:
    assert Printer(dots_per_inch).step == step


def test_a_cell_is_three_dots_at_least() -> None:
    assert (Printer(150).cell, Printer(150).bar) == (3, 2)


def test_a_whole_number_of_dots_is_not_rounded_up() -> None:
    printer = Printer(300)
    assert [printer.dots_at_least(dots * printer.dot) for dots in (1, 3, 7, 100)] == [1, 3, 7, 100]
    assert printer.dots_at_least(3.01 * printer.dot) == 4


def test_nobodys_printer_has_300_dots_and_no_offset() -> None:
    assert Printer() == UNKNOWN_PRINTER == Printer(300, 0.0, 0.0)


@pytest.mark.parametrize("offset", [{"offset_x": 5.1}, {"offset_y": -5.1}])
def test_offset_of_more_than_half_a_centimetre_is_refused(offset: dict[str, float]) -> None:
    with pytest.raises(LabelError) as refused:
        Printer(300, **offset)
    x, y = (offset.get(f"offset_{axis}", 0) for axis in "xy")
    assert refused.value.what == f"an offset of {x:g} by {y:g} mm is more than 5 mm"
    assert refused.value.remedy == "Check that the stock in the tray is the one that was named."


def test_an_offset_of_half_a_centimetre_is_taken() -> None:
    assert Printer(300, 5.0, -5.0).offset_y == -5.0
