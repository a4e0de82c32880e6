from __future__ import annotations

import pytest

from labels import LabelError, Printer


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


@pytest.mark.parametrize("dots_per_inch", [0, 72, 9600])
def test_resolution_that_no_printer_has_is_refused(dots_per_inch: int) -> None:
    with pytest.raises(LabelError, match="dots per inch is no printer's"):
        Printer(dots_per_inch)


@pytest.mark.parametrize("offset", [{"offset_x": 5.1}, {"offset_y": -5.1}])
def test_offset_of_more_than_half_a_centimetre_is_refused(offset: dict[str, float]) -> None:
    with pytest.raises(LabelError, match="more than 5 mm"):
        Printer(300, **offset)
