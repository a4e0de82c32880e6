from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.documents.label_printers import (
    Measured,
    calibrated_sheet,
    calibration_page,
    keep_printer,
    label_room,
    on_printer,
    ruler_lengths,
)
from inventory.documents.label_sheet import LabelSheet
from inventory.documents.page_head import PaperSize
from tests.documents.pages import words

if TYPE_CHECKING:
    from pathlib import Path

SHEET = LabelSheet(stock="a4-3x7-63.5x38.1", dots_per_inch=600, start=3)


def test_page_is_for_the_stock_and_printer() -> None:
    assert "a4-3x7-63.5x38.1, printer of 600 dots per inch" in words(calibration_page(SHEET))
    assert ruler_lengths(SHEET) == (100, 100)


def test_measured_printer_is_kept_and_found_again(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    measured = calibrated_sheet(SHEET, Measured(across=100, down=100, right_by=1, low_by=-2))
    keep_printer(path, "bench", measured)
    found = on_printer(path, "bench", LabelSheet(stock="roll-57x32"))
    assert (found.dots_per_inch, found.offset_x, found.offset_y) == (600, -1, 2)
    assert (found.stock, measured.start) == ("roll-57x32", 3)


def test_printer_that_scales_is_a_refusal() -> None:
    with pytest.raises(InventoryError, match="scales the page") as refusal:
        calibrated_sheet(SHEET, Measured(across=97, down=97))
    assert refusal.value.remedy.startswith("Print at actual size")


def test_unknown_printer_names_the_known_ones(tmp_path: Path) -> None:
    path = tmp_path / "printers.toml"
    with pytest.raises(NotFoundError) as refusal:
        on_printer(path, "bench", SHEET)
    assert refusal.value.remedy == "Known: none yet."
    keep_printer(path, "office", SHEET)
    with pytest.raises(NotFoundError) as refusal:
        on_printer(path, "bench", SHEET)
    assert refusal.value.remedy == "Known: office."


def test_what_a_label_holds_is_said_beforehand() -> None:
    room = label_room(LabelSheet(paper=PaperSize.LETTER))
    assert (room.stock, room.size, room.per_page) == ("letter-3x10-66.7x25.4", (66.675, 25.4), 30)
    assert (room.name, room.code, room.line_code) == (23, 45, 18)
