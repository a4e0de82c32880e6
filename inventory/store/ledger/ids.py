"""Numbers of new rows: one after the largest that the kit has."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, select

if TYPE_CHECKING:
    from sqlalchemy import Connection, Table

    from inventory.store.tables.base import OfKit


def next_id(db: Connection, table: Table[OfKit], kit: int) -> int:
    """Return the number for a kit's next row; the caller holds the kit's write lock."""
    newest = db.execute(select(func.max(table.c.id)).where(table.c.kit == kit)).scalar()
    return (newest or 0) + 1
