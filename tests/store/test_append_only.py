"""History is never changed: not by UPDATE, DELETE, REPLACE, upsert or TRUNCATE."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import text

from inventory.core.errors import AlreadyDoneError, StoreError
from inventory.jobs.acts import Bench
from inventory.jobs.kits import begin_kit
from inventory.store.opening.database import open_store
from inventory.store.tables.whole import metadata
from tests.conftest import NOW
from tests.store.filled import fill
from tests.store.test_migrations import FREE

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from inventory.store.opening.database import Store
    from tests.postgres import Server

RECORDS = sorted(set(metadata.tables) - FREE)
KEPT_NAMES = {
    "kit": "code",
    "part": "key",
    "place": "kind",
    "device": "secret",
    "invitation": "token",
}
"""Tables that may change otherwise, each with a column that may not."""


@pytest.fixture(scope="module")
def filled_sqlite(migrated_file: Path, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Store]:
    """Fill one store for all these tests: none of them may change it."""
    folder = tmp_path_factory.mktemp("filled")
    with closing(open_store(str(shutil.copy(migrated_file, folder / "store")))) as store:
        fill(Bench(store, begin_kit(store, "Tarn T2", "T2", NOW)))
        yield store


@pytest.fixture(scope="module")
def filled_postgresql(postgresql: Server) -> Iterator[Store]:
    address = postgresql.migrated()
    with closing(open_store(address)) as store:
        fill(Bench(store, begin_kit(store, "Tarn T2", "T2", NOW)))
        yield store
    postgresql.drop(address)


@pytest.fixture(params=["sqlite", "postgresql"])
def filled(request: pytest.FixtureRequest) -> Store:
    store: Store = request.getfixturevalue(f"filled_{request.param}")
    return store


def refused(store: Store, table: str, statement: str) -> None:
    """Check that the statement is refused as a change of the record, and that nothing changed."""
    everything = text(f'SELECT * FROM "{table}"')
    with store.reading() as db:
        before = set(db.execute(everything))
    with pytest.raises(StoreError, match="never changed"), store.writing() as db:
        db.execute(text(statement))
    with store.reading() as db:
        assert set(db.execute(everything)) == before


@pytest.mark.parametrize("table", RECORDS)
def test_no_row_of_the_record_is_changed_or_lost(filled: Store, table: str) -> None:
    column = KEPT_NAMES.get(table, [*metadata.tables[table].c.keys()][-1])
    with filled.reading() as db:
        assert db.execute(text(f'SELECT count(*) FROM "{table}"')).scalar_one() > 0
    refused(filled, table, f'UPDATE "{table}" SET "{column}" = "{column}"')
    refused(filled, table, f'DELETE FROM "{table}"')


@pytest.mark.parametrize("table", RECORDS)
def test_sqlite_replaces_no_row_even_where_delete_triggers_sleep(
    filled_sqlite: Store, table: str
) -> None:
    with sqlite3.connect(filled_sqlite.address) as other:  # no recursive_triggers here
        before = other.execute(f'SELECT * FROM "{table}"').fetchall()
        for way in ("REPLACE INTO", "INSERT OR REPLACE INTO"):
            with pytest.raises(sqlite3.IntegrityError, match="append only"):
                other.execute(f'{way} "{table}" SELECT * FROM "{table}"')
        assert other.execute(f'SELECT * FROM "{table}"').fetchall() == before
    other.close()


@pytest.mark.parametrize(
    ("table", "columns"),
    [
        ("slip", "kit, id + 100, key, act, person, device, happened_on, recorded_at, note, asked"),
        ("place", "kit, id + 100, kind, code, 'elsewhere'"),
        ("tag", "kit, id + 100, code, subject, item, place"),
        ("part", "kit, id + 100, key, printed, description, measure, minimum"),
    ],
)
def test_sqlite_replaces_no_row_through_its_second_key(
    filled_sqlite: Store, table: str, columns: str
) -> None:
    nothing = ", NULL" if table == "slip" else ""
    with sqlite3.connect(filled_sqlite.address) as other:
        before = other.execute(f'SELECT * FROM "{table}"').fetchall()
        with pytest.raises(sqlite3.IntegrityError, match="append only"):
            other.execute(f'REPLACE INTO "{table}" SELECT {columns}{nothing} FROM "{table}"')
        assert other.execute(f'SELECT * FROM "{table}"').fetchall() == before
    other.close()


@pytest.mark.parametrize("table", RECORDS)
def test_no_upsert_changes_a_row(filled: Store, table: str) -> None:
    column = KEPT_NAMES.get(table, [*metadata.tables[table].c.keys()][-1])
    keys = ", ".join(f'"{each.name}"' for each in metadata.tables[table].primary_key)
    refused(
        filled,
        table,
        f'INSERT INTO "{table}" SELECT * FROM "{table}" WHERE true '
        f'ON CONFLICT ({keys}) DO UPDATE SET "{column}" = excluded."{column}"',
    )


@pytest.mark.parametrize("table", RECORDS)
def test_postgresql_truncates_no_record(filled_postgresql: Store, table: str) -> None:
    refused(filled_postgresql, table, f'TRUNCATE "{table}" CASCADE')


def test_the_shelf_of_a_bin_and_the_words_of_a_part_may_change(bench: Bench) -> None:
    fill(bench)
    with bench.store.writing(1) as db:
        db.execute(text("UPDATE place SET shelf = 'north wall'"))
        db.execute(text("UPDATE part SET description = 'rib', minimum = 4"))
        shelves = db.execute(text("SELECT DISTINCT shelf FROM place")).scalars().all()
    assert shelves == ["north wall"]


def test_an_act_is_undone_once(filled: Store) -> None:
    again = (
        "INSERT INTO slip (kit, id, key, act, happened_on, recorded_at, undoes) "
        "VALUES (1, 99, 'again', 'undo', '2026-11-25', '2026-11-25T10:00:00+00:00', 6)"
    )
    with pytest.raises(AlreadyDoneError, match="undone already"), filled.writing(1) as db:
        db.execute(text(again))


def test_without_its_triggers_a_record_could_be_changed(sqlite_bench: Bench) -> None:
    """The control: it is the triggers that refuse, and nothing else."""
    fill(sqlite_bench)
    with sqlite3.connect(sqlite_bench.store.address) as other:
        other.execute("DROP TRIGGER slip_no_update")
        other.execute("UPDATE slip SET note = 'changed'")
        assert other.execute("SELECT DISTINCT note FROM slip").fetchall() == [("changed",)]
    other.close()
