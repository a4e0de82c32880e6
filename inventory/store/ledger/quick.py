"""Statements of every scan: put together once, and handed to SQLite's driver as they are.

SQLAlchemy's own way from a statement to its rows is long: after each commit it is walked with cold
caches, and was most of a scan. The connection, its transaction and its errors stay SQLAlchemy's.
"""

from __future__ import annotations

import sqlite3
from contextlib import contextmanager
from functools import cached_property
from operator import itemgetter
from typing import TYPE_CHECKING, Any

from sqlalchemy.dialects import sqlite
from sqlalchemy.exc import DBAPIError

if TYPE_CHECKING:
    from collections.abc import Callable, Collection, Iterator, Mapping, Sequence

    from sqlalchemy import CompoundSelect, Connection, Insert, Select

    Asking = Select[*tuple[Any, ...]] | CompoundSelect[*tuple[Any, ...]]


class Quick:
    """A statement with named values; `columns` are those that an INSERT gives."""

    def __init__(self, statement: Asking | Insert, columns: Collection[str] = ()) -> None:
        self.statement = statement
        self._columns = list(columns) or None

    def rows(self, db: Connection, values: Mapping[str, object]) -> Sequence[Sequence[Any]]:
        """Ask, and return all rows."""
        if db.dialect.name != "sqlite":
            return db.execute(self.statement, values).all()
        return self._handed_over(db, values).fetchall()

    def add(self, db: Connection, values: Mapping[str, object]) -> None:
        """Add one row."""
        if db.dialect.name != "sqlite":
            db.execute(self.statement, values)
        else:
            self._handed_over(db, values)

    def _handed_over(self, db: Connection, values: Mapping[str, object]) -> sqlite3.Cursor:
        said, fixed, in_order = self._on_sqlite
        return hand_over(db, said, in_order({**fixed, **values}))

    @cached_property
    def _on_sqlite(self) -> tuple[str, Mapping[str, object], Callable[[Any], tuple[Any, ...]]]:
        """The statement's text, the values that stand in it, and how all are put in order."""
        made = self.statement.compile(dialect=sqlite.dialect(), column_keys=self._columns)
        fixed = {name: value for name, value in made.params.items() if value is not None}
        return str(made), fixed, itemgetter(*(made.positiontup or ()))


def hand_over(db: Connection, said: str, values: tuple[Any, ...] = ()) -> sqlite3.Cursor:
    """Hand a statement to SQLite's driver."""
    try:
        return _driver(db).execute(said, values)
    except sqlite3.Error as error:
        raise DBAPIError.instance(said, None, error, sqlite3.Error) from error


def _driver(db: Connection) -> sqlite3.Connection:
    return db.connection.dbapi_connection  # type: ignore[return-value]


@contextmanager
def all_or_nothing(db: Connection) -> Iterator[None]:
    """Take back what a block did where it fails, while the transaction around it goes on."""
    if db.dialect.name != "sqlite":
        with db.begin_nested():
            yield
        return
    hand_over(db, "SAVEPOINT block")
    try:
        yield
    except BaseException:
        if _driver(db).in_transaction:  # a full disk has taken back the whole of it already
            hand_over(db, "ROLLBACK TO block")
            hand_over(db, "RELEASE block")
        raise
    hand_over(db, "RELEASE block")
