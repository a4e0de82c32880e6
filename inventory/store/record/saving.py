"""What can still be read from a damaged file: from both ends, then row by row between.

Only a copy is opened. A file that was cut off is filled up with zeros there: SQLite opens no file
shorter than its head says, although all pages before the cut are sound.
"""

from __future__ import annotations

import shutil
from contextlib import closing, contextmanager
from itertools import pairwise
from pathlib import Path
from tempfile import TemporaryDirectory
from typing import TYPE_CHECKING, Any

from sqlalchemy import select
from sqlalchemy.exc import DatabaseError

from inventory.core.counted import counted
from inventory.core.errors import StoreError
from inventory.core.record.export_form import row_line
from inventory.store.opening.address import path_of
from inventory.store.opening.database import look_at
from inventory.store.opening.files import check_file
from inventory.store.record.list_of_tables import lend_list_of_tables
from inventory.store.record.state import LEFT_OUT
from inventory.store.tables.whole import metadata

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import ColumnElement, Connection, Table

    from inventory.store.opening.database import Store

Found = dict[tuple[Any, ...], dict[str, Any]]
"""Rows by their key."""

_MOST_FILLED = 2**32
"""Bytes: a head that says more is damaged itself."""
_MOST_TRIES = 100_000
"""Rows that are looked for one by one in a gap."""


@contextmanager
def what_is_left(address: str) -> Iterator[Store]:
    """Open a copy of a damaged store's file to look at it."""
    check_file(path_of(address))
    with TemporaryDirectory() as folder:
        copy = Path(folder) / "damaged.kitwright"
        shutil.copyfile(path_of(address), copy)
        with copy.open("r+b") as file:
            head = file.read(32)
            page = int.from_bytes(head[16:18], "big")
            size = (65536 if page == 1 else page) * int.from_bytes(head[28:32], "big")
            if copy.stat().st_size < size <= _MOST_FILLED:
                file.truncate(size)
        if not _lists_its_tables(copy):
            lend_list_of_tables(copy)
        with closing(look_at(str(copy))) as store:
            yield store


def _lists_its_tables(copy: Path) -> bool:
    try:
        with closing(look_at(str(copy))) as store, store.reading() as db:
            listed = {row[0] for row in db.exec_driver_sql("SELECT name FROM sqlite_master")}
    except (DatabaseError, StoreError, ValueError):
        return False
    return listed >= set(metadata.tables)


def lines_that_read(db: Connection, lost: list[str]) -> Iterator[tuple[str, str]]:
    """Return the lines of an export that can still be read; what can't is told in `lost`."""
    for table in metadata.sorted_tables:
        if table.name not in LEFT_OUT:
            for row in _rows(db, table, lost):
                yield table.name, row_line(table.name, row)


def _rows(db: Connection, table: Table, lost: list[str]) -> list[dict[str, Any]]:
    found: Found = {}
    key = list(table.primary_key)
    if not _until_it_breaks(db, table, [column.asc() for column in key], found):
        _until_it_breaks(db, table, [column.desc() for column in key], found)
        _between(db, table, found)
        lost.append(_said_lost(table.name, len(found)))
    return [found[each] for each in sorted(found)]


def _said_lost(table: str, read: int) -> str:
    if not read:
        return f"of {table} nothing could be read, and all of it may be lost"
    return f"of {table} {counted(read, 'row')} could be read, and others may be lost"


def _until_it_breaks(
    db: Connection, table: Table, order: list[ColumnElement[Any]], found: Found
) -> bool:
    kinds = [column.type.python_type for column in table.primary_key]
    try:
        for row in db.execute(select(table).order_by(*order), execution_options=_ONE).mappings():
            key = tuple(row[column.name] for column in table.primary_key)
            if not all(isinstance(value, kind) for value, kind in zip(key, kinds, strict=True)):
                return False  # what a blank or foreign page was taken for
            found[key] = dict(row)
    except (DatabaseError, ValueError):
        return False
    return True


_ONE = {"yield_per": 1}
"""Read ahead by no row: what came before the damage is kept."""


def _between(db: Connection, table: Table, found: Found) -> None:
    """Look for numbers that are missing between those found; the rows of a kit are numbered."""
    if [column.name for column in table.primary_key] != ["kit", "id"]:
        return
    gaps = [
        (kit, number)
        for (kit, low), (other, high) in pairwise(sorted(found))
        if kit == other
        for number in range(low + 1, high)
    ]
    for kit, number in gaps[:_MOST_TRIES]:
        one = select(table).where(table.c.kit == kit, table.c.id == number)
        try:
            for row in db.execute(one).mappings():
                found[kit, number] = dict(row)
        except DatabaseError:
            continue
