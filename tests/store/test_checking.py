from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import Movement, balances
from inventory.store.ledger.history import movements
from inventory.store.ledger.movements import append_movements
from inventory.store.ledger.slips import add_slip
from inventory.store.ledger.stock import lying
from inventory.store.record.checking import wrong_balances
from tests.conftest import slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench

OPENING = Place(PlaceKind.OPENING)
BINS = [Place(PlaceKind.BIN, code) for code in ("A", "B", "C")]
ITEMS = [Item("RIB-1", Hand.LEFT), Item("RIB-1", Hand.RIGHT), Item("SPAR")]


def recorded(bench: Bench, key: str, *moves: Movement) -> None:
    with bench.store.writing(bench.kit.id) as db:
        append_movements(db, bench.kit.id, add_slip(db, bench.kit.id, "put", slip(key)), moves)


def test_sums_by_the_database_are_the_sums_of_the_movements(bench: Bench) -> None:
    recorded(bench, "all", *(Movement(item, 50, OPENING, bin_) for item in ITEMS for bin_ in BINS))
    for number in range(20):  # one at a time takes a shorter way to the numbers of its places
        here, there = BINS[number % 3], BINS[(number + 1 + number % 2) % 3]
        recorded(bench, f"one {number}", Movement(ITEMS[number // 3 % 3], 2, here, there))
    with bench.store.reading() as db:
        kit = bench.kit.id
        by_hand = balances(each.movement for each in movements(db, kit))
        assert {(lies.place, lies.item): lies.quantity for lies in lying(db, kit)} == by_hand
        assert wrong_balances(db, bench.kit) == []


def test_a_balance_that_is_not_the_sum_is_named(sqlite_bench: Bench) -> None:
    recorded(sqlite_bench, "put", Movement(ITEMS[2], 5, OPENING, BINS[0]))
    with sqlite_bench.store.writing() as db:
        db.exec_driver_sql("UPDATE balance SET quantity = 4 WHERE quantity = 5")
        db.exec_driver_sql("INSERT INTO balance VALUES (1, 99, 1, 3)")
    with sqlite_bench.store.reading() as db:
        assert [problem.what for problem in wrong_balances(db, sqlite_bench.kit)] == [
            "a place that is missing holds 0 x SPAR by the movements, 3 by the balance",
            "bin A holds 5 x SPAR by the movements, 4 by the balance",
        ]
