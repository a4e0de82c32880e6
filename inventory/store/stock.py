"""What lies where: read from the balances that the ledger keeps."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import select

from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.ledger import balance as balance_table

if TYPE_CHECKING:
    from collections.abc import Collection

    from sqlalchemy import ColumnElement, Connection


@dataclass(frozen=True, slots=True, order=True)
class Lying:
    """A quantity of one item in one place."""

    place: Place
    item: Item
    quantity: int


def lying(
    db: Connection,
    kit: int,
    *,
    kinds: Collection[PlaceKind] = (),
    place: Place | None = None,
    part: str = "",
) -> list[Lying]:
    """Return what lies in the places asked for, by place and part; no zeros."""
    b, i, p, w = balance_table.c, item_table.c, part_table.c, place_table.c
    where: list[ColumnElement[bool]] = [b.kit == kit, b.quantity != 0]
    if kinds:
        where.append(w.kind.in_([kind.value for kind in kinds]))
    if place is not None:
        where += [w.kind == place.kind.value, w.code == place.code]
    if part:
        where.append(p.key == part)
    rows = db.execute(
        select(w.kind, w.code, p.key, i.hand, i.lot, i.length, i.state, b.quantity)
        .select_from(balance_table)
        .join(place_table, (w.kit == b.kit) & (w.id == b.place))
        .join(item_table, (i.kit == b.kit) & (i.id == b.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(*where)
    )
    return sorted(
        Lying(
            Place(PlaceKind(kind), code), Item(key, Hand(hand), lot, length, State(state)), quantity
        )
        for kind, code, key, hand, lot, length, state, quantity in rows
    )
