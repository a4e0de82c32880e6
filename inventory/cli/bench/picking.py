"""The command for fetching: what a step takes from which bin."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.options import Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import missing_lines

if TYPE_CHECKING:
    from inventory.jobs.bench.looking_up import Picking


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("pick")(pick)


def pick(
    step: Annotated[str, typer.Argument(metavar="STEP", help="The step to fetch for.")],
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE", help="A .pdf, .xlsx, .csv."),
    ] = None,
    *,
    json: Json = False,
) -> None:
    """Show what to fetch for a step, bin after bin.

    Example: kitwright pick 11-01 -o picklist.pdf
    """
    from inventory.jobs.bench.looking_up import pick as pick_

    bench = context.open_bench()
    picking = pick_(bench, step)
    if output is not None:
        from inventory.cli.papers import write_pick_list

        write_pick_list(bench, picking, output)
        note(f"written: {output}")
    if json:
        document("pick", picking)
    elif output is None:
        _fetch_table(picking)


def _fetch_table(picking: Picking) -> None:
    say(f"step {picking.step.code}  {picking.step.title}".rstrip())
    say()
    columns = [
        Column("bin"), Column("take", number=True), PART, HAND, Column("plans"),
        Column("description", words=True),
    ]  # fmt: skip
    rows = [
        (
            each.place.code, amount(each.need, each.quantity), each.need.printed or each.item.part,
            hand_word(each.item.hand),
            " ".join(filter(None, (each.need.sheet, each.need.find_number))),
            each.need.description,
        )
        for each in picking.fetches
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    for net, missing in picking.missing:
        say("\n".join(missing_lines(net, missing)))
