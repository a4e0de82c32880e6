"""Commands for the past: what was done, and undoing it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import movement_words, say_movements
from inventory.cli.options import Json, Why
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column
from inventory.core.counted import counted

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Measure
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.undoing import HistoryEntry

SHOWN = 20
NAMED = 3
"""Of what an act was about, so many are named."""


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("history")(history)
    app.command("undo")(undo)


def history(
    part: Annotated[str, typer.Option(metavar="PART", help="Only acts that moved it.")] = "",
    step: Annotated[str, typer.Option(metavar="STEP", help="Only acts that moved to it.")] = "",
    act: Annotated[
        str, typer.Option(metavar="WORDS", help="Only acts so named: issue, take-back, scrap.")
    ] = "",
    *,
    every: Annotated[bool, typer.Option("--all", help="From the first act on.")] = False,
    json: Json = False,
) -> None:
    """Show what was done, newest first; undone acts stay, with a mark.

    Example: kitwright history --part T2-RU-0412
    """
    from inventory.jobs.bench.undoing import history as history_
    from inventory.jobs.bench.undoing import newest_acts

    bench = context.open_bench()
    if not (every or json or part or step or act):
        newest = newest_acts(bench, SHOWN)
        _show(bench, newest, newest[-1].recorded.id - 1 if newest else 0)
        return
    entries = [
        entry
        for entry in history_(bench, part, step)
        if act.casefold() in entry.recorded.act.casefold()
    ]
    if json:
        document("history", entries)
    else:
        shown = entries if every else entries[:SHOWN]
        _show(bench, shown, len(entries) - len(shown))


def _show(bench: Bench, entries: Sequence[HistoryEntry], older: int) -> None:
    from inventory.jobs.planning.measures import measures

    columns = [
        Column("act", number=True), Column("day"), Column("who", words=True),
        Column("what", words=True), Column("moved", words=True),
    ]  # fmt: skip
    known = measures(bench)
    table(columns, [_row(entry, known) for entry in entries])
    if older:
        note(f"{counted(older, 'older act')}: kitwright history --all")


def _row(entry: HistoryEntry, known: Mapping[str, Measure]) -> tuple[object, ...]:
    slip = entry.recorded.slip
    what = entry.recorded.act
    if entry.recorded.undoes is not None:
        what += f" of act {entry.recorded.undoes}"
    if entry.undone:
        what += " (UNDONE)"
    more = [f"and {len(entry.about) - NAMED} more"] if len(entry.about) > NAMED else []
    said = [*entry.about[:NAMED], *more, *filter(None, [slip.note])]
    if said:
        what += f": {', '.join(said)}"
    moved = [movement_words(move, known) for move in entry.movements[:2]]
    if len(entry.movements) > len(moved):
        moved.append(f"and {len(entry.movements) - len(moved)} more")
    who = " ".join(filter(None, (slip.person, f"({slip.device})" if slip.device else "")))
    return entry.recorded.id, slip.happened_on, who, what, "; ".join(moved)


def undo(
    act: Annotated[int, typer.Argument(metavar="ACT", help="Number in the history.")] = 0,
    why: Why = "",
) -> None:
    """Undo the last act, or one by its number: a counter-record, nothing is erased.

    Example: kitwright undo
    """
    from inventory.jobs.bench.undoing import undo as undo_

    bench = context.open_bench()
    entry = undo_(bench, context.new_slip(why), act or None)
    say(f"act {entry.recorded.id} ({entry.recorded.act}) is undone")
    say_movements(bench, entry.movements[:SHOWN], "  ")
    if len(entry.movements) > SHOWN:
        say(f"  and {len(entry.movements) - SHOWN} more")
