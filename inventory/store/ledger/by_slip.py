"""Rows that acts recorded: added under the act's slip, read back where no later act undoes it."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, insert, select

from inventory.core.items import Hand, Item, State
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from typing import Any

    from sqlalchemy import Column, Connection, RowMapping, Select, Table

    from inventory.store.tables.base import BySlip

_PARTS = ("part", "instead")
"""Columns that hold the number of a part."""


def add_row(db: Connection, table: Table[BySlip], kit: int, slip: int, **values: object) -> int:
    """Add a row to what an act records; return its number in the kit."""
    number = next_id(db, table, kit)
    db.execute(insert(table).values(kit=kit, id=number, slip=slip, **values))
    return number


def rows_that_count(db: Connection, table: Table[BySlip], kit: int) -> list[RowMapping]:
    """Return all rows whose acts aren't undone, oldest first.

    Beside the table's own columns stand `acted_by` and `acted_on` of the act, `part_key` (and
    `instead_key`) where a row names a part, and what `item_of` reads where it names an item.
    """
    rows = db.execute(_question(table), {"kit": kit}).mappings().all()
    undone = undone_slips(db, kit) if rows else frozenset()
    return [row for row in rows if row["slip"] not in undone]


def item_of(row: RowMapping) -> Item:
    """Return the item that a row names."""
    return Item(
        row["item_key"],
        Hand(row["item_hand"]),
        row["item_lot"],
        row["item_length"],
        State(row["item_state"]),
    )


@cache
def _question(table: Table[BySlip]) -> Select[*tuple[Any, ...]]:
    c, s = table.c, slip_table.c
    asked: Select[*tuple[Any, ...]] = select(
        table, s.person.label("acted_by"), s.happened_on.label("acted_on")
    ).join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
    for name in _PARTS:
        if name in table.columns:
            number, named = table.columns[name], part_table.alias(f"of_{name}")
            asked = asked.add_columns(named.c.key.label(f"{name}_key")).join(
                named,
                (named.c.kit == c.kit) & (named.c.id == number),
                isouter=bool(number.nullable),
            )
    if "item" in table.columns:
        asked = _with_item(asked, table)
    return asked.where(c.kit == bindparam("kit")).order_by(c.id)


def _with_item(asked: Select[*tuple[Any, ...]], table: Table[BySlip]) -> Select[*tuple[Any, ...]]:
    i, p = item_table.c, part_table.c
    named: list[Column[Any]] = [p.key, i.hand, i.lot, i.length, i.state]
    return (
        asked.add_columns(*(column.label(f"item_{column.name}") for column in named))
        .join(item_table, (i.kit == table.c.kit) & (i.id == table.columns["item"]))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
    )
