from __future__ import annotations

import pytest

from inventory.core.items import Hand, Item, State
from inventory.core.planning.kept_pieces import (
    Asking,
    Kept,
    MovedAtStep,
    Prepared,
    still_kept,
    still_prepared,
)
from inventory.core.planning.workshop import SetAside

RIB = Item("RIB", Hand.LEFT)
LOT = Item("RIB", Hand.LEFT, lot="7")
OPEN = {"11", "12"}


@pytest.mark.parametrize(
    ("moved", "left"),
    [
        ([], 3),
        ([MovedAtStep(4, "11", RIB, 1)], 3),  # went in before the word was said
        ([MovedAtStep(5, "11", RIB, 1)], 3),  # and in the very act of saying it
        ([MovedAtStep(6, "11", LOT, 1)], 2),
        ([MovedAtStep(6, "11", RIB, 2)], 1),
        ([MovedAtStep(6, "12", RIB, 1)], 3),
        ([MovedAtStep(6, "11", Item("RIB", Hand.RIGHT), 1)], 3),
        ([MovedAtStep(6, "11", RIB, 2), MovedAtStep(7, "11", RIB, -1)], 2),
        ([MovedAtStep(6, "11", RIB, -2)], 3),  # more is never kept than was said
    ],
)
def test_what_went_into_the_step_is_no_longer_kept_apart(
    moved: list[MovedAtStep], left: int
) -> None:
    kept = [Kept(5, SetAside("11", RIB, 3))]
    assert [each.quantity for each in still_kept(kept, moved, OPEN)] == [left]


@pytest.mark.parametrize("gone", [3, 4])
def test_all_of_it_gone_keeps_nothing(gone: int) -> None:
    kept = [Kept(5, SetAside("11", RIB, 3))]
    assert list(still_kept(kept, [MovedAtStep(6, "11", RIB, gone)], OPEN)) == []


def test_a_lot_that_was_named_is_kept_alone() -> None:
    kept = [Kept(5, SetAside("11", LOT, 3))]
    (left,) = still_kept(kept, [MovedAtStep(6, "11", RIB, 1)], OPEN)
    assert left.quantity == 3


def test_a_step_that_is_done_keeps_nothing_back() -> None:
    assert list(still_kept([Kept(5, SetAside("10", RIB, 3))], [], OPEN)) == []


ASKING = {Asking("11", "RIB", "primed")}


def primed(*moved: MovedAtStep, usable: int = 9) -> int:
    prepared = [Prepared(5, "primed", RIB, 4), Prepared(8, "primed", RIB, -1)]
    found = still_prepared(prepared, moved, ASKING, {RIB: usable})
    return found.get(("primed", RIB), 0)


def test_prepared_pieces_are_those_still_in_the_bins() -> None:
    assert (primed(), primed(usable=2), primed(usable=0)) == (3, 2, 0)


def test_a_step_that_asks_for_it_takes_prepared_pieces() -> None:
    assert primed(MovedAtStep(6, "11", RIB, 2)) == 1
    assert primed(MovedAtStep(6, "11", RIB, 7), usable=2) == 0


def test_a_step_that_does_not_ask_takes_the_others() -> None:
    assert primed(MovedAtStep(6, "12", RIB, 2)) == 3


def test_pieces_back_from_the_step_are_as_prepared_as_they_went() -> None:
    assert primed(MovedAtStep(6, "11", RIB, 2), MovedAtStep(7, "11", RIB, -3)) == 3


def test_no_more_come_back_prepared_than_went_prepared() -> None:
    # 4 prepared ones go, then a fifth that isn't; of 5 that come back 4 are prepared.
    moves = (MovedAtStep(6, "11", RIB, 4), MovedAtStep(7, "11", RIB, 1))
    assert primed(*moves, MovedAtStep(9, "11", RIB, -5)) == 4


def test_prepared_pieces_that_are_no_longer_usable_are_none() -> None:
    assert still_prepared([Prepared(5, "primed", RIB, 4)], [], ASKING, {}) == {}


def test_worked_pieces_are_not_prepared_ones() -> None:
    worked = Item("RIB", Hand.LEFT, state=State.WORKED)
    assert primed(MovedAtStep(6, "11", worked, 2)) == 3


def test_pieces_that_went_before_they_were_prepared_do_not_count() -> None:
    assert primed(MovedAtStep(4, "11", RIB, 2)) == 3
