"""Rows put into an empty store: from the lines of an export, or from another open store."""

from __future__ import annotations

from dataclasses import dataclass, field
from itertools import islice
from typing import TYPE_CHECKING

from sqlalchemy import insert
from sqlalchemy.exc import DBAPIError, OperationalError

from inventory.core.errors import InventoryError
from inventory.core.record.export_form import read_foot, read_line, read_value, unfit
from inventory.store.opening.database import schema_of
from inventory.store.record.state import kept_tables, rows_of, state_of, value_kind

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from sqlalchemy import Connection, Table

    from inventory.core.record.export_form import Foot, Value

_AT_ONCE = 1000


@dataclass(slots=True)
class _Rows:
    """Rows of one table that wait to be stored."""

    db: Connection
    table: Table
    first: int
    """Line of the export on which the first of them stands."""
    waiting: list[dict[str, Value]] = field(default_factory=list)

    def add(self, line: Mapping[str, object], number: int) -> None:
        """Take a row's line in; refuse what its columns can't hold."""
        columns = self.table.c
        if line.keys() - {"table"} != set(columns.keys()):
            raise unfit(number, f"the columns of {self.table.name} aren't those of this schema")
        row: dict[str, Value] = {}
        for name in columns.keys():  # noqa: SIM118 - a collection of columns, not a dict
            value = line[name]
            if value is None and columns[name].nullable:
                row[name] = None
            else:
                row[name] = read_value(value, value_kind(self.table, name), number, name)
        self.waiting.append(row)

    def store(self) -> None:
        """Store what waits; the database's own rules hold for it as for every act."""
        try:
            with self.db.begin_nested():
                self.db.execute(insert(self.table), self.waiting)
        except OperationalError:
            raise
        except DBAPIError as error:
            raise self._misfit(error) from error

    def _misfit(self, error: DBAPIError) -> InventoryError:
        """Return the refusal of the first row that the database's rules refuse."""
        for number, row in enumerate(self.waiting, self.first):
            try:
                with self.db.begin_nested():
                    self.db.execute(insert(self.table), row)
            except DBAPIError as alone:
                return unfit(number, f"the row of {self.table.name} {_why(alone)}")
        return unfit(self.first, f"from here on, rows of {self.table.name} {_why(error)}")


_WHY = {
    "foreign key": "belongs to a row that isn't in the export before it",
    "unique": "stands there twice, or another one bears its name",
    "check": "holds a value that can't be",
    "append only": "stands there twice",
}
"""By a word of the database's own refusal, what is wrong with a row."""


def _why(error: DBAPIError) -> str:
    said = str(error.orig).splitlines()[0]
    found = [words for name, words in _WHY.items() if name in said.casefold()]
    return found[0] if found else f"doesn't fit ({said})"


def fill_from_lines(db: Connection, lines: Iterable[str]) -> Foot:
    """Store all rows of an export's lines after its head; refuse them where the foot differs."""
    tables = {table.name: table for table in kept_tables(schema_of(db))}
    rows: _Rows | None = None
    number = 1
    for number, text in enumerate(lines, 2):
        line = read_line(text, number)
        name = line.get("table")
        if name is None:
            if rows is not None:
                rows.store()
            return _checked_foot(db, line, number)
        if not isinstance(name, str) or name not in tables:
            raise unfit(number, f"there is no table {str(name)[:40]!r} in this schema")
        if rows is None or rows.table.name != name or len(rows.waiting) == _AT_ONCE:
            if rows is not None:
                rows.store()
            rows = _Rows(db, tables[name], number)
        rows.add(line, number)
    raise unfit(number, "the export has no end: the file is cut off")


def _checked_foot(db: Connection, line: Mapping[str, object], number: int) -> Foot:
    foot = read_foot(line, number)
    if foot.lost:
        raise InventoryError(
            "this export was saved from a damaged store and isn't whole",
            where=foot.lost[:200],
            remedy="Restore a backup instead; use the export to read what is lost since.",
        )
    if state_of(db) != foot:
        raise unfit(number, "the rows aren't those that were exported: the file was changed")
    return foot


def fill_from_store(db: Connection, source: Connection) -> None:
    """Copy all rows of the record from another store of the same schema."""
    for table in kept_tables(schema_of(source)):
        rows = rows_of(source, table)
        while batch := list(islice(rows, _AT_ONCE)):
            db.execute(insert(table), batch)
