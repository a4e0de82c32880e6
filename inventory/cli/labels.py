"""Commands for labels: printed as PDF on any stock."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.show import note, say

if TYPE_CHECKING:
    from inventory.documents.bin_labels import BinLabel
    from inventory.jobs.labelling import NumberedBin

group = typer.Typer(no_args_is_help=True, help="Print labels.")

Output = Annotated[Path, typer.Option("-o", "--output", metavar="FILE.pdf", help="File to write.")]
Stock = Annotated[
    str, typer.Option("--stock", metavar="STOCK", help="A name of `labels stocks`, or a file.")
]
Start = Annotated[
    int, typer.Option("--start", metavar="N", help="First free label of a part-used sheet.")
]
Dots = Annotated[int, typer.Option("--dpi", metavar="DPI", help="Of the printer: 203, 300, 600.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="labels")


@group.command("bins")
def bins(
    names: Annotated[
        list[str] | None, typer.Argument(metavar="[BIN]...", help="These bins only.")
    ] = None,
    output: Output = Path("labels.pdf"),
    stock: Stock = "",
    start: Start = 1,
    dpi: Dots = 300,
    *,
    tiny: Annotated[bool, typer.Option("--tiny", help="Data Matrix, for tiny drawers.")] = False,
) -> None:
    """Print bin labels: the name large, a QR code and the same number as a line code.

    Example: kitwright labels bins -o labels.pdf --stock a4-3x7-63.5x38.1 --start 4
    """
    from inventory.cli.papers import write_file
    from inventory.documents.bin_labels import bin_labels
    from inventory.documents.label_sheet import DEFAULT_STOCK, LabelSheet
    from inventory.jobs.labelling import numbered_bins

    numbered = numbered_bins(context.open_bench(), names or ())
    sheet = LabelSheet(stock=stock or DEFAULT_STOCK, start=start, dots_per_inch=dpi)
    made = bin_labels(map(_label, numbered), sheet, tiny=tiny)
    write_file(output, made.pdf)
    say(f"{len(numbered)} labels: {output}")
    for remark in made.remarks:
        note(remark)
    note(f"next free label: {made.next_free}; print at actual size, not fitted to the page")


def _label(numbered: NumberedBin) -> BinLabel:
    from inventory.documents.bin_labels import BinLabel

    if len(numbered.contents) != 1:
        return BinLabel(own_id=numbered.own_id, name=numbered.place.code)
    item, printed, description = numbered.contents[0]
    return BinLabel(
        own_id=numbered.own_id,
        name=numbered.place.code,
        part=printed,
        description=description,
        hand=item.hand,
    )


@group.command("stocks")
def stocks() -> None:
    """List the label stocks that come with the program.

    Example: kitwright labels stocks
    """
    from inventory.documents.label_sheet import label_stocks

    for name in label_stocks():
        say(name)
