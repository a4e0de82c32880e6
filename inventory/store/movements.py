"""The ledger's rows: appended in a chain, never changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.chain import START, link
from inventory.store.names import item_ids, place_ids
from inventory.store.tables.ledger import movement as movement_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from inventory.core.ledger import Movement
    from inventory.store.slips import RecordedSlip


def append_movements(
    db: Connection, kit: int, recorded: RecordedSlip, movements: Sequence[Movement]
) -> None:
    """Append the movements of one act; the database refuses what would go below zero."""
    if not movements:
        return
    items = item_ids(db, kit, (movement.item for movement in movements))
    places = place_ids(db, kit, (place for m in movements for place in (m.origin, m.destination)))
    number, chain = last_link(db, kit)
    rows = []
    for movement in movements:
        number += 1
        chain = link(chain, number, recorded.act, recorded.slip, movement)
        rows.append(
            {
                "kit": kit,
                "id": number,
                "slip": recorded.id,
                "item": items[movement.item],
                "quantity": movement.quantity,
                "origin": places[movement.origin],
                "destination": places[movement.destination],
                "chain": chain,
            }
        )
    db.execute(insert(movement_table), rows)


def last_link(db: Connection, kit: int) -> tuple[int, bytes]:
    """Return the number and the seal of the kit's newest movement."""
    c = movement_table.c
    row = db.execute(
        select(c.id, c.chain).where(c.kit == kit).order_by(c.id.desc()).limit(1)
    ).one_or_none()
    return (0, START) if row is None else (row.id, bytes(row.chain))
