"""The command that says where a part is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.options import Json, PartText
from inventory.cli.show import HAND, PIECES, document, hand_word, kind_words, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    import typer

    from inventory.jobs.looking_up import Whereabouts


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("where")(where)


def where(part: PartText, *, json: Json = False) -> None:
    """Show where a part lies, which steps will take it, and where it stands on the plans.

    Example: kitwright where T2-RU-0412
    """
    from inventory.jobs.looking_up import where as where_

    seen = where_(context.open_bench(), part)
    if json:
        document("where", seen)
        return
    say(f"{seen.part.printed}  {seen.part.description}".rstrip())
    say()
    if seen.lying:
        columns = [Column("place"), Column("kind", words=True), PIECES]
        table(columns, [(lies.place, kind_words(lies.item), lies.quantity) for lies in seen.lying])
    else:
        say("none of it was counted or put anywhere yet")
    _steps(seen)


def _steps(seen: Whereabouts) -> None:
    say()
    if not seen.steps:
        say("no step of the plan asks for it")
        return
    columns = [
        Column("step"), HAND, Column("needs"), Column("set aside", number=True),
        Column("sheet"), Column("find"),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                each.need.step, hand_word(each.need.hand),
                amount(each.need, each.need.quantity), amount(each.need, each.pieces, bare=True),
                each.need.sheet, each.need.find_number,
            )
            for each in seen.steps
        ],
    )  # fmt: skip
