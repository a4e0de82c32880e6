"""Labels of any kind on the stock and printer a person has."""

from __future__ import annotations

from typing import TYPE_CHECKING

import labels
from inventory.core.frozen import frozen
from inventory.documents.label_printers import printer_of, refusals
from inventory.documents.own_stocks import Use, stock_for
from inventory.documents.page_head import PaperSize

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path


@frozen(kw_only=True)
class LabelSheet:
    """Which stock lies in which printer, and where on the sheet to begin."""

    stock: str | Path = ""
    """A name of `label_stocks()`, or the path of a person's own file; empty for what the kind of
    label takes on this paper."""
    paper: PaperSize = PaperSize.A4
    start: int = 1
    skip: frozenset[int] = frozenset()
    copies: int = 1
    by_column: bool = False
    cut_marks: bool = False
    dots_per_inch: int = 300
    offset_x: float = 0.0
    """Millimetres to move the print to the right, from the calibration page."""
    offset_y: float = 0.0
    """Millimetres to move the print down, from the calibration page."""


@frozen
class PrintedLabels:
    """The PDF, what had to be left out of it, and where the next run may start."""

    pdf: bytes
    remarks: tuple[str, ...]
    next_free: int


def label_stocks() -> tuple[str, ...]:
    """Return the names of the label stocks that come with the program."""
    return labels.stock_names()


def printed(
    wanted: Iterable[labels.Label], sheet: LabelSheet | None, use: Use = Use.LABEL
) -> PrintedLabels:
    """Return the labels on their sheets.

    Raises `InventoryError` where labels can't be printed well, with the stocks that fit them all.
    """
    every = list(wanted)
    sheet = sheet or LabelSheet()
    with refusals():
        stock = labels.load_stock(stock_for(sheet.stock, sheet.paper, use))
        run = labels.Run(sheet.start, sheet.skip, sheet.copies, sheet.by_column, sheet.cut_marks)
        printer = printer_of(sheet)
        try:
            pdf = labels.write_pdf(every, stock, run=run, printer=printer)
        except labels.LabelError as fault:
            raise labels.for_all(fault, every, stock, printer) from fault
        return PrintedLabels(
            pdf,
            labels.remarks(every, stock, printer),
            labels.next_free(stock, run, len(every)),
        )
