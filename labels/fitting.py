"""Which stocks a label fits on, and what it would have to do without."""

from __future__ import annotations

from collections import Counter
from functools import cache
from typing import TYPE_CHECKING

from labels.choices import GOOD_CELL
from labels.errors import LabelError
from labels.layout import lay_out
from labels.placing import LaidOut, Spot
from labels.printer import UNKNOWN_PRINTER
from labels.stock_file import load_stock, stock_names
from labels.typeface import missing

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from labels.label import Label
    from labels.printer import Printer
    from labels.stock import LabelStock


def fit(label: Label, stock: LabelStock, printer: Printer = UNKNOWN_PRINTER) -> LaidOut:
    """Return the label as it will be printed on this stock.

    A continuous roll is cut at the first of its lengths on which nothing is left out or small.
    Raises `LabelError` that names what is at fault and the stocks on which the label fits.
    """
    try:
        return _fit(label, stock, printer)
    except LabelError as fault:
        if fault.remedy:
            raise
        names = stocks_for(label, printer)
        remedy = f"It fits on {', '.join(names)}." if names else "It fits on none of the stocks."
        raise LabelError(fault.what, remedy) from fault


def stocks_for(label: Label, printer: Printer = UNKNOWN_PRINTER) -> tuple[str, ...]:
    """Return the names of the package's stocks on which the label can be printed well."""
    return tuple(name for name in stock_names() if _fits(label, _stock(name), printer))


def remarks(
    labels: Iterable[Label], stock: LabelStock, printer: Printer = UNKNOWN_PRINTER
) -> tuple[str, ...]:
    """Say before printing what is left out, shortened or without glyphs, and on how many labels."""
    counted = Counter(
        note
        for label in labels
        for note in (*fit(label, stock, printer).left_out, *_without_glyphs(label))
    )
    return tuple(
        f"{note} ({number} label{'s' if number > 1 else ''})" for note, number in counted.items()
    )


def for_all(
    fault: LabelError, labels: Iterable[Label], stock: LabelStock, printer: Printer
) -> LabelError:
    """Return the fault of one label as that of all which don't fit, with what fits every one."""
    unfit = [label for label in labels if not _fits(label, stock, printer)]
    if len(unfit) <= 1:
        return fault
    names = [
        name
        for name in stock_names()
        if all(_fits(label, _stock(name), printer) for label in unfit)
    ]
    remedy = f"All fit on {', '.join(names)}." if names else "No stock fits all; name fewer."
    more = len(unfit) - 1
    return LabelError(f"{fault.what}; nor can {more} other{'s' if more > 1 else ''}", remedy)


def _without_glyphs(label: Label) -> Iterator[str]:
    """Say which characters are printed as numbers, since no typeface has them."""
    for line in label.lines:
        if lost := () if line.text.isascii() else missing(line.text):
            more = f" and {len(lost) - 1} more" if len(lost) > 1 else ""
            yield f"“{line.text}” holds what no typeface here has: {lost[0]}{more}"


def _fit(label: Label, stock: LabelStock, printer: Printer) -> LaidOut:
    """Return the label on the first length that holds everything, else on the longest."""
    *shorter, longest = _spots(stock, printer)
    for spot in shorter:
        try:
            laid_out = lay_out(label, spot)
        except LabelError:
            continue
        if not laid_out.left_out and _large(laid_out):
            return laid_out
    return lay_out(label, longest)


def _large(laid_out: LaidOut) -> bool:
    """Say whether the cells of the square symbol are of a size that phones read with ease."""
    cell = laid_out.frame.cell * laid_out.spot.printer.dot
    return laid_out.label.square is None or cell >= GOOD_CELL


@cache
def _spots(stock: LabelStock, printer: Printer) -> tuple[Spot, ...]:
    """Return the areas on which a label of this stock may be laid out, smallest first."""
    if stock.lengths:
        sizes = [(stock.page[0], length) for length in stock.lengths]
    else:
        area = stock.printed_faces()[0].area
        sizes = [(area.width, area.height)]
    return tuple(Spot(size, stock.margin, printer) for size in sizes)


def _fits(label: Label, stock: LabelStock, printer: Printer) -> bool:
    """Say whether the label can be printed well."""
    try:
        _fit(label, stock, printer)
    except LabelError:
        return False
    return True


@cache
def _stock(name: str) -> LabelStock:
    """Return one of the package's stocks, read once."""
    return load_stock(name)
