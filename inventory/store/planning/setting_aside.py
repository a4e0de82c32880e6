"""Pieces kept for a step by a person: the newest word on each item and step counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.planning.kept_pieces import Kept
from inventory.core.planning.workshop import SetAside
from inventory.store.ledger.by_slip import add_row, item_of, rows_that_count
from inventory.store.ledger.names import item_ids
from inventory.store.tables.preparing import set_aside as aside_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from inventory.core.items import Item


def save_set_aside(db: Connection, kit: int, slip: int, kept: SetAside) -> None:
    """Record how many pieces of an item are kept for a step from now on; 0 lets them go."""
    add_row(
        db,
        aside_table,
        kit,
        slip,
        step=kept.step,
        item=item_ids(db, kit, [kept.item])[kept.item],
        quantity=kept.quantity,
    )


def all_set_aside(db: Connection, kit: int) -> list[Kept]:
    """Return the newest word on each item and step, in the order in which it was first said."""
    newest: dict[tuple[str, Item], Kept] = {}
    for row in rows_that_count(db, aside_table, kit):
        kept = SetAside(row["step"], item_of(row), row["quantity"])
        newest[kept.step, kept.item] = Kept(row["slip"], kept)
    return [each for each in newest.values() if each.set_aside.quantity]
