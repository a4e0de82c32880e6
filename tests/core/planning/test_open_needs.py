from __future__ import annotations

import pytest

from inventory.core.items import Hand, Item, State
from inventory.core.planning.open_needs import Pool, fitting_hands, supply_of
from inventory.core.planning.workshop import SetAside, Workshop

PIN = Pool("PIN", Hand.NONE, 0)


@pytest.mark.parametrize(
    ("need", "hands"),
    [
        (Hand.LEFT, (Hand.LEFT, Hand.EITHER)),
        (Hand.RIGHT, (Hand.RIGHT, Hand.EITHER)),
        (Hand.NONE, (Hand.NONE, Hand.EITHER)),
        (Hand.EITHER, (Hand.EITHER, Hand.NONE)),
    ],
)
def test_own_hand_first_and_never_the_other(need: Hand, hands: tuple[Hand, ...]) -> None:
    assert fitting_hands(need) == hands


def test_what_is_set_aside_stands_apart_as_far_as_it_lies_there() -> None:
    kept = SetAside("s1", Item("PIN"), 2)

    assert supply_of(Workshop(usable={Item("PIN"): 5}, set_aside=(kept,))) == {
        PIN: 3,
        PIN._replace(kept_for="s1"): 2,
    }
    assert supply_of(Workshop(usable={Item("PIN"): 1}, set_aside=(kept,))) == {
        PIN: 0,
        PIN._replace(kept_for="s1"): 1,
    }
    assert supply_of(Workshop(set_aside=(kept,))) == {}


def test_worked_pieces_are_neither_supply_nor_set_aside_as_new_ones() -> None:
    worked = Item("PIN", state=State.WORKED)
    workshop = Workshop(usable={Item("PIN"): 5, worked: 2}, set_aside=(SetAside("s1", worked, 2),))

    assert supply_of(workshop) == {PIN: 5}
