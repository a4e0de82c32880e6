"""Many rows of one table at once, without a mapping of names for each."""

from __future__ import annotations

from itertools import islice
from operator import itemgetter
from typing import TYPE_CHECKING

from sqlalchemy import insert

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from sqlalchemy import Connection, Table

_AT_ONCE = 2_000
"""Rows handed over together: as fast as all of them, and their memory is free again."""


def insert_rows(
    db: Connection, table: Table, names: Sequence[str], rows: Iterable[tuple[str | int, ...]]
) -> None:
    """Insert rows whose values stand in the order of `names`; only texts and whole numbers.

    The statement is put together once and the rows go to the driver as they are: twenty thousand
    lines take a third of the time that a mapping for each row takes.
    """
    statement = insert(table).compile(dialect=db.dialect, column_keys=list(names))
    left = iter(rows)
    if statement.positiontup is None:
        while some := list(islice(left, _AT_ONCE)):
            db.execute(insert(table), [dict(zip(names, row, strict=True)) for row in some])
        return
    if statement.positiontup != list(names):
        left = map(itemgetter(*(names.index(name) for name in statement.positiontup)), left)
    while some := list(islice(left, _AT_ONCE)):
        db.exec_driver_sql(str(statement), some)
