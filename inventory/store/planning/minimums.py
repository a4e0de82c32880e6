"""How many of a part are never to be fewer in the bins: the person's own choice."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select, update

from inventory.store.tables.kits import part as part_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


def minimums(db: Connection, kit: int) -> dict[str, int]:
    """Return how many of each part are never to be fewer in the bins; by part, no zeros."""
    c = part_table.c
    rows = db.execute(select(c.key, c.minimum).where(c.kit == kit, c.minimum > 0).order_by(c.key))
    return dict(rows.all())


def set_minimum(db: Connection, kit: int, part: str, minimum: int) -> None:
    """Keep how many of a part are never to be fewer in the bins; 0 for no minimum."""
    c = part_table.c
    db.execute(update(part_table).where(c.kit == kit, c.key == part).values(minimum=minimum))
