"""Offers, minimum stock, and orders: placed, answered, come, given up."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.workshop import Due
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import Asked, in_measure, known_part, new_part
from inventory.jobs.bench.putting_away import known_bin
from inventory.store.planning.minimums import minimums, set_minimum
from inventory.store.planning.offers import Offer, save_offer
from inventory.store.planning.purchases import (
    Purchase,
    PurchaseEvent,
    add_purchase,
    add_purchase_event,
    all_purchases,
)

if TYPE_CHECKING:
    from collections.abc import Sequence
    from datetime import date

    from inventory.core.measures.money import Price
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.store.kits import Kit
    from inventory.store.ledger.names import PartName
    from inventory.store.opening.database import Connection

BOUGHT = Place(PlaceKind.BOUGHT)


@frozen(kw_only=True)
class Ordering:
    """Pieces that were ordered, as a person says it."""

    asked: Asked
    pieces: int
    supplier: str = ""
    reference: str = ""
    price: Price | None = None
    promised: date | None = None
    latest: date | None = None


@frozen
class Came:
    """What came of an order, and into which bin it went."""

    purchase: Purchase
    movement: Movement


def offer_of(part: str, supplier: str, length: int, price: Price | None, days: int) -> Offer:
    """Return what a supplier asks for a part, or for a stock length of it (nanometres)."""
    if days < 0:
        raise InventoryError(f"{days} days make no sense", remedy="0 or more.")
    return Offer(part=part, supplier=supplier, length=length, price=price, days=days)


@tried_again
def keep_offer(bench: Bench, offer: Offer, slip: Slip) -> Offer:
    """Record what a supplier asks for a part, or a stock length of it, from now on."""
    if not offer.supplier.strip():
        raise InventoryError("whose offer is it?", remedy="Say it with --from SUPPLIER.")
    with acting(bench, "offer", slip) as act:
        part = known_part(act.db, bench.kit, offer.part)
        kept = replace(offer, part=part.key, supplier=offer.supplier.strip())
        save_offer(act.db, bench.kit.id, act.recorded.id, kept)
        return kept


def keep_minimum(bench: Bench, text: str, pieces: int) -> PartName:
    """Keep how many of a part should be left when all steps are done; 0 for none."""
    if pieces < 0:
        raise InventoryError(f"a minimum of {pieces} makes no sense", remedy="0 or more.")
    with bench.store.writing(bench.kit.id) as db:
        part = known_part(db, bench.kit, text)
        set_minimum(db, bench.kit.id, part.key, pieces)
        return part


def all_minimums(bench: Bench) -> dict[str, int]:
    """Return the minimum of each part that has one."""
    with bench.store.reading() as db:
        return minimums(db, bench.kit.id)


@tried_again
def place_orders(bench: Bench, orders: Sequence[Ordering], slip: Slip) -> list[int]:
    """Record pieces as ordered, all of them in one act; return their numbers."""
    with acting(bench, "ordered", slip) as act:
        return [_place(act, bench.kit, each) for each in orders]


def _place(act: Act, kit: Kit, ordering: Ordering) -> int:
    if ordering.pieces < 1:
        raise InventoryError(f"{ordering.pieces} pieces can't be ordered", remedy="At least 1.")
    item = new_part(act.db, kit, ordering.asked)
    return add_purchase(
        act.db,
        kit.id,
        act.recorded.id,
        Purchase(
            part=item.part,
            hand=item.hand,
            length=item.length,
            pieces=ordering.pieces,
            supplier=ordering.supplier.strip(),
            reference=ordering.reference.strip(),
            price=ordering.price,
            promised=ordering.promised,
            latest=ordering.latest,
        ),
    )


def answer(
    event: str, on: date, promised: date | None, latest: date | None, words: str
) -> PurchaseEvent:
    """Return what a supplier said to an order on a day: `answered` or `cancelled`."""
    if latest and promised and latest < promised:
        raise InventoryError(f"{latest} is before {promised}", remedy="Give the earlier day first.")
    return PurchaseEvent(event=event, on=on, promised=promised, latest=latest, words=words)


@tried_again
def answered(bench: Bench, number: int, event: PurchaseEvent, slip: Slip) -> Purchase:
    """Record what a supplier answered to an order, or that it was given up."""
    with acting(bench, f"order {event.event}", slip) as act:
        _open_order(act.db, bench.kit, number)
        add_purchase_event(act.db, bench.kit.id, act.recorded.id, number, event)
        return _order(act.db, bench.kit, number)


@tried_again
def came(bench: Bench, number: int, pieces: int, bin_and_lot: tuple[str, str], slip: Slip) -> Came:
    """Record pieces of an order as come and put into a bin, in one act."""
    bin_name, lot = bin_and_lot
    with acting(bench, "order came", slip) as act:
        order = _open_order(act.db, bench.kit, number)
        if not 1 <= pieces <= order.pieces_open:
            left = in_measure(act.db, bench.kit, order.part, order.pieces_open)
            raise NotEnoughError(
                f"{in_measure(act.db, bench.kit, order.part, pieces)} came, {left} of order "
                f"{number} are still to come",
                where=f"order {number}",
                remedy="Put what came beyond it away with: kitwright bin put --from bought",
            )
        asked = Asked(
            part=order.part, hand=order.hand, lot=lot or None, length=order.length or None
        )
        move = Movement(
            new_part(act.db, bench.kit, asked),
            pieces,
            BOUGHT,
            known_bin(act.db, bench.kit, bin_name),
        )
        act.move([move])
        event = PurchaseEvent(event="came", on=slip.happened_on, pieces=pieces)
        add_purchase_event(act.db, bench.kit.id, act.recorded.id, number, event)
        return Came(_order(act.db, bench.kit, number), move)


def order_of(bench: Bench, number: int) -> Purchase:
    """Return an order by its number."""
    with bench.store.reading() as db:
        return _order(db, bench.kit, number)


def _order(db: Connection, kit: Kit, number: int) -> Purchase:
    found = next((each for each in all_purchases(db, kit.id) if each.id == number), None)
    if found is None:
        raise NotFoundError(f"there is no order {number}", remedy="Look: kitwright to-order placed")
    return found


def _open_order(db: Connection, kit: Kit, number: int) -> Purchase:
    order = _order(db, kit, number)
    if not order.pieces_open:
        raise InventoryError(
            f"order {number} is settled: nothing of it is still to come", where=f"order {number}"
        )
    return order


def purchases_due(db: Connection, kit: Kit) -> list[Due]:
    """Return what is still to come of the orders placed apart from the kit."""
    return [
        Due(
            part=each.part,
            hand=each.hand,
            length=each.length,
            quantity=each.pieces_open,
            source=order_words(each),
            promised=each.promised,
            latest=each.latest,
        )
        for each in all_purchases(db, kit.id)
        if each.pieces_open
    ]


def order_words(purchase: Purchase) -> str:
    """Return an order in words: number, supplier, its own reference."""
    told = (f"order {purchase.id}", purchase.supplier and f"of {purchase.supplier}")
    reference = f"({purchase.reference})" if purchase.reference else ""
    return " ".join(word for word in (*told, reference) if word)
