"""Values of the jobs as documents, in the shapes beside them."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from datetime import date

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.record.ledger import Movement

Document = dict[str, Any]


def day(one: date | None) -> str | None:
    """Return a day as ISO 8601 writes it."""
    return one.isoformat() if one else None


def item(one: Item) -> Document:
    """Return what is counted."""
    return {
        "part": one.part,
        "hand": one.hand.value,
        "lot": one.lot,
        "length_nm": one.length,
        "worked": one.state.value == "worked",
    }


def place(one: Place) -> Document:
    """Return where something can be."""
    return {"kind": one.kind.value, "code": one.code}


def lies(where: Place, what: Item, quantity: int) -> Document:
    """Return how much of an item lies in a place."""
    return {"place": place(where), "item": item(what), "quantity": quantity}


def move(one: Movement) -> Document:
    """Return a movement of the ledger."""
    return {
        "item": item(one.item),
        "quantity": one.quantity,
        "origin": place(one.origin),
        "destination": place(one.destination),
    }


def need(one: Need) -> Document:
    """Return what a step uses of a part."""
    return {
        "step": one.step,
        "part": one.part,
        "hand": one.hand.value,
        "quantity": one.quantity,
        "length_nm": one.length,
        "sheet": one.sheet,
        "find_number": one.find_number,
    }


def netted(net: NetNeed) -> Document:
    """Return a need with what it gets in build order."""
    return {
        "need": need(net.need),
        "issued": net.issued,
        "on_hand": net.on_hand,
        "short": net.short,
        "stops": net.stops,
    }
