"""Triggers that keep what was recorded: rows are added, never changed; frozen when released.

SQLite's REPLACE deletes without firing delete triggers unless `recursive_triggers` is on, so a
guard before each insert refuses every key that is there already. PostgreSQL's TRUNCATE fires no
row trigger, so it has one of its own.
"""

from __future__ import annotations

from alembic import op


def make_append_only(table: str, *keys: str) -> None:
    """Let rows of a table be added, and nothing else; `keys` name all its keys: `kit id`."""
    if op.get_bind().dialect.name == "sqlite":
        _refuse(f"{table}_no_update", f'BEFORE UPDATE ON "{table}"', table)
        _refuse_loss_on_sqlite(table, keys)
    else:
        _refuse_loss_on_postgresql(table)
        _refuse_row(f"{table}_no_update", f'BEFORE UPDATE ON "{table}"')


def keep_columns(table: str, columns: str, *keys: str) -> None:
    """Let a table's rows be added and their other columns be changed; no row ever goes."""
    kept = _quoted(columns)
    if op.get_bind().dialect.name == "sqlite":
        _refuse(f"{table}_no_update", f'BEFORE UPDATE OF {kept} ON "{table}"', table)
        _refuse_loss_on_sqlite(table, keys)
    else:
        _refuse_loss_on_postgresql(table)
        _refuse_row(f"{table}_no_update", f'BEFORE UPDATE OF {kept} ON "{table}"')


def _quoted(columns: str) -> str:
    return ", ".join(f'"{column}"' for column in columns.split())


def _refuse_loss_on_sqlite(table: str, keys: tuple[str, ...]) -> None:
    _refuse(f"{table}_no_delete", f'BEFORE DELETE ON "{table}"', table)
    for number, key in enumerate(keys, 1):
        same = " AND ".join(f'"{column}" = NEW."{column}"' for column in key.split())
        there = f'EXISTS (SELECT 1 FROM "{table}" WHERE {same})'
        event = f'BEFORE INSERT ON "{table}" WHEN {there}'
        _refuse(f"{table}_no_replace_{number}", event, f"{table} {key}")


def _refuse(name: str, event: str, what: str) -> None:
    op.execute(
        f"CREATE TRIGGER {name} {event} BEGIN SELECT RAISE(ABORT, 'append only: {what}'); END"
    )


def _refuse_loss_on_postgresql(table: str) -> None:
    op.execute(
        "CREATE OR REPLACE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$ "
        "BEGIN RAISE EXCEPTION 'append only: %', TG_TABLE_NAME; END $$"
    )
    _refuse_row(f"{table}_no_delete", f'BEFORE DELETE ON "{table}"')
    op.execute(
        f'CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON "{table}" '
        "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
    )


def _refuse_row(name: str, event: str) -> None:
    op.execute(f"CREATE TRIGGER {name} {event} FOR EACH ROW EXECUTE FUNCTION append_only()")
