"""Tables of the ledger: slips, their movements, and the balance the append trigger keeps."""

from __future__ import annotations

from sqlalchemy import (
    Column,
    LargeBinary,
    Text,
    TypedColumns,
)

from inventory.store.tables.base import OfKit, Whole, check, index, number, table, to, unique, words


class SlipColumns(OfKit):
    """One act at the bench: who, when, and what it was."""

    key: Column[str] = words()
    act: Column[str] = words()
    person: Column[str] = words("")
    device: Column[str] = words("")
    happened_on: Column[str] = words()
    recorded_at: Column[str] = words()
    note: Column[str] = words("")
    asked: Column[str] = words("")
    """Digest of what was asked, so that the same slip with another content is noticed."""
    undoes: Column[int | None] = Column(Whole, nullable=True)


class MovementColumns(OfKit):
    """A positive quantity of one item from one place to another."""

    slip: Column[int] = number()
    item: Column[int] = number()
    quantity: Column[int] = number()
    origin: Column[int] = number()
    destination: Column[int] = number()
    chain: Column[bytes] = Column(LargeBinary(32), nullable=False)
    """SHA-256 over the link before it and the words of this movement."""


class BalanceColumns(TypedColumns):
    """How much of an item lies in a place; written by the append trigger alone."""

    kit: Column[int] = Column(Whole, primary_key=True)
    place: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    item: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    quantity: Column[int] = number()


class AnswerColumns(TypedColumns):
    """What was answered to a slip that came over the network, to be said again word for word."""

    kit: Column[int] = Column(Whole, primary_key=True)
    key: Column[str] = Column(Text, primary_key=True)
    asked: Column[str] = words()
    status: Column[int] = number()
    body: Column[str] = words()


slip = table(
    "slip",
    SlipColumns,
    unique("kit", "key"),
    unique("kit", "undoes"),
    to("slip", "undoes"),
)
movement = table(
    "movement",
    MovementColumns,
    check("quantity", "quantity > 0 AND quantity <= 1000000000000000"),
    check("two_places", "origin <> destination"),
    check("chain", "length(chain) = 32"),
    index("kit", "slip"),
    index("kit", "item", "origin", "destination", "quantity"),
    to("slip", "slip"),
    to("item", "item"),
    to("place", "origin"),
    to("place", "destination"),
)
balance = table("balance", BalanceColumns, index("kit", "item"))
answer = table("answer", AnswerColumns)
