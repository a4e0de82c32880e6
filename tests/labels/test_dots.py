"""Bars and cells are whole dots of the printer, whichever program rasters the page."""

from __future__ import annotations

import io
import subprocess

import numpy as np
import pytest
from PIL import Image

from labels import Label, Line, Printer, Role, Square, fit, load_stock, operators, write_pdf
from tests.labels.raster import printed, raster, read_zxing
from tests.programs import require_program

STOCK = load_stock("a4-2x7-99.1x38.1")


def bin_label(square: Square) -> Label:
    return Label(content="LT20042M", lines=(Line("B-07", Role.HEADLINE),), square=square)


def remainders(page: Image.Image, square: Square, printer: Printer) -> set[int]:
    """Return how many dots the edges in all scan lines are from a whole number of modules."""
    dark = np.asarray(page) == 0
    frame = fit(bin_label(square), STOCK, printer).frame
    corner = next(STOCK.rects())
    assert frame.linear is not None
    found: set[int] = set()
    for area, module in ((frame.linear, frame.bar), (frame.square, frame.cell)):
        left = printer.dots(corner.x) + printer.dots(area.x)
        top = printer.dots(corner.y) + printer.dots(area.y)
        wide = printer.dots(area.width)
        for down in range(module // 2, printer.dots(area.height), module):
            row = dark[top + down, left - 1 : left + wide + 1]
            edges = np.flatnonzero(row[1:] != row[:-1])
            assert area is frame.square or edges[0] == 0
            found |= {int(edge) % module for edge in edges}
    return found


@pytest.mark.parametrize("shift", [0.0, 0.015, -0.015])
@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
@pytest.mark.parametrize("square", list(Square))
def test_every_bar_and_cell_is_whole_dots_wide(
    dots_per_inch: int, square: Square, shift: float
) -> None:
    printer = Printer(dots_per_inch)
    pdf = write_pdf([bin_label(square)], STOCK, printer=printer)
    page = printed(raster(pdf, dots_per_inch, shift=shift), white=255)
    assert remainders(page, square, printer) == {0}


def test_without_the_inset_a_hair_of_a_dot_widens_every_bar(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    caches = (operators._bar_part, operators._cell_runs, operators._narrowed)
    monkeypatch.setattr(operators, "INSET", 0.0)
    for cache in caches:
        cache.cache_clear()
    pdf = write_pdf([bin_label(Square.QR)], STOCK)
    for cache in caches:
        cache.cache_clear()
    page = printed(raster(pdf, 300, shift=0.015), white=255)
    assert remainders(page, Square.QR, Printer()) == {0, 1}


@pytest.mark.parametrize("dots_per_inch", [203, 300, 600])
def test_a_second_renderer_makes_the_same_dots(dots_per_inch: int) -> None:
    printer = Printer(dots_per_inch)
    pdf = write_pdf([bin_label(Square.QR)], STOCK, printer=printer)
    program = require_program("pdftoppm")
    command = [program, "-r", str(dots_per_inch), "-gray", "-aaVector", "no", "-"]
    made = subprocess.run(command, input=pdf, capture_output=True, check=True)
    page = Image.open(io.BytesIO(made.stdout)).convert("L")
    assert remainders(printed(page), Square.QR, printer) == {0}
    assert read_zxing(page) == {("QR", "LT20042M"), ("Code 128", "LT20042M")}
