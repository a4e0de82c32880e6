"""The ledger's own arithmetic."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import MOST, Movement, balances, reversal

RIB, TUBE = Item("RIB", Hand.LEFT), Item("TUBE")
SUPPLIER, BIN, STEP = (
    Place(PlaceKind.SUPPLIER),
    Place(PlaceKind.BIN, "B-07"),
    Place(PlaceKind.STEP, "10-02"),
)


@pytest.mark.parametrize("quantity", [1, MOST])
def test_a_movement_may_be_of_one_piece_up_to_the_most(quantity: int) -> None:
    assert Movement(RIB, quantity, SUPPLIER, BIN).quantity == quantity


@pytest.mark.parametrize("quantity", [0, -1, MOST + 1])
def test_nothing_less_than_nothing_and_more_than_the_most_cannot_move(quantity: int) -> None:
    with pytest.raises(ValueError, match=rf"^quantity must be 1 to {MOST}, not {quantity}$"):
        Movement(RIB, quantity, SUPPLIER, BIN)


def test_the_most_leaves_room_for_nine_thousand_sums_in_64_bits() -> None:
    assert MOST == 10**15
    assert 2**63 // MOST == 9223


def test_a_movement_has_two_places() -> None:
    with pytest.raises(ValueError, match=r"^origin and destination are both bin B-07$"):
        Movement(RIB, 1, BIN, BIN)


def test_a_reversal_takes_a_movement_back() -> None:
    assert reversal(Movement(RIB, 3, SUPPLIER, BIN)) == Movement(RIB, 3, BIN, SUPPLIER)


def test_balances_are_sums_without_zeros() -> None:
    moves = [
        Movement(RIB, 7, SUPPLIER, BIN),
        Movement(RIB, 3, BIN, STEP),
        Movement(TUBE, 2, SUPPLIER, BIN),
        Movement(TUBE, 2, BIN, STEP),
    ]
    assert balances(moves) == {
        (SUPPLIER, RIB): -7,
        (BIN, RIB): 4,
        (STEP, RIB): 3,
        (SUPPLIER, TUBE): -2,
        (STEP, TUBE): 2,
    }


@given(
    st.lists(
        st.tuples(
            st.sampled_from([RIB, TUBE]),
            st.integers(1, MOST),
            st.permutations([SUPPLIER, BIN, STEP]),
        ),
        max_size=20,
    )
)
def test_all_places_sum_to_zero_and_reversals_leave_nothing(
    drawn: list[tuple[Item, int, list[Place]]],
) -> None:
    moves = [Movement(item, quantity, ends[0], ends[1]) for item, quantity, ends in drawn]
    assert sum(balances(moves).values()) == 0
    assert balances([*moves, *map(reversal, moves)]) == {}
