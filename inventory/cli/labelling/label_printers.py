"""The sheet and printer that labels are made for, and calibrating a printer."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli.show import say
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.documents.label_sheet import LabelSheet


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("printer")(printer)


def printers_file() -> Path:
    """Return the file in which this person's calibrated printers are kept."""
    from platformdirs import user_config_path

    return user_config_path("kitwright", appauthor=False) / "printers.toml"


def printer_sheet(
    *,
    stock: str,
    start: int,
    skip: str,
    copies: int,
    dpi: int,
    printer: str,
    cut_marks: bool,
) -> LabelSheet:
    """Return the sheet that was asked for; without a stock it is the kind's own for the paper."""
    from inventory.cli.papers import paper_size
    from inventory.documents.label_printers import on_printer
    from inventory.documents.label_sheet import LabelSheet

    sheet = LabelSheet(
        stock=_stock(stock),
        paper=paper_size(),
        start=start,
        skip=_numbers(skip),
        copies=copies,
        dots_per_inch=dpi,
        cut_marks=cut_marks,
    )
    return on_printer(printers_file(), printer, sheet) if printer else sheet


def _stock(words: str) -> str | Path:
    """Return a stock's name, or the path of a person's own file."""
    return Path(words) if words.endswith(".toml") else words


def _numbers(text: str) -> frozenset[int]:
    if not re.fullmatch(r"[0-9]*(,[0-9]+)*", text):
        raise InventoryError(f"{text!r} names no labels", where="--skip", remedy="As 3,7.")
    return frozenset(int(number) for number in text.split(",") if number)


def printer(
    name: Annotated[str, typer.Argument(metavar="NAME", help="What you call the printer.")],
    across: Annotated[float, typer.Argument(metavar="ACROSS", help="Ruler across, in mm.")],
    down: Annotated[float, typer.Argument(metavar="DOWN", help="Ruler down, in mm.")],
    right_by: Annotated[float, typer.Option(metavar="MM", help="Outlines too far right.")] = 0.0,
    low_by: Annotated[float, typer.Option(metavar="MM", help="Outlines too low.")] = 0.0,
    stock: Annotated[str, typer.Option(metavar="STOCK", help="Of the calibration page.")] = "",
    dpi: Annotated[int, typer.Option(metavar="DPI", help="203, 300 or 600.")] = 300,
) -> None:
    """Keep a printer by what was measured on its page from `labels calibration`.

    Example: kitwright printer bench 100.0 100.0 --right-by 0.8 --stock a4-3x7-63.5x38.1
    """
    from inventory.cli.papers import paper_size
    from inventory.documents.label_printers import Measured, calibrated_sheet, keep_printer
    from inventory.documents.label_sheet import LabelSheet

    sheet = LabelSheet(stock=_stock(stock), paper=paper_size(), dots_per_inch=dpi)
    measured = Measured(across=across, down=down, right_by=right_by, low_by=low_by)
    calibrated = calibrated_sheet(sheet, measured)
    file = printers_file()
    file.parent.mkdir(parents=True, exist_ok=True)
    keep_printer(file, name, calibrated)
    say(
        f"{name}: prints are moved {calibrated.offset_x:+.2f} mm across and "
        f"{calibrated.offset_y:+.2f} mm down; use it with --printer {name}"
    )
