"""Commands for bins: add, put, show, recount, hold and release."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount_typed, of_part, say_movements
from inventory.cli.asking import asked, taking
from inventory.cli.options import (
    AmountMaybe,
    From,
    HandText,
    Json,
    Length,
    Lot,
    NewPart,
    PartMaybe,
    PartText,
    Table,
    To,
    Why,
    Worked,
)
from inventory.cli.show import PART, PIECES, document, kind_words, note, say, table
from inventory.cli.table import Column
from inventory.core.counted import counted
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Measure
    from inventory.jobs.bench.putting_away import InBin

_FIRST = 3
"""Part numbers named of each bin where all bins are shown."""

group = typer.Typer(no_args_is_help=True, help="Add bins, put pieces into them, count them again.")


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="bin")


@group.command("add")
def add(
    names: Annotated[list[str], typer.Argument(metavar="NAME...", help="B-01, or B-01..B-12.")],
    shelf: Annotated[str, typer.Option(metavar="WORDS", help="Where it stands or hangs.")] = "",
) -> None:
    """Add bins, drawers, shelves or hooks.

    Example: kitwright bin add D-01..D-06 --shelf "drawer cabinet"
    """
    from inventory.jobs.bench.putting_away import add_bins

    codes = add_bins(context.open_bench(), names, shelf, context.new_slip())
    say(f"{len(codes)} added: {', '.join(codes)}")


@group.command("put")
def put(
    part: PartMaybe = "",
    amount: AmountMaybe = "",
    from_: From = "",
    to: To = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    file: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Many rows from a spreadsheet.")
    ] = None,
    why: Why = "",
    *,
    worked: Worked = False,
    new_part: NewPart = False,
) -> None:
    """Put pieces into a bin: from a crate, another bin, bought, made, or opening stock.

    Example: kitwright bin put AN3-5A 12 --from "crate 1/H1" --to D-01
    """
    from inventory.jobs.bench.putting_away import Putting
    from inventory.jobs.bench.putting_away import put as put_

    bench = context.open_bench()
    if file is not None:
        from inventory.jobs.bench.put_away_files import pieces_put, put_from_file

        moves = put_from_file(bench, file, from_, context.new_slip(why))
        say(f"{counted(len(moves), 'row')} put away, {counted(pieces_put(bench, moves), 'piece')}")
        return
    if not (part and amount and from_ and to):
        raise InventoryError(
            "which pieces go from where into which bin?",
            remedy='For instance: kitwright bin put AN3-5A 12 --from "crate 1/H1" --to D-01',
        )
    wanted = asked(part, hand, lot, length, worked=worked, new=new_part)
    put_away = Putting(taking(bench, wanted, amount, from_), to)
    say_movements(bench, put_(bench, [put_away], context.new_slip(why)))


@group.command("show")
def show(
    name: Annotated[str, typer.Argument(metavar="BIN", help="One bin only.")] = "",
    output: Table = None,
    *,
    stock: Annotated[
        bool, typer.Option("--stock", help="With -o: the full stock list by part number.")
    ] = False,
    every: Annotated[bool, typer.Option("--all", help="What lies in all bins.")] = False,
    json: Json = False,
) -> None:
    """Show all bins, or what lies in one; with -o a bin map by shelf, or --stock the stock list.

    Example: kitwright bin show D-01
    """
    from inventory.jobs.bench.putting_away import in_bins
    from inventory.jobs.planning.measures import measures

    bench = context.open_bench()
    if output is not None:
        from inventory.cli.bench.stock_papers import write_bin_map, write_stock_list
        from inventory.jobs.bench.looking_up import stock as all_stock

        (write_stock_list if stock else write_bin_map)(bench, all_stock(bench), output)
        say(f"written: {output}")
        return
    bins = in_bins(bench, name)
    if json:
        document(
            "bins", [{"bin": b.code, "shelf": shelf, "lying": rows} for b, shelf, rows in bins]
        )
    elif name or every:
        _show(bins, measures(bench))
    else:
        _show_bins(bins)
        note("what lies in one: kitwright bin show BIN; in all: --all")


def _show_bins(bins: Sequence[InBin]) -> None:
    """Show one line for each bin: how many part numbers, and the first of them."""
    rows = []
    for place, shelf, there in bins:
        parts = list(dict.fromkeys(lies.item.part for lies in there))
        more = [f"and {len(parts) - _FIRST} more"] if len(parts) > _FIRST else []
        rows.append((place.code, shelf, len(parts), ", ".join([*parts[:_FIRST], *more]) or "empty"))
    columns = [
        Column("bin"), Column("shelf", words=True), Column("part numbers", number=True),
        Column("which", words=True),
    ]  # fmt: skip
    table(columns, sorted(rows))


def _show(bins: Sequence[InBin], known: Mapping[str, Measure]) -> None:
    rows = [
        (
            place.code, lies.item.part, kind_words(lies.item),
            of_part(lies.quantity, lies.item.part, known), shelf,
        )
        for place, shelf, there in bins
        for lies in there
    ]  # fmt: skip
    rows += [(place.code, "-", "empty", "0", shelf) for place, shelf, there in bins if not there]
    columns = [Column("bin"), PART, Column("kind", words=True), PIECES, Column("shelf", words=True)]
    table(columns, sorted(rows))


@group.command("recount")
def recount(
    bin_: Annotated[str, typer.Argument(metavar="BIN", help="The bin that was counted again.")],
    part: PartText,
    amount: Annotated[
        str, typer.Argument(metavar="AMOUNT", help="How much lies there; as 11 or 30ml.")
    ],
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    worked: Worked = False,
    new_part: NewPart = False,
) -> None:
    """Count a bin again; the difference is recorded as a movement.

    Example: kitwright bin recount D-01 AN3-5A 11
    """
    from inventory.jobs.bench.putting_away import recount as recount_

    bench = context.open_bench()
    wanted = asked(part, hand, lot, length, worked=worked, new=new_part)
    counted = [(wanted, amount_typed(bench, part, amount))]
    moves = recount_(bench, bin_, counted, context.new_slip(why))
    say_movements(bench, moves)
    if not moves:
        say("the record agrees")
