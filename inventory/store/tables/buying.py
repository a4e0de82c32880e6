"""Tables of what is bought apart from the kit: offers, purchases, what became of them."""

from __future__ import annotations

from sqlalchemy import Column

from inventory.store.tables.base import BySlip, Whole, check, number, table, to, words


class OfferColumns(BySlip):
    """A supplier sells a part, or a stock length of it; the newest word holds."""

    part: Column[int] = number()
    supplier: Column[str] = words()
    length: Column[int] = number(0)
    price: Column[int | None] = Column(Whole, nullable=True)
    """Of one piece or stick, in millionths of the currency."""
    currency: Column[str] = words("")
    days: Column[int] = number(0)
    """From order to arrival, where it is known."""


class PurchaseColumns(BySlip):
    """Pieces that were ordered from a supplier."""

    part: Column[int] = number()
    hand: Column[str] = words()
    length: Column[int] = number(0)
    pieces: Column[int] = number()
    supplier: Column[str] = words("")
    reference: Column[str] = words("")
    """The order's number or letter."""
    price: Column[int | None] = Column(Whole, nullable=True)
    currency: Column[str] = words("")
    promised: Column[str] = words("")
    latest: Column[str] = words("")


class PurchaseEventColumns(BySlip):
    """A purchase was answered, came in part or whole, or won't come."""

    purchase: Column[int] = number()
    event: Column[str] = words()
    pieces: Column[int] = number(0)
    promised: Column[str] = words("")
    latest: Column[str] = words("")
    words: Column[str] = words("")


offer = table(
    "offer",
    OfferColumns,
    check("amounts", "length >= 0 AND price >= 0 AND days >= 0"),
    to("slip", "slip"),
    to("part", "part"),
)
purchase = table(
    "purchase",
    PurchaseColumns,
    check("amounts", "pieces > 0 AND length >= 0 AND price >= 0"),
    to("slip", "slip"),
    to("part", "part"),
)
purchase_event = table(
    "purchase_event",
    PurchaseEventColumns,
    check("pieces", "pieces >= 0"),
    to("slip", "slip"),
    to("purchase", "purchase"),
)
