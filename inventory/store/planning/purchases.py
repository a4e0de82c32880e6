"""What was ordered apart from the kit, what was answered, and what came of it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.days import day_of, day_text
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.planning.offers import price_of
from inventory.store.tables.buying import purchase as purchase_table
from inventory.store.tables.buying import purchase_event as event_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping

    from inventory.core.measures.money import Price


@frozen(kw_only=True)
class PurchaseEvent:
    """A purchase was answered, came in part or whole, or won't come."""

    event: str
    """answered, came or cancelled."""
    on: date
    pieces: int = 0
    promised: date | None = None
    latest: date | None = None
    words: str = ""


@frozen(kw_only=True)
class Purchase:
    """Pieces that were ordered from a supplier, as they stand in the record."""

    id: int = 0
    part: str
    hand: Hand = Hand.NONE
    length: int = 0
    pieces: int
    """In the part's measure."""
    supplier: str = ""
    reference: str = ""
    price: Price | None = None
    promised: date | None = None
    latest: date | None = None
    ordered_on: date = date.min
    events: tuple[PurchaseEvent, ...] = ()

    @property
    def pieces_open(self) -> int:
        """What is still to come."""
        if any(each.event == "cancelled" for each in self.events):
            return 0
        return max(0, self.pieces - sum(each.pieces for each in self.events))


def add_purchase(db: Connection, kit: int, slip: int, purchase: Purchase) -> int:
    """Record an order; return its number."""
    price = purchase.price
    return add_row(
        db,
        purchase_table,
        kit,
        slip,
        part=part_ids(db, kit, [PartName(purchase.part, purchase.part)])[purchase.part],
        hand=purchase.hand.value,
        length=purchase.length,
        pieces=purchase.pieces,
        supplier=purchase.supplier,
        reference=purchase.reference,
        price=price.amount if price else None,
        currency=price.currency if price else "",
        promised=day_text(purchase.promised),
        latest=day_text(purchase.latest),
    )


def add_purchase_event(
    db: Connection, kit: int, slip: int, purchase: int, event: PurchaseEvent
) -> None:
    """Record what became of an order."""
    add_row(
        db,
        event_table,
        kit,
        slip,
        purchase=purchase,
        event=event.event,
        pieces=event.pieces,
        promised=day_text(event.promised),
        latest=day_text(event.latest),
        words=event.words,
    )


def all_purchases(db: Connection, kit: int) -> list[Purchase]:
    """Return the orders that aren't undone, oldest first, each with the dates that hold now."""
    rows = rows_that_count(db, purchase_table, kit)
    events = rows_that_count(db, event_table, kit) if rows else []
    return [
        _as_answered(
            _purchase(row), [_event(each) for each in events if each["purchase"] == row["id"]]
        )
        for row in rows
    ]


def _purchase(row: RowMapping) -> Purchase:
    return Purchase(
        id=row["id"],
        part=row["part_key"],
        hand=Hand(row["hand"]),
        length=row["length"],
        pieces=row["pieces"],
        supplier=row["supplier"],
        reference=row["reference"],
        price=price_of(row),
        promised=day_of(row["promised"]),
        latest=day_of(row["latest"]),
        ordered_on=date.fromisoformat(row["acted_on"]),
    )


def _as_answered(purchase: Purchase, events: list[PurchaseEvent]) -> Purchase:
    """Return the order with its events; the newest answer's dates hold, none takes them back."""
    answers = [each for each in events if each.event == "answered"]
    if answers:
        newest = answers[-1]
        purchase = replace(purchase, promised=newest.promised, latest=newest.latest)
    return replace(purchase, events=tuple(events))


def _event(row: RowMapping) -> PurchaseEvent:
    return PurchaseEvent(
        event=row["event"],
        on=date.fromisoformat(row["acted_on"]),
        pieces=row["pieces"],
        promised=day_of(row["promised"]),
        latest=day_of(row["latest"]),
        words=row["words"],
    )
