"""The ledger: sums to zero, never below zero where that can't be, sealed link by link."""

from __future__ import annotations

import shutil
import sqlite3
from contextlib import closing
from itertools import count
from typing import TYPE_CHECKING

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import func, select

from inventory.core.errors import NotEnoughError
from inventory.core.items import Hand, Item, State
from inventory.core.places import OUTSIDE, Place, PlaceKind
from inventory.core.record.chain import START, link
from inventory.core.record.ledger import MOST, Movement, balances
from inventory.jobs.acts import Bench, acting
from inventory.jobs.kits import begin_kit
from inventory.store.ledger.history import movements
from inventory.store.ledger.movements import last_link
from inventory.store.ledger.stock import lying
from inventory.store.opening.database import open_store
from inventory.store.record.checking import wrong_balances
from inventory.store.tables.ledger import balance
from tests.conftest import NOW, slip

if TYPE_CHECKING:
    from collections.abc import Sequence
    from pathlib import Path

RIB = Item("T2-RU-0412", Hand.LEFT)
SUPPLIER = Place(PlaceKind.SUPPLIER)
BIN = Place(PlaceKind.BIN, "B-07")
STEP = Place(PlaceKind.STEP, "10-02")
PLACES = [Place(kind, "" if kind in OUTSIDE else "A") for kind in PlaceKind] + [BIN]
_numbers = count()


def record(bench: Bench, moves: Sequence[Movement], act: str = "bin put") -> None:
    with acting(bench, act, slip(f"slip {next(_numbers)}")) as recording:
        recording.move(moves)


def recorded(bench: Bench) -> dict[tuple[Place, Item], int]:
    with bench.store.reading() as db:
        return {(lies.place, lies.item): lies.quantity for lies in lying(db, bench.kit.id)}


def test_a_movement_takes_from_one_place_and_adds_to_the_other(bench: Bench) -> None:
    record(bench, [Movement(RIB, 7, SUPPLIER, BIN), Movement(RIB, 3, BIN, STEP)])
    assert recorded(bench) == {(SUPPLIER, RIB): -7, (BIN, RIB): 4, (STEP, RIB): 3}


@pytest.mark.parametrize("kind", list(PlaceKind))
def test_only_places_outside_may_stand_below_zero(bench: Bench, kind: PlaceKind) -> None:
    origin = Place(kind, "A")
    goal = BIN
    if kind in OUTSIDE:
        record(bench, [Movement(RIB, 1, origin, goal)])
        assert recorded(bench) == {(origin, RIB): -1, (goal, RIB): 1}
    else:
        with pytest.raises(NotEnoughError):
            record(bench, [Movement(RIB, 1, origin, goal)])
        assert recorded(bench) == {}


def test_an_act_that_goes_below_zero_is_refused_whole(bench: Bench) -> None:
    record(bench, [Movement(RIB, 5, SUPPLIER, BIN)])
    with pytest.raises(NotEnoughError, match="more was asked for"):
        record(bench, [Movement(RIB, 5, BIN, STEP), Movement(RIB, 1, BIN, STEP)], "issue")
    assert recorded(bench) == {(SUPPLIER, RIB): -5, (BIN, RIB): 5}
    with bench.store.reading() as db:
        assert len(movements(db, bench.kit.id)) == 1


def test_the_largest_movement_is_stored_exactly(bench: Bench) -> None:
    record(bench, [Movement(RIB, MOST, SUPPLIER, BIN), Movement(RIB, MOST, SUPPLIER, BIN)])
    assert recorded(bench)[BIN, RIB] == 2 * 10**15


def test_hands_lots_lengths_and_worked_pieces_never_merge(bench: Bench) -> None:
    kinds = [
        RIB,
        Item(RIB.part, Hand.RIGHT),
        Item(RIB.part, Hand.LEFT, lot="7"),
        Item(RIB.part, Hand.LEFT, length=1),
        Item(RIB.part, Hand.LEFT, state=State.WORKED),
    ]
    record(bench, [Movement(item, 1, SUPPLIER, BIN) for item in kinds])
    assert {item for place, item in recorded(bench) if place == BIN} == set(kinds)


