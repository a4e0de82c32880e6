"""Commands for packing lists: read one, show what was read."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from inventory.core.packing import PackingList, SourceRow

group = typer.Typer(no_args_is_help=True, help="Read a supplier's packing list, and look at it.")

Rows = Annotated[bool, typer.Option("--rows", help="Every row of the sheet with its class.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="packing-list")


@group.command("read")
def read(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The list; - for pasted text.")],
    answers: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Answers to the open questions.")
    ] = None,
    layout: Annotated[
        Path | None, typer.Option(metavar="FILE", help="How this supplier writes his lists.")
    ] = None,
    *,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show only; store nothing.")] = False,
    rows: Rows = False,
    json: Json = False,
) -> int:
    """Read a packing list, show what was understood, and take it in if nothing is unclear.

    Example: kitwright packing-list read LIST.xlsx --dry-run
    """
    from inventory.jobs.unpacking import read_list, take_in

    packing_list = read_list(file, answers, layout)
    _show(packing_list, rows=rows, json=json)
    if dry_run:
        note("dry run: nothing was stored")
        return Exit.REFUSED if packing_list.problems else Exit.DONE
    number = take_in(context.open_bench(), packing_list, context.new_slip())
    note(f"taken in as list {number}; next: kitwright crate open CRATE")
    return Exit.DONE


@group.command("show")
def show(
    number: Annotated[int, typer.Argument(metavar="LIST", help="Number of the list.")] = 0,
    *,
    rows: Rows = False,
    json: Json = False,
) -> None:
    """Show the lists that were taken in; the lines or all rows of one.

    Example: kitwright packing-list show 1 --rows
    """
    from inventory.jobs.unpacking import source_rows, taken_in

    bench = context.open_bench()
    if rows:
        _show_rows(source_rows(bench, number or 1), json=json)
        return
    lists = taken_in(bench)
    if json:
        document("packing lists", [{"list": saved, "lines": lines} for saved, lines in lists])
        return
    if not number:
        table(
            [
                Column("list", number=True),
                Column("source", words=True),
                Column("lines", number=True),
            ],
            [(saved.id, saved.source, len(lines)) for saved, lines in lists],
        )
        return
    columns = [
        Column("row", number=True), PART, HAND, Column("ord", number=True),
        Column("ship", number=True), Column("b/o", number=True), Column("crate"), Column("bag"),
        Column("description", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                line.row, line.printed, hand_word(line.hand), line.ordered, line.shipped,
                line.back_ordered, line.crate, line.bag, line.description,
            )
            for saved, lines in lists
            if saved.id == number
            for line in lines
        ],
    )  # fmt: skip


def _show(packing_list: PackingList, *, rows: bool, json: bool) -> None:
    from inventory.core.list_audit import audit

    if json:
        document("rows" if rows else "packing list", audit(packing_list) if rows else packing_list)
        return
    if rows:
        _show_rows(packing_list.rows, json=False)
        return
    from inventory.core.list_summary import summary_lines

    for line in summary_lines(packing_list):
        say(line)


def _show_rows(rows: tuple[SourceRow, ...] | list[SourceRow], *, json: bool) -> None:
    if json:
        document("rows", rows)
        return
    columns = [
        Column("sheet"), Column("row", number=True), Column("class"),
        Column("why", words=True), Column("cells", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (row.sheet, row.row, row.row_class, row.why, " | ".join(filter(None, row.cells)))
            for row in rows
        ],
    )
