"""All rows of a store as lines of an export, in one order on both databases; and their hash.

Left out: balances, which the ledger makes anew, and paired devices, which belong to one computer
and not to the record.
"""

from __future__ import annotations

from collections import Counter
from functools import cache
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from sqlalchemy import Integer, LargeBinary, MetaData, Text, collate, create_engine, func, select

from inventory.core.record.export_form import Foot, row_line
from inventory.store.opening.database import SCHEMA, schema_of
from inventory.store.opening.migrate import upgrade
from inventory.store.tables.whole import metadata

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from sqlalchemy import ColumnElement, Connection, Table

    from inventory.core.record.export_form import Value

LEFT_OUT = frozenset({"alembic_version", "balance", "device", "invitation"})
_AT_ONCE = 1000
"""Rows held in memory while reading."""


def kept_tables(schema: int) -> list[Table]:
    """Return the tables of a schema, each after those it refers to."""
    described = metadata if schema == SCHEMA else _of_older_schema(schema)
    return [table for table in described.sorted_tables if table.name not in LEFT_OUT]


@cache
def _of_older_schema(schema: int) -> MetaData:
    engine = create_engine("sqlite://")
    older = MetaData()
    with engine.begin() as db:
        upgrade(db, schema)
        older.reflect(db)
    engine.dispose()
    return older


def value_kind(table: Table, column: str) -> type[int | str | bytes]:
    """Return what a column holds."""
    kinds = {Integer: int, LargeBinary: bytes, Text: str}
    for kind, python in kinds.items():
        if isinstance(table.c[column].type, kind):
            return python
    raise TypeError(f"{table.name}.{column} has a type no store of ours has")


def in_key_order(db: Connection, table: Table) -> list[ColumnElement[Any]]:
    """Return the key's columns to sort by: texts by their code points on both databases."""
    bytewise = db.dialect.name == "postgresql"
    return [
        collate(column, "C") if bytewise and isinstance(column.type, Text) else column
        for column in table.primary_key
    ]


def rows_of(db: Connection, table: Table) -> Iterator[dict[str, Value]]:
    """Return a table's rows in the order of its key."""
    question = select(table).order_by(*in_key_order(db, table))
    with db.execute(question, execution_options={"yield_per": _AT_ONCE}) as found:
        for row in found.mappings():
            yield {
                name: bytes(value) if isinstance(value, memoryview) else value
                for name, value in row.items()
            }


def record_lines(db: Connection) -> Iterator[tuple[str, str]]:
    """Return every row of the record as a line of the export, with its table's name."""
    for table in kept_tables(schema_of(db)):
        for row in rows_of(db, table):
            yield table.name, row_line(table.name, row)


def foot_of(lines: Iterable[tuple[str, str]]) -> Foot:
    """Return what stands in the foot of an export of these lines."""
    rows: Counter[str] = Counter()
    digest = sha256()
    for table, line in lines:
        rows[table] += 1
        digest.update(f"{line}\n".encode())
    return Foot(dict(rows), digest.hexdigest())


def state_of(db: Connection) -> Foot:
    """Return how many rows each table has, and the hash over all of them."""
    return foot_of(record_lines(db))


def row_counts(db: Connection) -> dict[str, int]:
    """Return how many rows each table has that has any."""
    counts = {
        table.name: db.execute(select(func.count()).select_from(table)).scalar_one()
        for table in kept_tables(schema_of(db))
    }
    return {name: count for name, count in counts.items() if count}
