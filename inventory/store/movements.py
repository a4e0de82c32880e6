"""The ledger's rows: appended in a chain, never changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import bindparam, insert, select

from inventory.core.chain import START, link
from inventory.store.names import item_ids, place_ids
from inventory.store.tables.ledger import movement as movement_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from inventory.core.ledger import Movement
    from inventory.store.slips import RecordedSlip


_APPEND = insert(movement_table)
_LAST = (
    select(movement_table.c.id, movement_table.c.chain)
    .where(movement_table.c.kit == bindparam("kit"))
    .order_by(movement_table.c.id.desc())
    .limit(1)
)


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
    db.execute(_APPEND, rows)


def last_link(db: Connection, kit: int) -> tuple[int, bytes]:
    """Return the number and the seal of the kit's newest movement."""
    row = db.execute(_LAST, {"kit": kit}).one_or_none()
    return (0, START) if row is None else (row.id, bytes(row.chain))
