"""Of cutting plans that cost the same, a tidy one: remnants first, a long rest, few patterns."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.cutting.job import Owned
from inventory.core.cutting.model import UNCUT, Pattern, covers
from inventory.core.frozen import frozen
from inventory.core.solver import Between, Column, least

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.cutting.model import CutModel

_MOST_PATTERNS = 60
_SECONDS = 0.08
_BARS_LATER = 2
"""A length of bar that lies there weighs as much as twice that of remnant."""
_EACH_PATTERN = 0.001
"""A pattern more weighs as much as this share of the longest stick left over."""


def tidied(model: CutModel, plan: Counter[Pattern], known: Iterable[Pattern]) -> Counter[Pattern]:
    """Return a plan that costs no more and is tidier, as far as a short search finds one.

    First little of what is owned is touched, remnants before bars; then the longest single rest
    is made long, and patterns few.
    """
    others = [*_moved(model, plan), *(each for each in known if each.stock != UNCUT)]
    columns = tuple(dict.fromkeys([*plan, *others]))[: max(_MOST_PATTERNS, len(plan))]
    touched = tuple(_touched(model, pattern) for pattern in columns)
    search = _Search(model, columns, touched)
    return search.long_rest(search.least_touched(plan))


def _moved(model: CutModel, plan: Counter[Pattern]) -> Iterator[Pattern]:
    """Yield the patterns of a plan on every other stick that lies there and is long enough."""
    for pattern in plan:
        used = model.used(pattern.counts)
        for stock, owned in enumerate(model.owned):
            if owned is not Owned.TO_BUY and model.rooms[stock] >= used and pattern.stock != UNCUT:
                yield Pattern(stock, pattern.counts)


def _touched(model: CutModel, pattern: Pattern) -> int:
    """Return how much of what is owned one stick cut so takes."""
    if pattern.stock == UNCUT or model.owned[pattern.stock] is Owned.TO_BUY:
        return 0
    bar = model.owned[pattern.stock] is Owned.BAR
    return model.rooms[pattern.stock] * (_BARS_LATER if bar else 1)


@frozen
class _Search:
    model: CutModel
    columns: tuple[Pattern, ...]
    touched: tuple[int, ...]

    def spent(self, plan: Counter[Pattern]) -> int:
        """Return how much of what is owned a plan touches."""
        weights = zip(self.columns, self.touched, strict=True)
        return sum(weight * plan[pattern] for pattern, weight in weights)

    def longest(self, plan: Counter[Pattern]) -> int:
        """Return the longest single rest of a plan."""
        return max((self._rest(pattern) for pattern in plan), default=0)

    def _rest(self, pattern: Pattern) -> int:
        if pattern.stock == UNCUT:
            return 0
        return self.model.rooms[pattern.stock] - self.model.used(pattern.counts)

    def least_touched(self, plan: Counter[Pattern]) -> Counter[Pattern]:
        """Return a plan that touches less of what is owned, if one is found."""
        if not self.spent(plan):
            return plan
        scale = max(self.touched)
        columns = self._columns(plan, [weight / scale for weight in self.touched])
        found = self._found(columns, self._rows(plan), plan)
        return found if self.spent(found) < self.spent(plan) else plan

    def long_rest(self, plan: Counter[Pattern]) -> Counter[Pattern]:
        """Return a plan with a longer longest rest, or as long a one and fewer patterns."""
        rows = self._rows(plan)
        count, first = len(self.columns), len(rows)
        longest = max(self.model.rooms)
        columns = self._columns(plan, [0.0] * count)
        for place, column in enumerate(columns):
            columns[place] = self._linked(column, first + 2 * place)
        chosen = first + 2 * count
        for place, pattern in enumerate(self.columns):
            of_rest = {first + 2 * place: -1.0, chosen: 1.0}
            cost = -self._rest(pattern) / longest
            columns.append(Column(cost=cost, high=1, whole=True, factors=of_rest))
        most = float(self.model.pieces)
        for place in range(count):
            in_use = {first + 2 * place + 1: most}
            columns.append(Column(cost=_EACH_PATTERN, high=1, whole=True, factors=in_use))
        rows += [Between(low=0)] * (2 * count) + [Between(low=1, high=1)]
        found = self._found(columns, rows, plan)
        merit = (self.longest(found), -len(found))
        return found if merit > (self.longest(plan), -len(plan)) else plan

    def _linked(self, column: Column, row: int) -> Column:
        """Tie how often a pattern is cut to whether its rest is the longest, and to its use."""
        return Column(
            cost=column.cost,
            high=column.high,
            whole=True,
            factors={**column.factors, row: 1.0, row + 1: -1.0},
        )

    def _columns(self, plan: Counter[Pattern], weights: Sequence[float]) -> list[Column]:
        sizes, stocks = len(self.model.sizes), len(self.model.rooms)
        columns = []
        for pattern, weight, touched in zip(self.columns, weights, self.touched, strict=True):
            factors = {item: float(count) for item, count in enumerate(pattern.counts) if count}
            if pattern.stock != UNCUT:
                factors[sizes + pattern.stock] = 1.0
            factors[sizes + stocks] = self.model.cost_of(pattern) / self._scale(plan)
            factors[sizes + stocks + 1] = touched / max(1, *self.touched)
            high = float(self.model.pieces)
            columns.append(Column(cost=weight, high=high, whole=True, factors=factors))
        return columns

    def _rows(self, plan: Counter[Pattern]) -> list[Between]:
        """Every piece, no more sticks than are there, no dearer, and nothing more touched."""
        there = (float("inf") if there is None else there for there in self.model.there)
        return [
            *(Between(low=count) for count in self.model.wanted),
            *(Between(high=high) for high in there),
            Between(high=self.model.cost(plan) / self._scale(plan)),
            Between(high=self.spent(plan) / max(1, *self.touched)),
        ]

    def _scale(self, plan: Counter[Pattern]) -> float:
        return float(max(1, self.model.cost(plan)))

    def _found(
        self, columns: Sequence[Column], rows: Sequence[Between], plan: Counter[Pattern]
    ) -> Counter[Pattern]:
        """Return the solver's plan if it holds in whole numbers, else the one that is known."""
        values = least(columns, rows, _SECONDS).values[: len(self.columns)]
        found = Counter(
            {
                pattern: round(times)
                for pattern, times in zip(self.columns, values, strict=bool(values))
                if round(times)
            }
        )
        holds = (
            bool(values)
            and covers(self.model, found)
            and self.model.cost(found) <= self.model.cost(plan)
            and self.spent(found) <= self.spent(plan)
        )
        return found if holds else plan


def without_surplus(model: CutModel, plan: Counter[Pattern]) -> list[tuple[int, tuple[int, ...]]]:
    """Return each stick's stock and pieces, without pieces beyond what is wanted.

    They are left on the stick that then has the longest rest.
    """
    sticks = [
        (pattern.stock, list(pattern.counts))
        for pattern, times in sorted(plan.items())
        if pattern.stock != UNCUT
        for _ in range(times)
    ]
    given = [sum(counts[item] for _, counts in sticks) for item in range(len(model.sizes))]
    for item, size in enumerate(model.sizes):
        for _ in range(given[item] - model.wanted[item]):
            having = [stick for stick in sticks if stick[1][item]]
            longest = max(
                having, key=lambda stick: model.rooms[stick[0]] - model.used(stick[1]) + size
            )
            longest[1][item] -= 1
    return [(stock, tuple(counts)) for stock, counts in sticks if any(counts)]
