"""Commands for kits: begin one, look at one."""

from __future__ import annotations

from typing import Annotated

import typer

from inventory.cli import context
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column

group = typer.Typer(no_args_is_help=True, help="Begin a kit, and look at the kits of a store.")


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="kit")


@group.command("new")
def new(
    name: Annotated[str, typer.Argument(help="Name of the airframe or project.")],
    code: Annotated[
        str, typer.Option(metavar="XX", help="Two characters for the labels; made from the name.")
    ] = "",
) -> None:
    """Begin a kit; begins the store too where there is none yet.

    Example: kitwright kit new "Tarn T2" --code T2
    """
    from inventory.jobs.kits import begin_kit
    from inventory.jobs.stores import open_or_begin

    store = open_or_begin(context.address())
    kit = begin_kit(store, name, code, context.new_slip().recorded_at)
    say(f"Kit {kit.name} ({kit.code}) is begun in {store.address}")
    note("next: kitwright packing-list read LIST.xlsx")


@group.command("list")
def list_(
    *, json: Annotated[bool, typer.Option("--json", help="One JSON document.")] = False
) -> None:
    """List the kits of the store.

    Example: kitwright kit list
    """
    from inventory.jobs.kits import list_kits

    kits = list_kits(context.open_store())
    if json:
        document("kits", kits)
        return
    columns = [Column("code"), Column("kit", words=True), Column("begun")]
    table(columns, [(kit.code, kit.name, kit.created_at[:10]) for kit in kits])


@group.command("show")
def show(
    *, json: Annotated[bool, typer.Option("--json", help="One JSON document.")] = False
) -> None:
    """Show how far a kit is: crates, bins, steps.

    Example: kitwright kit show
    """
    from inventory.jobs.overview import overview

    seen = overview(context.open_bench())
    if json:
        document("kit", seen)
        return
    say(f"{seen.kit.name} ({seen.kit.code})")
    rows = [
        ("lists taken in", seen.lists),
        ("lines", seen.lines),
        ("crates counted to the end", f"{seen.crates_closed} of {seen.crates}"),
        ("bins", seen.bins),
        ("steps done", f"{seen.steps_done} of {seen.steps}"),
        ("acts recorded", seen.acts),
    ]
    table([Column("what"), Column("how many", number=True)], rows)
