"""Undo, undo of undo, and so on: an act counts or doesn't, however often it was turned round."""

from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError
from inventory.core.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.undoing import history, undo
from inventory.jobs.verifying import verify
from inventory.store.stock import lying
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
