"""The command that counts: one part, many from a file, or by scanning."""

from __future__ import annotations

import sys
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.asking import asked
from inventory.cli.options import HandText, Length, Lot
from inventory.cli.show import hand_word, note, say
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.counts import Count
    from inventory.jobs.acts import Bench


def add_to(group: typer.Typer) -> None:
    """Put the command into the tree."""
    group.command("count")(count)


def count(
    crate: Annotated[str, typer.Argument(metavar="[CRATE]", help="The crate.")] = "",
    part: Annotated[str, typer.Argument(metavar="[PART]", help="Part number as printed.")] = "",
    pieces: Annotated[str, typer.Argument(metavar="[PIECES]", help="All that lie there.")] = "",
    bag: Annotated[str, typer.Option(metavar="BAG", help="The bag in the crate.")] = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    damaged: Annotated[str, typer.Option(metavar="N", help="So many of them are damaged.")] = "0",
    wrong: Annotated[str, typer.Option(metavar="N", help="So many of them are other parts.")] = "0",
    revision: Annotated[str, typer.Option(metavar="REV", help="As marked on the part.")] = "",
    words: Annotated[str, typer.Option("--note", metavar="WORDS", help="A remark.")] = "",
    file: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Many counts from a spreadsheet.")
    ] = None,
    *,
    scan: Annotated[bool, typer.Option("--scan", help="Each scanned part is one piece.")] = False,
    recount: Annotated[
        bool, typer.Option("--recount", help="This number takes the place of the earlier one.")
    ] = False,
    more: Annotated[bool, typer.Option("--more", help="This adds to the earlier number.")] = False,
) -> None:
    """Count a part of a crate; or many with --file FILE; or by scanning with --scan.

    Example: kitwright crate count 2 T2-RU-0412 3 --hand left
    """
    from inventory.jobs import counting

    bench = context.open_bench()
    if file is not None:
        told = counting.count_from_file(bench, file, context.new_slip(words))
        say(f"{told.rows} rows taken in, {told.pieces} pieces counted")
    elif scan and crate:
        _by_scan(bench, crate, bag)
    elif crate and part and pieces:
        typed = counting.TypedCount(
            crate=crate,
            bag=bag,
            asked=asked(part, hand, lot, length),
            pieces=pieces,
            damaged=damaged,
            wrong=wrong,
            revision=revision,
        )
        slip = context.new_slip(words)
        say(_words(counting.count_typed(bench, typed, slip, recount=recount, more=more)))
    else:
        raise InventoryError(
            "what was counted?",
            remedy="For instance: kitwright crate count 2 T2-RU-0412 3 --hand left",
        )


def _words(counted: Count) -> str:
    hand = hand_word(counted.hand)
    bad = [f"{counted.pieces_damaged} damaged"] if counted.pieces_damaged else []
    bad += [f"{counted.pieces_wrong} wrong"] if counted.pieces_wrong else []
    where = f"crate {counted.crate}" + (f" bag {counted.bag}" if counted.bag else "")
    told = f"{counted.pieces_good} x {counted.part} {hand}".rstrip() + f" counted in {where}"
    return told + (f"; on hold: {', '.join(bad)}" if bad else "")


def _by_scan(bench: Bench, crate: str, bag: str) -> None:
    """Count by scanning: each scan is one piece; all are stored together at the end."""
    from inventory.jobs.count_by_scan import ScanCount

    counting = ScanCount(bench, crate, bag)
    at_terminal = sys.stdin.isatty()
    if at_terminal:
        note("each scan is one piece; UNDO takes the last one off; Ctrl-D stores the count")
    for line in sys.stdin:
        if line.strip():
            say(counting.scan(line))
            sys.stdout.flush()
    counted = counting.store(context.new_slip())
    say(f"stored: {sum(each.pieces_good for each in counted)} pieces of {len(counted)} kinds")
