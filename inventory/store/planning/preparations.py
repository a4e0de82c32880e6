"""Which pieces were deburred, primed or what else the builder's own list says."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.by_slip import add_row, item_of, rows_that_count
from inventory.store.ledger.names import item_ids
from inventory.store.tables.preparing import preparation as preparation_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

    from inventory.core.items import Item


@frozen(kw_only=True)
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
    add_row(
        db,
        preparation_table,
        kit,
        slip,
        item=item_ids(db, kit, [done.item])[done.item],
        word=done.word,
        pieces=done.pieces,
    )


def all_preparations(db: Connection, kit: int) -> list[Preparation]:
    """Return every preparation that isn't undone, oldest first."""
    return [
        Preparation(
            act=row["slip"],
            word=row["word"],
            item=item_of(row),
            pieces=row["pieces"],
            person=row["acted_by"],
            on=date.fromisoformat(row["acted_on"]),
        )
        for row in rows_that_count(db, preparation_table, kit)
    ]
