"""One spelling of a table for both databases; frozen with the first release."""

from __future__ import annotations

from alembic import op


def create(statement: str) -> None:
    """Run a CREATE statement: strict tables in key order on SQLite, 64-bit integers elsewhere."""
    if op.get_bind().dialect.name == "sqlite":
        strict = " WITHOUT ROWID, STRICT" if statement.lstrip().startswith("CREATE TABLE") else ""
        op.execute(statement.rstrip() + strict)
    else:
        op.execute(statement.replace("INTEGER", "BIGINT").replace("BLOB", "BYTEA"))
