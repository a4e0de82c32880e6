"""Kits: one airframe or project each, many in a store."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, insert, select

from inventory.core.frozen import frozen
from inventory.store.tables import kits

if TYPE_CHECKING:
    from sqlalchemy import Connection


@frozen
class Kit:
    """One airframe or project."""

    id: int
    code: str
    """Two characters, printed at the head of every label of ours."""
    name: str
    created_at: str


def add_kit(db: Connection, code: str, name: str, created_at: str) -> Kit:
    """Begin a kit."""
    number = (db.execute(select(func.max(kits.kit.c.id))).scalar() or 0) + 1
    kit = Kit(number, code, name, created_at)
    db.execute(insert(kits.kit).values(id=kit.id, code=code, name=name, created_at=created_at))
    return kit


def all_kits(db: Connection) -> list[Kit]:
    """Return the kits in the order they were begun."""
    c = kits.kit.c
    rows = db.execute(select(c.id, c.code, c.name, c.created_at).order_by(c.id))
    return [Kit(*row) for row in rows]
