"""The numbered changes make what the typed tables describe, and the guards around it."""

from __future__ import annotations

from contextlib import closing
from typing import TYPE_CHECKING

import pytest
from sqlalchemy import inspect, text

from inventory.store.opening.database import SCHEMA, create_store, open_store, schema_of
from inventory.store.opening.engine import make_engine
from inventory.store.settings import set_setting, setting
from inventory.store.tables.whole import metadata
from tests.kits_apart import OF_KITS

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

    from sqlalchemy import Connection

    from inventory.store.opening.database import Store
    from tests.postgres import Server

COLUMNS = """
SELECT table_name, concat_ws(' ', column_name, data_type, is_nullable, column_default)
FROM information_schema.columns WHERE table_schema = 'public'
"""
CONSTRAINTS = """
SELECT conrelid::regclass::text, concat_ws(' ', conname, pg_get_constraintdef(oid))
FROM pg_constraint WHERE connamespace = 'public'::regnamespace
"""
INDEXES = "SELECT tablename, indexdef FROM pg_indexes WHERE schemaname = 'public'"
FREE = {"balance", "setting"}
"""Sums that the ledger keeps, and choices: no record of what happened."""


def described_by_sqlite(db: Connection) -> dict[str, list[str]]:
    """Return each table and index with its lines, in an order of their own."""
    rows = db.execute(
        text("SELECT name, sql FROM sqlite_master WHERE type IN ('table', 'index') AND sql <> ''")
    )
    own = ("alembic_version", "sqlite_stat1")  # kept by the library, and by SQLite
    return {name: pieces(statement) for name, statement in rows if name not in own}


def pieces(statement: str) -> list[str]:
    """Return what stands between the commas of a CREATE statement, brackets kept whole."""
    plain = " ".join(statement.replace('"', "").replace("(", " ( ").replace(")", " ) ").split())
    head, _, rest = plain.partition(" ( ")
    body, _, tail = rest.rpartition(" )")
    found, depth = [""], 0
    for word in body.split(" "):
        depth += (word == "(") - (word == ")")
        if word.endswith(",") and not depth:
            found[-1] += word[:-1]
            found.append("")
        else:
            found[-1] += f"{word} "
    return [head, tail, *sorted(each.strip() for each in found)]


def described_by_postgresql(db: Connection) -> dict[str, list[str]]:
    """Return each table with its columns, constraints and indexes, as the server prints them."""
    described: dict[str, list[str]] = {}
    for question in (COLUMNS, CONSTRAINTS, INDEXES):
        for table, words in db.execute(text(question)):
            described.setdefault(table.strip('"'), []).append(words)
    described.pop("alembic_version", None)
    return {table: sorted(each) for table, each in described.items()}


def test_sqlite_migrates_to_what_the_tables_describe(sqlite_store: Store, tmp_path: Path) -> None:
    (tmp_path / "made.kitwright").touch()
    made = make_engine(str(tmp_path / "made.kitwright"))
    metadata.create_all(made)
    with sqlite_store.reading() as migrated, made.connect() as described:
        assert described_by_sqlite(migrated) == described_by_sqlite(described)
    made.dispose()


def test_postgresql_migrates_to_what_the_tables_describe(
    postgresql: Server, postgresql_address: str
) -> None:
    empty = postgresql.empty()
    made, migrated = make_engine(empty), make_engine(postgresql_address)
    metadata.create_all(made)
    with migrated.connect() as one, made.connect() as other:
        assert described_by_postgresql(one) == described_by_postgresql(other)
    made.dispose()
    migrated.dispose()
    postgresql.drop(empty)


def test_every_table_is_strict_and_lies_in_the_order_of_its_key(sqlite_store: Store) -> None:
    with sqlite_store.reading() as db:
        rows = db.exec_driver_sql("PRAGMA table_list").all()
    loose = {row[1] for row in rows if not (row[4] and row[5])}
    assert {name for name in loose if not name.startswith("sqlite_")} == {"alembic_version"}


def test_a_kit_stands_first_in_every_key_and_no_key_crosses_kits(store: Store) -> None:
    with store.reading() as db:
        seen = inspect(db)
        keys: dict[str, list[Sequence[str | None]]] = {
            table: [
                seen.get_pk_constraint(table)["constrained_columns"],
                *(unique["column_names"] for unique in seen.get_unique_constraints(table)),
                *(key["constrained_columns"] for key in seen.get_foreign_keys(table)),
                *(key["referred_columns"] for key in seen.get_foreign_keys(table)),
                *(index["column_names"] for index in seen.get_indexes(table)),
            ]
            for table in OF_KITS
        }
    firsts = {str(key[:1]) for each in keys.values() for key in each}
    assert firsts == {"['kit']"}


def guards(db: Connection) -> dict[str, set[str]]:
    """Return the names of each table's triggers, without the table's name at their head."""
    question = (
        "SELECT tbl_name, name FROM sqlite_master WHERE type = 'trigger'"
        if db.dialect.name == "sqlite"
        else "SELECT tgrelid::regclass::text, tgname FROM pg_trigger "
        "WHERE NOT tgisinternal AND tgenabled = 'O'"
    )
    found: dict[str, set[str]] = {}
    for quoted, name in db.execute(text(question)):
        table = quoted.strip('"')
        found.setdefault(table, set()).add(name.removeprefix(f"{table}_"))
    return found


def test_every_record_is_guarded_against_change_and_loss(store: Store) -> None:
    with store.reading() as db:
        there = guards(db)
        last = "no_replace_1" if db.dialect.name == "sqlite" else "no_truncate"
    guarded = {table for table, names in there.items() if {"no_update", "no_delete", last} <= names}
    assert guarded == set(metadata.tables) - FREE


def test_sqlite_guards_every_key_against_replace(sqlite_store: Store) -> None:
    with sqlite_store.reading() as db:
        there = guards(db)
        seen = inspect(db)
        keys = {table: 1 + len(seen.get_unique_constraints(table)) for table in there}
    guarded = {
        table: sum(name.startswith("no_replace_") for name in names)
        for table, names in there.items()
    }
    assert guarded == keys


@pytest.mark.parametrize("schema", range(1, SCHEMA))
def test_a_store_of_any_older_schema_is_brought_up_whole(
    tmp_path: Path, migrated_file: Path, schema: int
) -> None:
    address = str(tmp_path / "older.kitwright")
    create_store(address, lambda db: set_setting(db, "a", "b"), schema).close()
    seen: list[int] = []
    store = open_store(address, lambda _, old: seen.append(old))
    with closing(store), store.reading() as db:
        assert (schema_of(db), setting(db, "a")) == (SCHEMA, "b")
        brought_up = described_by_sqlite(db)
    with closing(open_store(str(migrated_file))) as new, new.reading() as db:
        assert described_by_sqlite(db) == brought_up
    open_store(address, lambda _, old: seen.append(old)).close()
    assert seen == [schema]
