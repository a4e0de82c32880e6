"""Undo, undo of undo, and so on: an act counts or doesn't, however often it was turned round."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.places import Place, PlaceKind
from inventory.core.receiving.counts import Count
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.bench.undoing import history, newest_acts, undo
from inventory.jobs.receiving.receiving import count
from inventory.jobs.record.verifying import verify
from inventory.store.ledger.stock import lying
from inventory.store.receiving.counts import RecordedCount, all_counts, counts_that_stand
from tests.conftest import slip
from tests.store.filled import BIN, RIB, SUPPLIER

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


def in_bin(bench: Bench) -> int:
    with bench.store.reading() as db:
        return sum(lies.quantity for lies in lying(db, bench.kit.id, place=BIN))


def test_an_act_is_turned_round_as_often_as_anybody_likes(sqlite_bench: Bench) -> None:
    with acting(sqlite_bench, "bin put", slip("k-1")) as act:
        act.move([Movement(RIB, 4, SUPPLIER, BIN)])
    seen = []
    for number, target in enumerate((1, 2, 1, 4, 1)):
        undo(sqlite_bench, slip(f"u-{number}"), target)
        seen.append(in_bin(sqlite_bench))
    # undone; counts again; undone again, by its first number; counts again; undone
    assert seen == [0, 4, 0, 4, 0]
    assert verify(sqlite_bench.store).problems == ()
    with pytest.raises(InventoryError, match="undone already"):
        undo(sqlite_bench, slip("again"), 1)


def test_the_history_tells_which_record_an_undoing_took_back(sqlite_bench: Bench) -> None:
    with acting(sqlite_bench, "bin put", slip("k-1")) as act:
        act.move([Movement(RIB, 4, SUPPLIER, BIN)])
    for number, target in enumerate((1, 2, 1)):
        undo(sqlite_bench, slip(f"u-{number}"), target)
    told = [(each.recorded.id, each.recorded.undoes, each.undone) for each in history(sqlite_bench)]
    assert told == [(4, 3, False), (3, 2, True), (2, 1, False), (1, None, True)]


def test_the_newest_acts_are_the_head_of_the_history(sqlite_bench: Bench) -> None:
    for number in range(4):
        with acting(sqlite_bench, "bin put", slip(f"k-{number}")) as act:
            act.move([Movement(RIB, 1 + number, SUPPLIER, BIN), Movement(RIB, 9, SUPPLIER, BIN)])
    assert undo(sqlite_bench, slip("u-1")).recorded.id == 4
    assert undo(sqlite_bench, slip("u-2")).recorded.id == 3  # the newest that still counts
    whole = history(sqlite_bench)
    assert [newest_acts(sqlite_bench, most) for most in (1, 3, 6, 9)] == [
        whole[:1],
        whole[:3],
        whole,
        whole,
    ]
    assert newest_acts(sqlite_bench, 2, before=5) == whole[2:4]
    assert newest_acts(sqlite_bench, 2, before=1) == []


def test_the_last_act_is_found_behind_all_that_is_undone(sqlite_bench: Bench) -> None:
    with pytest.raises(InventoryError, match="nothing to undo"):
        undo(sqlite_bench, slip("none"))
    for number in range(3):
        with acting(sqlite_bench, "bin put", slip(f"k-{number}")) as act:
            act.move([Movement(RIB, 1, SUPPLIER, BIN)])
    targets = [undo(sqlite_bench, slip(f"u-{number}")).recorded.id for number in range(3)]
    assert targets == [3, 2, 1]
    with pytest.raises(InventoryError, match="nothing to undo"):
        undo(sqlite_bench, slip("none left"))


def count_ribs(bench: Bench, key: str, pieces: int, *, again: bool) -> None:
    counted = Count(part="RIB", crate="1", pieces_good=pieces)
    count(bench, [RecordedCount(0, 0, counted, "RIB", recount=again)], slip(key))


def counted_and_lying(bench: Bench) -> tuple[list[int], int]:
    """Return the numbers that hold, and the pieces that lie in the crate."""
    with bench.store.reading() as db:
        held = counts_that_stand(all_counts(db, bench.kit.id))
        there = lying(db, bench.kit.id, place=Place(PlaceKind.CRATE, "1"))
    return [each.count.pieces_good for each in held], sum(lies.quantity for lies in there)


def test_a_count_that_was_counted_again_is_not_undone_behind_the_recount(
    sqlite_bench: Bench,
) -> None:
    count_ribs(sqlite_bench, "first", 3, again=False)
    count_ribs(sqlite_bench, "again", 5, again=True)
    with pytest.raises(InventoryError, match="act 1 counted RIB, and act 2 counted it again"):
        undo(sqlite_bench, slip("u"), 1)
    assert counted_and_lying(sqlite_bench) == ([5], 5)
    undo(sqlite_bench, slip("u-2"), 2)
    assert counted_and_lying(sqlite_bench) == ([3], 3)
    undo(sqlite_bench, slip("u-1"), 1)
    assert counted_and_lying(sqlite_bench) == ([], 0)


def test_an_undone_count_does_not_come_back_behind_a_later_recount(sqlite_bench: Bench) -> None:
    count_ribs(sqlite_bench, "first", 3, again=False)
    undo(sqlite_bench, slip("u-1"), 1)
    count_ribs(sqlite_bench, "again", 5, again=True)
    with pytest.raises(InventoryError, match="act 3 counted it again"):
        undo(sqlite_bench, slip("u-2"), 2)
    assert counted_and_lying(sqlite_bench) == ([5], 5)


def test_a_count_of_another_pile_is_undone_all_the_same(sqlite_bench: Bench) -> None:
    count_ribs(sqlite_bench, "first", 3, again=False)
    other = Count(part="RIB", crate="2", pieces_good=4)
    count(sqlite_bench, [RecordedCount(0, 0, other, "RIB", recount=True)], slip("other"))
    undo(sqlite_bench, slip("u-1"), 1)
    assert counted_and_lying(sqlite_bench) == ([4], 0)
