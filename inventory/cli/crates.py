"""Commands at the crate: open it, count it, check it, close it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context, counting
from inventory.cli.options import Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from inventory.jobs.receiving import CrateState

group = typer.Typer(no_args_is_help=True, help="Open, count, check and close crates.")

Crate = Annotated[str, typer.Argument(metavar="CRATE", help="As the list names it, or its number.")]

BAR = 20
"""Characters of the progress bar."""


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    counting.add_to(group)
    app.add_typer(group, name="crate")


@group.command("open")
def open_(crate: Crate) -> None:
    """Record that a crate was opened.

    Example: kitwright crate open 2
    """
    from inventory.jobs.receiving import open_crate

    say(f"crate {open_crate(context.open_bench(), crate, context.new_slip())} is open")


@group.command("close")
def close(crate: Crate) -> None:
    """Record that a crate is counted to the end: what wasn't counted is missing from now on.

    Example: kitwright crate close 2
    """
    from inventory.jobs.receiving import close_crate

    say(f"crate {close_crate(context.open_bench(), crate, context.new_slip())} is closed")
    note("next: kitwright findings")


@group.command("check")
def check(
    crate: Annotated[str, typer.Argument(metavar="[CRATE]", help="One crate only.")] = "",
    *,
    json: Json = False,
) -> None:
    """Show how far each crate is counted, and what isn't counted yet.

    Example: kitwright crate check 2
    """
    from inventory.jobs.receiving import crates

    states = crates(context.open_bench(), crate)
    if json:
        document("crates", states)
        return
    columns = [
        Column("crate"), Column("state"), Column("counted"), Column("of", number=True),
        Column("twice", number=True), Column(""),
    ]  # fmt: skip
    table(
        columns,
        [
            (each.crate, each.state, each.counted, each.lines, each.counted_twice, _bar(each))
            for each in states
        ],
    )
    open_lines = [line for each in states for line in each.open_lines] if crate else []
    if open_lines:
        say()
        say("not counted yet:")
        table(
            [
                Column("bag"),
                PART,
                HAND,
                Column("listed", number=True),
                Column("description", words=True),
            ],
            [
                (line.bag, line.printed, hand_word(line.hand), line.shipped, line.description)
                for line in open_lines
            ],
        )


def _bar(state: CrateState) -> str:
    full = BAR if not state.lines else BAR * state.counted // state.lines
    return "#" * full + "." * (BAR - full)
