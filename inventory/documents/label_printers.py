"""Printers for labels: the calibration page, what was measured on it, and what a label holds."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING

import labels
from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.documents.own_stocks import stock_for

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from inventory.documents.label_sheet import LabelSheet

Measured = labels.Measured
"""What a person measures on the calibration page, in millimetres."""


def calibration_page(sheet: LabelSheet) -> bytes:
    """Return a page for plain paper that shows where this printer puts this stock's labels."""
    across, down = ruler_lengths(sheet)
    with refusals():
        stock = labels.load_stock(stock_for(sheet.stock, sheet.paper))
        steps = (
            "1. Print both pages on plain paper, at actual size.",
            f"2. Measure the rulers: {across:g} mm across and {down:g} mm down are right.",
            "3. Hold the first page over a sheet of labels: how far right or low are its outlines?",
            f"4. Keep it: {keep_words(sheet)}",
        )
        return labels.calibration_pdf(stock, printer_of(sheet), steps)


def keep_words(sheet: LabelSheet) -> str:
    """Return the command that keeps what was measured, with a printer that needs no change."""
    across, down = ruler_lengths(sheet)
    stock = stock_for(sheet.stock, sheet.paper)
    return (
        f"kitwright printer NAME {across:g} {down:g} --right-by 0 --low-by 0"
        f" --stock {stock} --dpi {sheet.dots_per_inch}"
    )


def ruler_lengths(sheet: LabelSheet) -> tuple[float, float]:
    """Return how long the page's rulers are across and down, in millimetres."""
    with refusals():
        return labels.rulers(labels.load_stock(stock_for(sheet.stock, sheet.paper)))


def calibrated_sheet(sheet: LabelSheet, measured: Measured) -> LabelSheet:
    """Return the sheet with the measured offset taken out.

    Raises `InventoryError` where the printer scales the page or is off by too much.
    """
    with refusals():
        stock = labels.load_stock(stock_for(sheet.stock, sheet.paper))
        return _on(sheet, labels.calibrated(printer_of(sheet), stock, measured))


def keep_printer(path: Path, name: str, sheet: LabelSheet) -> None:
    """Keep the sheet's printer under a name, in a file of printers."""
    with refusals():
        labels.keep_printer(path, name, printer_of(sheet))


def on_printer(path: Path, name: str, sheet: LabelSheet) -> LabelSheet:
    """Return the sheet for a printer that was kept.

    Raises `NotFoundError` with the names that are known.
    """
    with refusals():
        printers = labels.load_printers(path)
    if name not in printers:
        known = ", ".join(sorted(printers)) or "none yet"
        raise NotFoundError(
            f"no printer is named {name}", where=path.name, remedy=f"Known: {known}."
        )
    return _on(sheet, printers[name])


@frozen
class LabelRoom:
    """What a label of a stock holds, so that nothing on it is too small to read or to scan."""

    stock: str
    size: tuple[float, float]
    """Across and down, in millimetres."""
    per_page: int
    name: int
    """Characters of a name that is read from afar."""
    code: int
    """Characters of a square code."""
    line_code: int
    """Characters that fit as a line code as well."""


def label_room(sheet: LabelSheet, distance: float = 700.0) -> LabelRoom:
    """Return what a label of this stock holds, its name read from `distance` millimetres."""
    with refusals():
        stock = labels.load_stock(stock_for(sheet.stock, sheet.paper))
        room = labels.capacity(stock, printer_of(sheet), distance)
    return LabelRoom(stock.name, stock.label, stock.per_page, room.headline, room.qr, room.code128)


def printer_of(sheet: LabelSheet) -> labels.Printer:
    """Return the printer that the sheet is for."""
    return labels.Printer(sheet.dots_per_inch, sheet.offset_x, sheet.offset_y)


@contextmanager
def refusals() -> Iterator[None]:
    """Turn what can't be printed well into a refusal."""
    try:
        yield
    except labels.LabelError as fault:
        raise InventoryError(fault.what, remedy=fault.remedy) from fault


def _on(sheet: LabelSheet, printer: labels.Printer) -> LabelSheet:
    """Return the sheet for this printer."""
    return replace(
        sheet,
        dots_per_inch=printer.dots_per_inch,
        offset_x=printer.offset_x,
        offset_y=printer.offset_y,
    )
