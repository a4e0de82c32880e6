"""Rows in every table of preparing and buying, written through the store's own functions."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.items import Hand, Item
from inventory.core.measures.money import Price
from inventory.core.planning.workshop import SetAside, StandIn
from inventory.jobs.acts import acting
from inventory.store.planning.lay_outs import add_laid, begin_lay_out, end_lay_out
from inventory.store.planning.minimums import set_minimum
from inventory.store.planning.offers import Offer, save_offer
from inventory.store.planning.preparations import Preparation, add_preparation
from inventory.store.planning.purchases import (
    Purchase,
    PurchaseEvent,
    add_purchase,
    add_purchase_event,
)
from inventory.store.planning.setting_aside import save_set_aside
from inventory.store.planning.stand_ins import save_decision
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench

RIB = Item("T2-RU-0412", Hand.LEFT, lot="Lös 7")
KEPT = SetAside("10-02", RIB, 1)
STAND_IN = StandIn("T2-RU-0412", "T2-RU-0413", "10-02", "supplier's letter of 2026-11-03, p. 2")
PRIMED = Preparation(word="primed", item=RIB, pieces=2)
MISSING = ({"part": "T2-RU-0412", "hand": "right", "pieces": "2", "plans": "S 12 · 3"},)
OFFER = Offer(
    part="T2-TU-1",
    supplier="Ørsted Rør",
    length=1_219_200_000,
    price=Price(12_500_000, "EUR"),
    days=14,
)
PURCHASE = Purchase(
    part="T2-RU-0412",
    hand=Hand.LEFT,
    pieces=3,
    supplier="Curlew Slip Kit Works",
    reference="order 88",
    price=Price(4_000_000, "EUR"),
    promised=date(2026, 12, 1),
)
ANSWER = PurchaseEvent(
    event="answered",
    on=date(2026, 11, 25),
    promised=date(2026, 12, 10),
    latest=date(2026, 12, 20),
    words="in two parcels",
)


def fill_planning(bench: Bench) -> None:
    """Record each kind of act once."""
    kit = bench.kit.id
    with acting(bench, "set aside", slip("p-1")) as act:
        save_set_aside(act.db, kit, act.recorded.id, KEPT)
    with acting(bench, "substitute", slip("p-2")) as act:
        save_decision(act.db, kit, act.recorded.id, STAND_IN, allowed=True)
    with acting(bench, "prepared", slip("p-3")) as act:
        add_preparation(act.db, kit, act.recorded.id, PRIMED)
    with acting(bench, "lay-out", slip("p-4")) as act:
        number = begin_lay_out(act.db, kit, act.recorded.id, "Rudder · Größe")
        add_laid(act.db, kit, act.recorded.id, number, [(RIB, 2)])
        end_lay_out(act.db, kit, act.recorded.id, number, MISSING)
    with acting(bench, "offer", slip("p-5")) as act:
        save_offer(act.db, kit, act.recorded.id, OFFER)
    with acting(bench, "ordered", slip("p-6")) as act:
        number = add_purchase(act.db, kit, act.recorded.id, PURCHASE)
        add_purchase_event(act.db, kit, act.recorded.id, number, ANSWER)
    with bench.store.writing(kit) as db:
        set_minimum(db, kit, RIB.part, 4)
