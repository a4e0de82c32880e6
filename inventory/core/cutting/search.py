"""Every pattern that a cutting plan of a given cost can hold."""

from __future__ import annotations

from math import gcd
from typing import TYPE_CHECKING

from inventory.core.cutting.knapsack import Knapsack
from inventory.core.cutting.model import Pattern

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.cutting.columns import Duals
    from inventory.core.cutting.knapsack import AtMost
    from inventory.core.cutting.model import CutModel

_STEPS_EACH = 8
"""The search may take so many steps for each pattern that is allowed."""


def patterns_within(model: CutModel, duals: Duals, target: int, most: int) -> list[Pattern] | None:
    """Return all patterns that a plan of at most `target` can hold; None if there are too many.

    A pattern that costs more than its pieces are worth, by more than lies between the bound and
    the target, is in no such plan (reduced cost). Patterns with room for a piece more are left
    out: with it they do the same.
    """
    room = max((model.rooms[n] for n, there in enumerate(model.there) if there != 0), default=0)
    knapsack = Knapsack(model.sizes, model.wanted, room, gcd(*model.sizes))
    bounds = knapsack.at_most(duals.values)
    slack = target * duals.grain - duals.total
    found: list[Pattern] = []
    for stock, there in enumerate(model.there):
        if there != 0:
            least = model.costs[stock] * duals.grain - duals.limits[stock] - slack
            search = _Search(model, duals.values, bounds, least)
            if not search.run(model.rooms[stock], most - len(found)):
                return None
            found += [Pattern(stock, counts) for counts in search.found]
    return found


class _Search:
    """Depth first over the sizes, the longest first, pruned by what the rest can be worth."""

    def __init__(self, model: CutModel, values: Sequence[int], bounds: AtMost, least: int) -> None:
        self._sizes = model.sizes
        self._wanted = model.wanted
        self._values = values
        self._bounds = bounds
        self._least = least
        self._counts = [0] * len(model.sizes)
        self._most = 0
        self._steps = 0
        self.found: list[tuple[int, ...]] = []

    def run(self, room: int, most: int) -> bool:
        """Find all patterns in this room; return False if there are too many."""
        self._most = most
        self._steps = _STEPS_EACH * max(most, 1)
        return self._extend(0, room, 0)

    def _extend(self, first: int, room: int, value: int) -> bool:
        """Take what is chosen as a pattern, then with more of the sizes from `first` on."""
        self._steps -= 1
        if value >= self._least and not self._takes_more(room):
            self.found.append(tuple(self._counts))
        if len(self.found) > self._most or self._steps < 0:
            return False
        for item in range(first, len(self._sizes)):
            if value + self._bounds.value(item, room) < self._least:
                break
            size = self._sizes[item]
            for count in range(1, min(self._wanted[item], room // size) + 1):
                self._counts[item] = count
                more = value + count * self._values[item]
                if not self._extend(item + 1, room - count * size, more):
                    return False
            self._counts[item] = 0
        return True

    def _takes_more(self, room: int) -> bool:
        """Say whether there is room for a piece more, looking at the shortest first."""
        for item in reversed(range(len(self._sizes))):
            if self._sizes[item] > room:
                return False
            if self._counts[item] < self._wanted[item]:
                return True
        return False
