"""Commands for what differs between list and goods."""

from __future__ import annotations

from pathlib import Path
from typing import Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("findings")(findings)


def findings(
    crate: Annotated[str, typer.Argument(metavar="[CRATE]", help="One crate only.")] = "",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="FILE.xlsx", help="Write a workbook.")
    ] = None,
    *,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show what differs between the packing list and what was counted, the worst first.

    Example: kitwright findings -o findings.xlsx
    """
    from inventory.jobs.receiving import crates, found

    bench = context.open_bench()
    differences = found(bench, crate)
    if output is not None:
        from inventory.cli.papers import write_findings

        write_findings(bench, differences, output)
        note(f"written: {output}")
    if json:
        document("findings", differences)
    elif differences:
        columns = [
            Column("finding"), Column("crate"), Column("bag"), PART, HAND,
            Column("list", number=True), Column("count", number=True), Column("diff", number=True),
            Column("words", words=True),
        ]  # fmt: skip
        table(
            columns,
            [
                (
                    one.kind, one.crate, one.bag, one.printed or one.part, hand_word(one.hand),
                    one.listed, one.counted, one.pieces, one.words,
                )
                for one in differences
            ],
        )  # fmt: skip
    else:
        say("list and counts agree as far as it was counted")
    still_open = [each.crate for each in crates(bench) if each.state != "closed"]
    if still_open:
        note(f"not closed yet, so nothing is missed in them: crate {', crate '.join(still_open)}")
    return Exit.FINDINGS if check and differences else Exit.DONE
