"""What suppliers sell and ask for it; the newest word of each on each part counts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.measures.money import Price
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.tables.buying import offer as offer_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping


@frozen(kw_only=True)
class Offer:
    """A supplier sells a part, or a stock length of it."""

    part: str
    supplier: str
    length: int = 0
    """Nanometres of each stick; 0 where length says nothing."""
    price: Price | None = None
    """Of one piece or stick."""
    days: int = 0
    """From order to arrival; 0 where nobody said."""


def save_offer(db: Connection, kit: int, slip: int, offer: Offer) -> None:
    """Record what a supplier asks for a part from now on."""
    price = offer.price
    add_row(
        db,
        offer_table,
        kit,
        slip,
        part=part_ids(db, kit, [PartName(offer.part, offer.part)])[offer.part],
        supplier=offer.supplier,
        length=offer.length,
        price=price.amount if price else None,
        currency=price.currency if price else "",
        days=offer.days,
    )


def offers_that_count(db: Connection, kit: int) -> list[Offer]:
    """Return the newest word of each supplier on each part and length, the newest last."""
    newest: dict[tuple[str, str, int], Offer] = {}
    for row in rows_that_count(db, offer_table, kit):
        offer = Offer(
            part=row["part_key"],
            supplier=row["supplier"],
            length=row["length"],
            price=price_of(row),
            days=row["days"],
        )
        key = (offer.part, offer.supplier, offer.length)
        newest.pop(key, None)
        newest[key] = offer
    return list(newest.values())


def price_of(row: RowMapping) -> Price | None:
    """Return the price in a row; None where nobody said it."""
    return None if row["price"] is None else Price(row["price"], row["currency"])
