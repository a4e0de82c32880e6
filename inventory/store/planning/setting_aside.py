"""Pieces kept for a step by a person: the newest word on each item and step counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand, Item, State
from inventory.core.planning.kept_pieces import Kept
from inventory.core.planning.workshop import SetAside
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import item_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.preparing import set_aside as aside_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


def save_set_aside(db: Connection, kit: int, slip: int, kept: SetAside) -> None:
    """Record how many pieces of an item are kept for a step from now on; 0 lets them go."""
    db.execute(
        insert(aside_table).values(
            kit=kit,
            id=next_id(db, aside_table, kit),
            slip=slip,
            step=kept.step,
            item=item_ids(db, kit, [kept.item])[kept.item],
            quantity=kept.quantity,
        )
    )


def all_set_aside(db: Connection, kit: int) -> list[Kept]:
    """Return the newest word on each item and step, in the order in which it was first said."""
    c, i, p = aside_table.c, item_table.c, part_table.c
    rows = db.execute(
        select(c.slip, c.step, c.quantity, p.key, i.hand, i.lot, i.length, i.state)
        .join(item_table, (i.kit == c.kit) & (i.id == c.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(c.kit == kit)
        .order_by(c.id)
    ).all()
    undone = undone_slips(db, kit) if rows else frozenset()
    newest: dict[tuple[str, Item], Kept] = {}
    for slip, step, quantity, key, hand, lot, length, state in rows:
        if slip not in undone:
            item = Item(key, Hand(hand), lot, length, State(state))
            newest[step, item] = Kept(slip, SetAside(step, item, quantity))
    return [kept for kept in newest.values() if kept.set_aside.quantity]
