"""What was ordered apart from the kit, what was answered, and what came of it."""

from __future__ import annotations

from dataclasses import dataclass, replace
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.planning.offers import price_of
from inventory.store.tables.buying import purchase as purchase_table
from inventory.store.tables.buying import purchase_event as event_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping

    from inventory.core.measures.money import Price


@dataclass(frozen=True, slots=True, kw_only=True)
class PurchaseEvent:
    """A purchase was answered, came in part or whole, or won't come."""

    event: str
    """answered, came or cancelled."""
    on: date
    pieces: int = 0
    promised: date | None = None
    latest: date | None = None
    words: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
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
    number = next_id(db, purchase_table, kit)
    price = purchase.price
    db.execute(
        insert(purchase_table).values(
            kit=kit,
            id=number,
            slip=slip,
            part=part_ids(db, kit, [PartName(purchase.part, purchase.part)])[purchase.part],
            hand=purchase.hand.value,
            length=purchase.length,
            pieces=purchase.pieces,
            supplier=purchase.supplier,
            reference=purchase.reference,
            price=price.amount if price else None,
            currency=price.currency if price else "",
            promised=_text(purchase.promised),
            latest=_text(purchase.latest),
        )
    )
    return number


def add_purchase_event(
    db: Connection, kit: int, slip: int, purchase: int, event: PurchaseEvent
) -> None:
    """Record what became of an order."""
    db.execute(
        insert(event_table).values(
            kit=kit,
            id=next_id(db, event_table, kit),
            slip=slip,
            purchase=purchase,
            event=event.event,
            pieces=event.pieces,
            promised=_text(event.promised),
            latest=_text(event.latest),
            words=event.words,
        )
    )


def all_purchases(db: Connection, kit: int) -> list[Purchase]:
    """Return the orders that aren't undone, oldest first, each with the dates that hold now."""
    c, p, s = purchase_table.c, part_table.c, slip_table.c
    rows = (
        db.execute(
            select(purchase_table, p.key.label("part_key"), s.happened_on)
            .join(part_table, (p.kit == c.kit) & (p.id == c.part))
            .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
            .where(c.kit == kit)
            .order_by(c.id)
        )
        .mappings()
        .all()
    )
    undone = undone_slips(db, kit) if rows else frozenset()
    events = _events(db, kit, undone) if rows else []
    return [
        _as_answered(_purchase(row), [each for of, each in events if of == row["id"]])
        for row in rows
        if row["slip"] not in undone
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
        promised=_day(row["promised"]),
        latest=_day(row["latest"]),
        ordered_on=date.fromisoformat(row["happened_on"]),
    )


def _as_answered(purchase: Purchase, events: list[PurchaseEvent]) -> Purchase:
    """Return the order with its events; the newest answer's dates hold, none takes them back."""
    answers = [each for each in events if each.event == "answered"]
    if answers:
        newest = answers[-1]
        purchase = replace(purchase, promised=newest.promised, latest=newest.latest)
    return replace(purchase, events=tuple(events))


def _events(db: Connection, kit: int, undone: frozenset[int]) -> list[tuple[int, PurchaseEvent]]:
    c, s = event_table.c, slip_table.c
    rows = db.execute(
        select(event_table, s.happened_on)
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    ).mappings()
    return [
        (
            row["purchase"],
            PurchaseEvent(
                event=row["event"],
                on=date.fromisoformat(row["happened_on"]),
                pieces=row["pieces"],
                promised=_day(row["promised"]),
                latest=_day(row["latest"]),
                words=row["words"],
            ),
        )
        for row in rows
        if row["slip"] not in undone
    ]


def _text(day: date | None) -> str:
    return day.isoformat() if day else ""


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None