def test_each_movement_is_sealed_with_all_before_it(bench: Bench) -> None:
    moves = [Movement(RIB, 7, SUPPLIER, BIN), Movement(RIB, 3, BIN, STEP)]
    with bench.store.reading() as db:
        assert last_link(db, bench.kit.id) == (0, START)
    with acting(bench, "bin put", slip("sealed", note="½ ✈")) as recording:
        recording.move([])
        recording.move(moves)
    sealed = slip("sealed", note="½ ✈")
    first = link(START, 1, "bin put", sealed, moves[0])
    with bench.store.reading() as db:
        kept = movements(db, bench.kit.id)
        assert [each.chain for each in kept] == [first, link(first, 2, "bin put", sealed, moves[1])]
        assert last_link(db, bench.kit.id) == (2, kept[1].chain)
        assert [each.movement for each in kept] == moves


def test_two_kits_of_a_store_share_nothing(bench: Bench) -> None:
    other = Bench(bench.store, begin_kit(bench.store, "Tern", "", NOW))
    record(bench, [Movement(RIB, 7, SUPPLIER, BIN)])
    assert recorded(other) == {}
    record(other, [Movement(RIB, 2, SUPPLIER, BIN)])
    assert (recorded(bench)[BIN, RIB], recorded(other)[BIN, RIB]) == (7, 2)
    with bench.store.reading() as db:
        assert [each.number for each in movements(db, other.kit.id)] == [1]


def test_history_can_be_asked_by_act_and_by_part(bench: Bench) -> None:
    tube = Item("T2-TU-1")
    record(bench, [Movement(RIB, 7, SUPPLIER, BIN), Movement(tube, 1, SUPPLIER, BIN)])
    record(bench, [Movement(RIB, 3, BIN, STEP)])
    with bench.store.reading() as db:
        assert [each.number for each in movements(db, bench.kit.id, part=RIB.part)] == [1, 3]
        assert [each.number for each in movements(db, bench.kit.id, slip=2)] == [3]
        assert movements(db, bench.kit.id, slip=2, part=tube.part) == []


def test_stock_can_be_asked_by_kind_place_and_part(bench: Bench) -> None:
    tube = Item("T2-TU-1")
    record(bench, [Movement(RIB, 7, SUPPLIER, BIN), Movement(tube, 1, SUPPLIER, STEP)])
    with bench.store.reading() as db:
        kinds = lying(db, bench.kit.id, kinds=[PlaceKind.BIN, PlaceKind.STEP])
        assert [(each.place, each.quantity) for each in kinds] == [(BIN, 7), (STEP, 1)]
        assert [each.item for each in lying(db, bench.kit.id, place=STEP)] == [tube]
        assert {each.item for each in lying(db, bench.kit.id, part=RIB.part)} == {RIB}


moves_made = st.lists(
    st.builds(
        lambda item, quantity, ends: Movement(item, quantity, *ends),
        st.sampled_from([RIB, Item(RIB.part, Hand.RIGHT), Item("T2-TU-1", length=5)]),
        st.integers(1, 9),
        st.lists(st.sampled_from(PLACES), min_size=2, max_size=2, unique=True),
    ),
    max_size=12,
)


@given(moves=moves_made)
@settings(
    max_examples=25, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
def test_what_lies_anywhere_is_the_sum_of_all_movements(
    moves: list[Movement], migrated_file: Path, tmp_path: Path
) -> None:
    path = shutil.copy(migrated_file, tmp_path / f"{next(_numbers)}.kitwright")
    with closing(open_store(str(path))) as store:
        bench = Bench(store, begin_kit(store, "Tarn T2", "T2", NOW))
        kept: list[Movement] = []
        for move in moves:
            after = balances([*kept, move])
            if move.origin.kind in OUTSIDE or after.get((move.origin, move.item), 0) >= 0:
                record(bench, [move])
                kept.append(move)
            else:
                with pytest.raises(NotEnoughError):
                    record(bench, [move])
        assert recorded(bench) == balances(kept)
        with store.reading() as db:
            sums = db.execute(select(func.sum(balance.c.quantity)).group_by(balance.c.item))
            assert set(sums.scalars()) <= {0}


def test_without_its_trigger_more_could_be_taken_than_lies_there(sqlite_bench: Bench) -> None:
    """The control: it is the trigger that keeps the balances, and refuses what isn't there."""
    record(sqlite_bench, [Movement(RIB, 5, SUPPLIER, BIN)])
    with closing(sqlite3.connect(sqlite_bench.store.address)) as other:
        other.execute("DROP TRIGGER movement_keeps_balance")
    record(sqlite_bench, [Movement(RIB, 6, BIN, STEP)], "issue")
    with sqlite_bench.store.reading() as db:
        assert len(movements(db, sqlite_bench.kit.id)) == 2
        assert wrong_balances(db, sqlite_bench.kit) != []
