"""Many rows at once: each value lands in its own column, whatever the order and the number."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import create_engine, select

from inventory.store.ledger.many_rows import insert_rows
from inventory.store.tables.kits import part as part_table

if TYPE_CHECKING:
    from collections.abc import Iterator

    from sqlalchemy import Connection

NAMES = ("measure", "key", "id", "printed", "kit", "description")
"""Not in the order of the table's own columns."""


@pytest.fixture
def db() -> Iterator[Connection]:
    engine = create_engine("sqlite://")
    with engine.begin() as connection:
        part_table.create(connection)
        yield connection
    engine.dispose()


def rows_of(count: int) -> list[tuple[str | int, ...]]:
    return [("pieces", f"T2-{n}", n, f"t2 – '{n}'", 7, 'RIB "é"') for n in range(1, count + 1)]


@pytest.mark.parametrize("count", [0, 1, 2_000, 2_001])
def test_every_row_is_stored_once(db: Connection, count: int) -> None:
    insert_rows(db, part_table, NAMES, rows_of(count))
    c = part_table.c
    found = db.execute(select(*(c[name] for name in NAMES)).order_by(c.id)).all()
    assert [tuple(row) for row in found] == rows_of(count)


def test_a_driver_that_goes_by_names_gets_names(
    db: Connection, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(db.dialect, "paramstyle", "named")
    monkeypatch.setattr(db.dialect, "positional", False)
    insert_rows(db, part_table, NAMES, rows_of(3))
    assert db.execute(select(part_table.c.key)).scalars().all() == ["T2-1", "T2-2", "T2-3"]


def test_a_column_left_out_has_its_default(db: Connection) -> None:
    insert_rows(db, part_table, NAMES[:-1], (row[:-1] for row in rows_of(1)))
    assert db.execute(select(part_table.c.description)).scalar_one() == ""
