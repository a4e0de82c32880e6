"""The ledger: pieces move from one place to another, and nothing is ever taken back out."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.items import Item
    from inventory.core.places import Place

MOST = 10**15
"""The largest quantity of one movement; sums then stay far inside 64 bits."""


@frozen
class Movement:
    """A positive quantity of one item, from one place to another."""

    item: Item
    quantity: int
    """Pieces, or the smallest unit of the part's measure."""
    origin: Place
    destination: Place

    def __post_init__(self) -> None:
        """Refuse what can't be a movement; the jobs check before with better words."""
        if not 0 < self.quantity <= MOST:
            raise ValueError(f"quantity must be 1 to {MOST}, not {self.quantity}")
        if self.origin == self.destination:
            raise ValueError(f"origin and destination are both {self.origin}")


def reversal(movement: Movement) -> Movement:
    """Return the movement that takes this one back."""
    return Movement(movement.item, movement.quantity, movement.destination, movement.origin)


def balances(movements: Iterable[Movement]) -> Mapping[tuple[Place, Item], int]:
    """Return how much of each item lies in each place; zeros are left out."""
    sums: Counter[tuple[Place, Item]] = Counter()
    for movement in movements:
        sums[movement.origin, movement.item] -= movement.quantity
        sums[movement.destination, movement.item] += movement.quantity
    return {key: quantity for key, quantity in sums.items() if quantity}
