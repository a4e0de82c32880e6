"""Which pieces were deburred, primed or what else the builder's own list says."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand, Item, State
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import item_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table
from inventory.store.tables.preparing import preparation as preparation_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Preparation:
    """Pieces that were prepared on a day; fewer than none where they no longer are."""

    act: int = 0
    word: str
    item: Item
    pieces: int
    person: str = ""
    on: date = date.min


def add_preparation(db: Connection, kit: int, slip: int, done: Preparation) -> None:
    """Record pieces as prepared, or as no longer so."""
    db.execute(
        insert(preparation_table).values(
            kit=kit,
            id=next_id(db, preparation_table, kit),
            slip=slip,
            item=item_ids(db, kit, [done.item])[done.item],
            word=done.word,
            pieces=done.pieces,
        )
    )


def all_preparations(db: Connection, kit: int) -> list[Preparation]:
    """Return every preparation that isn't undone, oldest first."""
    c, i, p, s = preparation_table.c, item_table.c, part_table.c, slip_table.c
    rows = db.execute(
        select(
            c.slip, c.word, c.pieces, s.person, s.happened_on,
            p.key, i.hand, i.lot, i.length, i.state,
        )
        .join(item_table, (i.kit == c.kit) & (i.id == c.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    ).all()  # fmt: skip
    undone = undone_slips(db, kit) if rows else frozenset()
    return [
        Preparation(
            act=slip,
            word=word,
            item=Item(key, Hand(hand), lot, length, State(state)),
            pieces=pieces,
            person=person,
            on=date.fromisoformat(day),
        )
        for slip, word, pieces, person, day, key, hand, lot, length, state in rows
        if slip not in undone
    ]
