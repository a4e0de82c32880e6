"""What people decide before a step comes back whole, and an undone word no longer counts."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.measures.money import Price
from inventory.jobs.acts import acting
from inventory.store.ledger.slips import newest_slip
from inventory.store.planning.lay_outs import all_lay_outs
from inventory.store.planning.minimums import minimums, set_minimum
from inventory.store.planning.offers import offers_that_count, save_offer
from inventory.store.planning.preparations import all_preparations
from inventory.store.planning.purchases import PurchaseEvent, add_purchase_event, all_purchases
from inventory.store.planning.setting_aside import all_set_aside, save_set_aside
from inventory.store.planning.stand_ins import all_decisions, save_decision, stand_ins_that_count
from tests.conftest import slip
from tests.store.filled import fill
from tests.store.filled_planning import (
    ANSWER,
    KEPT,
    MISSING,
    OFFER,
    PRIMED,
    PURCHASE,
    RIB,
    STAND_IN,
)

if TYPE_CHECKING:
    from inventory.core.planning.workshop import SetAside
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection

DAY = date(2026, 11, 25)


def aside(db: Connection) -> list[SetAside]:
    return [kept.set_aside for kept in all_set_aside(db, 1)]


def undo_last(bench: Bench) -> None:
    with bench.store.reading() as db:
        last = newest_slip(db, bench.kit.id)
    with acting(bench, "undo", slip(f"undo-{last}"), undoes=last):
        pass


def test_the_newest_word_on_what_is_set_aside_counts(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        assert aside(db) == [KEPT]
    with acting(bench, "set aside", slip("n-1")) as act:
        save_set_aside(act.db, 1, act.recorded.id, replace(KEPT, quantity=0))
        save_set_aside(act.db, 1, act.recorded.id, replace(KEPT, step="10-01", quantity=2))
        assert aside(act.db) == [replace(KEPT, step="10-01", quantity=2)]
    undo_last(bench)
    with bench.store.reading() as db:
        assert aside(db) == [KEPT]


def test_a_decision_keeps_its_source_and_who_recorded_it(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        assert stand_ins_that_count(db, 1) == [STAND_IN]
        (decision,) = all_decisions(db, 1)
    assert (decision.stand_in, decision.person, decision.on) == (STAND_IN, "Ada", DAY)
    with acting(bench, "substitute", slip("n-1")) as act:
        save_decision(act.db, 1, act.recorded.id, STAND_IN, allowed=False)
        assert stand_ins_that_count(act.db, 1) == []
        assert [each.allowed for each in all_decisions(act.db, 1)] == [True, False]
    undo_last(bench)
    with bench.store.reading() as db:
        assert stand_ins_that_count(db, 1) == [STAND_IN]


def test_a_preparation_keeps_word_pieces_day_and_person(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (done,) = all_preparations(db, 1)
    assert replace(done, act=0) == replace(PRIMED, person="Ada", on=DAY)


def test_a_lay_out_keeps_what_was_laid_and_what_was_missing(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (lay_out,) = all_lay_outs(db, 1)
    assert (lay_out.section, lay_out.person, lay_out.on) == ("Rudder · Größe", "Ada", DAY)
    assert (lay_out.laid, lay_out.ended, lay_out.missing) == (((RIB, 2),), DAY, MISSING)


def test_the_newest_offer_of_a_supplier_counts(bench: Bench) -> None:
    fill(bench)
    other = replace(OFFER, length=0, price=None, days=0)
    dearer = replace(OFFER, price=Price(13_000_000, "EUR"))
    with acting(bench, "offer", slip("n-1")) as act:
        save_offer(act.db, 1, act.recorded.id, other)
        save_offer(act.db, 1, act.recorded.id, dearer)
        assert offers_that_count(act.db, 1) == [other, dearer]


def test_an_order_stands_as_it_was_last_answered_until_it_came(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        (order,) = all_purchases(db, 1)
    assert order == replace(
        PURCHASE,
        id=1,
        promised=ANSWER.promised,
        latest=ANSWER.latest,
        ordered_on=DAY,
        events=(ANSWER,),
    )
    assert order.pieces_open == 3
    came = PurchaseEvent(event="came", on=DAY, pieces=2)
    with acting(bench, "came", slip("n-1")) as act:
        add_purchase_event(act.db, 1, act.recorded.id, 1, came)
        assert [each.pieces_open for each in all_purchases(act.db, 1)] == [1]
    with acting(bench, "cancelled", slip("n-2")) as act:
        add_purchase_event(
            act.db, 1, act.recorded.id, 1, replace(came, event="cancelled", pieces=0)
        )
        assert [each.pieces_open for each in all_purchases(act.db, 1)] == [0]


def test_a_minimum_is_kept_until_it_is_taken_away(bench: Bench) -> None:
    fill(bench)
    with bench.store.writing(1) as db:
        assert minimums(db, 1) == {RIB.part: 4}
        set_minimum(db, 1, RIB.part, 0)
        assert minimums(db, 1) == {}
