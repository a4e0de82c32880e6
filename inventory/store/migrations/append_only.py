"""Triggers that keep a table append-only; frozen with the first release.

SQLite's REPLACE deletes without firing delete triggers unless `recursive_triggers` is on, so a
guard before each insert refuses a key that is there already. PostgreSQL's TRUNCATE fires no row
trigger, so it has one of its own.
"""

from __future__ import annotations

from alembic import op


def make_append_only(table: str, *key: str) -> None:
    """Let rows of a table be added, and nothing else; `key` is its primary key."""
    if op.get_bind().dialect.name == "sqlite":
        _on_sqlite(table, key)
    else:
        _on_postgresql(table)


def _on_sqlite(table: str, key: tuple[str, ...]) -> None:
    for event in ("UPDATE", "DELETE"):
        op.execute(
            f'CREATE TRIGGER {table}_no_{event.lower()} BEFORE {event} ON "{table}" '
            f"BEGIN SELECT RAISE(ABORT, 'append only: {table}'); END"
        )
    same = " AND ".join(f'"{column}" = NEW."{column}"' for column in key)
    op.execute(
        f'CREATE TRIGGER {table}_no_replace BEFORE INSERT ON "{table}" '
        f'WHEN EXISTS (SELECT 1 FROM "{table}" WHERE {same}) '
        f"BEGIN SELECT RAISE(ABORT, 'append only: {table}'); END"
    )


def _on_postgresql(table: str) -> None:
    op.execute(
        "CREATE OR REPLACE FUNCTION append_only() RETURNS trigger LANGUAGE plpgsql AS $$ "
        "BEGIN RAISE EXCEPTION 'append only: %', TG_TABLE_NAME; END $$"
    )
    op.execute(
        f'CREATE TRIGGER {table}_no_change BEFORE UPDATE OR DELETE ON "{table}" '
        "FOR EACH ROW EXECUTE FUNCTION append_only()"
    )
    op.execute(
        f'CREATE TRIGGER {table}_no_truncate BEFORE TRUNCATE ON "{table}" '
        "FOR EACH STATEMENT EXECUTE FUNCTION append_only()"
    )
