"""The command that prints labels of every kind on any stock."""

from __future__ import annotations

from enum import StrEnum
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli.paragraphs import hanging
from inventory.cli.show import note, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from inventory.cli.labelling.label_kinds import MadeLabels

_SAID = 3
"""Remarks said one by one; the rest is counted."""
DEFAULT = Path("labels.pdf")


class Kind(StrEnum):
    """What can be labelled."""

    BINS = "bins"
    BAGS = "bags"
    PARTS = "parts"
    STEPS = "steps"
    CRATES = "crates"
    REMNANTS = "remnants"
    TAGS = "tags"
    CONTROLS = "controls"
    TEST_CARD = "test-card"
    CALIBRATION = "calibration"
    STOCKS = "stocks"


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("labels")(labels)


KindName = Annotated[Kind, typer.Argument(metavar="KIND", show_choices=False, help="See above.")]
Names = Annotated[list[str] | None, typer.Argument(metavar="NAME", help="These only; else all.")]
Output = Annotated[Path, typer.Option("-o", "--output", metavar="FILE.pdf", help="File to write.")]
Stock = Annotated[str, typer.Option(metavar="STOCK", help="A name, or a .toml file.")]
Start = Annotated[int, typer.Option(metavar="N", help="First free label of the sheet.")]
Skip = Annotated[str, typer.Option(metavar="N,N", help="Labels that are spoilt.")]
Copies = Annotated[int, typer.Option(metavar="N", help="Of each label.")]
Dpi = Annotated[int, typer.Option(metavar="DPI", help="Printer: 203, 300 or 600.")]
Printer = Annotated[str, typer.Option(metavar="NAME", help="A calibrated printer.")]
CutMarks = Annotated[bool, typer.Option("--cut-marks", help="For plain paper.")]
Tiny = Annotated[bool, typer.Option("--tiny", help="Bins: Data Matrix for drawers.")]


def labels(
    kind: KindName,
    names: Names = None,
    output: Output = DEFAULT,
    stock: Stock = "",
    start: Start = 1,
    skip: Skip = "",
    copies: Copies = 1,
    dpi: Dpi = 300,
    printer: Printer = "",
    *,
    cut_marks: CutMarks = False,
    tiny: Tiny = False,
) -> None:
    """Print labels of a kind on a sheet or roll.

    KIND is one of: bins, bags, parts, steps, crates, remnants, tags, controls, test-card,
    calibration; `labels stocks` lists the sheets and rolls.

    The control sheet has UNDO, DONE, YES and digits; the test card shows what a scanner changes.

    Example: kitwright labels bins -o labels.pdf --stock a4-3x7-63.5x38.1 --start 4
    """
    from inventory.cli.labelling import label_kinds
    from inventory.cli.labelling.label_printers import printer_sheet
    from inventory.cli.papers import write_pdf

    if kind is Kind.STOCKS:
        _list_stocks(dpi)
        return
    sheet = printer_sheet(
        stock=stock, start=start, skip=skip, copies=copies, dpi=dpi, printer=printer,
        cut_marks=cut_marks,
    )  # fmt: skip
    made = label_kinds.made(kind.value, names or [], sheet, tiny=tiny)
    write_pdf(output, lambda: made.pdf)
    _tell(made, output)


def _tell(made: MadeLabels, output: Path) -> None:
    say(f"{made.told}: {output}")
    few = made.remarks if len(made.remarks) <= _SAID + 1 else made.remarks[:_SAID]
    for remark in few:
        note("\n".join(hanging(remark, 2)))
    if len(made.remarks) > len(few):
        note(f"and {len(made.remarks) - len(few)} more such remarks; look at the PDF")
    if made.next_free:
        note(f"next free label: {made.next_free}; print at actual size, not fitted to the page")


def _list_stocks(dpi: int) -> None:
    from inventory.documents.label_printers import label_room
    from inventory.documents.label_sheet import LabelSheet, label_stocks

    rooms = [label_room(LabelSheet(stock=name, dots_per_inch=dpi)) for name in label_stocks()]
    table(
        [
            Column("stock"),
            Column("mm"),
            *(Column(word, number=True) for word in ("a page", "name", "code", "line code")),
        ],
        (
            (
                each.stock,
                f"{each.size[0]:g} x {each.size[1]:g}",
                each.per_page,
                each.name,
                each.code,
                each.line_code or "none",
            )
            for each in rooms
        ),
    )
    note("name, code and line code: so many characters at most")
