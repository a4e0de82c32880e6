"""Commands that keep the record safe: backup, restore, verify, export, rebuild."""

from __future__ import annotations

import textwrap
from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Json
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column
from inventory.core import cautions
from inventory.core.counted import counted

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.jobs.record.record_tables import RecordTable
    from inventory.jobs.record.verifying import Verified
    from inventory.jobs.stores import Store

FEW = 12


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("backup")(backup)
    app.command("restore")(restore)
    app.command("verify")(verify)
    app.command("export")(export)
    app.command("rebuild")(rebuild)


def backup(
    to: Annotated[
        Path | None, typer.Option("--to", metavar="FOLDER", help="Where the backup goes.")
    ] = None,
    every: Annotated[
        int | None,
        typer.Option("--every", metavar="ACTS", help="From now on after so many acts; 0: never."),
    ] = None,
    *,
    keep_to: Annotated[
        bool, typer.Option("--keep-to", help="From now on, all backups go to that folder.")
    ] = False,
    listed: Annotated[bool, typer.Option("--list", help="Show the backups there are.")] = False,
    json: Json = False,
) -> None:
    """Copy the store and its photographs, and read the copy back before calling it done.

    A backup on the same disk protects from mistakes, not from a lost computer: name a folder on
    another disk with --to, and let all backups go there with --keep-to.

    Example: kitwright backup --to backups --keep-to
    """
    from inventory.jobs.record.backup import back_up, choose

    store = context.open_store()
    choose(store, folder=to if keep_to else None, every=every)
    if listed:
        _list(store, to, json=json)
        return
    made = back_up(store, context.new_slip().recorded_at, to)
    if json:
        document("backup", {"path": str(made.path), "note": made.note})
        return
    say(f"backup made and read back whole: {made.path}")
    say(_rows_and_photos(made.note.rows, len(made.note.photos)))
    if made.removed:
        note(f"{len(made.removed)} older backups were cleared away")


def _list(store: Store, folder: Path | None, *, json: bool) -> None:
    from inventory.jobs.record.backup import known_backups

    there = known_backups(store, folder)
    if json:
        document("backups", [each.note for each in there])
        return
    columns = [Column("made"), Column("rows", number=True), Column("file", words=True)]
    rows = [
        (f"{each.note.made_at:%Y-%m-%d %H:%M}Z", sum(each.note.rows.values()), each.path)
        for each in there
    ]
    table(columns, rows)


def restore(
    file: Annotated[Path, typer.Argument(metavar="BACKUP", help="A backup's .kitwright file.")],
) -> None:
    """Put a backup in the store's place; the store that was there is kept beside it.

    Example: kitwright restore backups/kits-20261125T100000Z.kitwright
    """
    from inventory.jobs.record.restoring import restore as restore_

    done = restore_(file, context.address(), context.new_slip().recorded_at)
    say(f"the store is as it was on {done.note.made_at:%Y-%m-%d at %H:%M} UTC")
    if done.aside is not None:
        say(f"the store that was there lies in {done.aside}")
    if done.later:
        say(f"not in it: {counted(len(done.later), 'act')} after this backup")
        for kit, each in done.later[:FEW]:
            say(f"  {kit} {each.slip.happened_on} {each.act} {each.slip.person}".rstrip())
        if len(done.later) > FEW:
            say(f"  and {len(done.later) - FEW} more")
    for name in done.photos_missing:
        note(f"photograph {name} is missing from the backup")


def verify(
    seal: Annotated[
        list[str] | None,
        typer.Option("--seal", metavar="SEAL", help="A seal from an earlier paper; may repeat."),
    ] = None,
    *,
    json: Json = False,
) -> int:
    """Read the whole record again and say what is wrong; ends with 4 if anything is.

    A seal printed on a report shows whether all movements up to it are still the same.

    Example: kitwright verify --seal 28:9f3a0c11d2e4b756
    """
    from inventory.core.record.chain import read_seal
    from inventory.jobs.record.verifying import verify_file

    found = verify_file(context.address(), [read_seal(each) for each in seal or []])
    if json:
        document("verified", found)
    else:
        _show(found)
    return Exit.FINDINGS if found.problems else Exit.DONE


def _show(found: Verified) -> None:
    for check in found.checks:
        say(f"{'NOT OK' if check.problems else 'OK    '}  {check.looked_at}")
        for problem in check.problems[:FEW]:
            say(f"        {problem}")
        if len(check.problems) > FEW:
            say(f"        and {len(check.problems) - FEW} more")
    for each in found.seals:
        say(f"seal of {each.kit}: {each.seal}")
    for words in found.notes[:FEW]:
        note(textwrap.fill(words, 79))
    note(textwrap.fill(cautions.SEAL, 79))


def export(
    output: Annotated[Path, typer.Option("-o", "--output", metavar="FOLDER", help="New folder.")],
    *,
    what_reads: Annotated[
        bool, typer.Option("--what-reads", help="Of a damaged store, all that can be read.")
    ] = False,
) -> None:
    """Write the whole record as plain text, with photographs and tables for people.

    Example: kitwright export -o record
    """
    from inventory.jobs.record.exporting import export as export_
    from inventory.jobs.record.exporting import export_what_reads

    if what_reads:
        made = export_what_reads(context.address(), output)
        for each in made.foot.lost.split("; ") if made.foot.lost else []:
            note(f"lost: {each}")
    else:
        made = export_(context.open_store(), output, _as_csv)
    say(f"{_rows_and_photos(made.foot.rows, made.photos)}: {made.folder}")
    for name in made.photos_missing:
        note(f"photograph {name} is missing or was changed")


def _as_csv(content: RecordTable) -> bytes:
    from inventory.documents.tables import Table, to_csv

    return to_csv(Table(content.name, content.headings, content.rows))


def rebuild(
    source: Annotated[Path, typer.Argument(metavar="FOLDER", help="Folder of an export.")],
) -> None:
    """Make a new store, identical to the one that was exported; refused where one lies already.

    Example: kitwright rebuild record --store again.kitwright
    """
    from inventory.jobs.record.rebuilding import rebuild as rebuild_

    made = rebuild_(source, context.address())
    say(f"{_rows_and_photos(made.foot.rows, made.photos)}: {made.store.address}")
    say(f"state {made.foot.sha256}")


def _rows_and_photos(rows: Mapping[str, int], photographs: int) -> str:
    return f"{counted(sum(rows.values()), 'row')} and {counted(photographs, 'photograph')}"
