"""What SQLite is told about the tables, so that it chooses the index that a kit's question needs.

Every key begins with the kit. Knowing nothing, SQLite takes that first column to be choosy and goes
through all rows of the kit where an index on part or act would find a few. ANALYZE of an empty
store finds nothing to say, so that round figures of a large kit are written in its place; they
only steer the choice between indexes ("The sqlite_stat1 table", SQLite's file format). Each later
change that adds an index runs this again. Frozen with the first release.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from alembic import op
from sqlalchemy import text

if TYPE_CHECKING:
    from sqlalchemy import Connection

ROWS = 100_000
FEW = 1000
"""Any other column divides the rows by so much."""
SAME_FOR_ALL = frozenset({"kit", "plan", "packing_list"})
"""Columns that hardly tell the rows of a kit apart."""


def tell_choices() -> None:
    """Write figures for every index that the store has by now; PostgreSQL counts by itself."""
    db = op.get_bind()
    if db.dialect.name != "sqlite":
        return
    db.execute(text("ANALYZE"))  # makes the table where there is none
    db.execute(text("DELETE FROM sqlite_stat1"))
    tables = db.execute(
        text("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite%'")
    ).scalars()
    for table in sorted(tables):
        for name, figures in _figures(db, table):
            db.execute(
                text("INSERT INTO sqlite_stat1 (tbl, idx, stat) VALUES (:table, :name, :figures)"),
                {"table": table, "name": name, "figures": figures},
            )


def _figures(db: Connection, table: str) -> list[tuple[str, str]]:
    found = []
    for _, name, unique, origin, _ in db.exec_driver_sql(f'PRAGMA index_list("{table}")'):
        columns = [row[2] for row in db.exec_driver_sql(f'PRAGMA index_info("{name}")')]
        rows = [ROWS]
        for column in columns:
            rows.append(rows[-1] if column in SAME_FOR_ALL else max(1, rows[-1] // FEW))
        if unique:
            rows[-1] = 1
        # The index of a table without rowids' primary key goes by the table's own name.
        found.append((table if origin == "pk" else name, " ".join(map(str, rows))))
    return sorted(found)
