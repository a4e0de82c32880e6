"""The least cost of a cutting job if sticks could be bought in fractions: a bound, and patterns.

Column generation after Gilmore and Gomory (Operations Research 9, 1961): a linear program over
the patterns known so far, and a knapsack that finds a pattern worth more than it costs.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, gcd
from typing import TYPE_CHECKING

from inventory.core.cutting.knapsack import Knapsack
from inventory.core.cutting.model import UNCUT, Pattern, clipped, first_plan, left_uncut
from inventory.core.frozen import frozen
from inventory.core.solver import Between, Column, GrowingProgram

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Sequence

    from inventory.core.cutting.knapsack import Packed
    from inventory.core.cutting.model import CutModel

MOST_ROUNDS = 3000
_FINE = 2**40
"""Dual values are rounded down to so many parts of the largest cost."""


@frozen
class Duals:
    """What each piece is worth, in whole numbers, so that no pattern is worth more than it costs.

    They prove a lower bound whatever floats they came from.
    """

    values: tuple[int, ...]
    """Of one piece of each size, in grains of cost."""
    limits: tuple[int, ...]
    """0 or less: what one stick of each stock would be worth beyond its cost, if limited."""
    total: int
    """No plan costs less, in grains."""
    grain: int
    """So many grains are one step of cost."""

    @property
    def bound(self) -> int:
        """No plan costs less, in steps of cost."""
        return ceil(Fraction(self.total, self.grain))

    def wasted(self, model: CutModel, pattern: Pattern) -> int:
        """Return the grains a pattern costs beyond the worth of its pieces (reduced cost)."""
        worth = sum(value * count for value, count in zip(self.values, pattern.counts, strict=True))
        limit = self.limits[pattern.stock] if pattern.stock != UNCUT else 0
        return model.cost_of(pattern) * self.grain - limit - worth


@frozen
class Relaxed:
    """What a job costs if sticks could be bought in fractions."""

    patterns: tuple[Pattern, ...]
    times: tuple[float, ...]
    """How often each pattern is cut."""
    duals: Duals

    @property
    def bound(self) -> int:
        """No plan costs less, in steps of cost."""
        return self.duals.bound


def relaxed(model: CutModel, known: Iterable[Pattern]) -> Relaxed:
    """Return the relaxed plan; `known` are patterns to begin with."""
    pricing = _Pricing(model)
    begin = dict.fromkeys(
        [*clipped(known, model.wanted), *first_plan(model), *left_uncut(model.wanted)]
    )
    patterns = list(begin)
    program = GrowingProgram(pricing.rows)
    for pattern in patterns:
        program.add(pricing.column(pattern))
    times, prices = program.solve()
    better, duals = pricing.better(prices, begin)
    for _ in range(MOST_ROUNDS):
        if not better:
            break
        for pattern in better:
            program.add(pricing.column(pattern))
            begin[pattern] = None
        patterns += better
        times, prices = program.solve()
        better, now = pricing.better(prices, begin)
        duals = max(duals, now, key=lambda each: each.total)
    return Relaxed(tuple(patterns), times, duals)


class _Pricing:
    """Finds patterns that are worth more than they cost, and what no plan can go below."""

    def __init__(self, model: CutModel) -> None:
        self._model = model
        limited = {stock: there for stock, there in enumerate(model.there) if there is not None}
        self._row_of = {stock: row for row, stock in enumerate(limited, len(model.sizes))}
        self._scale = max(1, *model.costs)
        self._grain = max(1, _FINE // self._scale)
        self._open = [stock for stock, there in enumerate(model.there) if there != 0]
        self._knapsack = Knapsack(
            model.sizes,
            model.wanted,
            max((model.rooms[stock] for stock in self._open), default=0),
            gcd(*model.sizes),
        )
        wanted = (Between(low=count) for count in model.wanted)
        there = (Between(high=sticks) for sticks in limited.values())
        self.rows = [*wanted, *there]

    def column(self, pattern: Pattern) -> Column:
        """Return a pattern as an unknown of the program: how often it is cut."""
        factors = {item: float(count) for item, count in enumerate(pattern.counts) if count}
        if pattern.stock in self._row_of:
            factors[self._row_of[pattern.stock]] = 1.0
        return Column(cost=self._model.cost_of(pattern) / self._scale, factors=factors)

    def better(
        self, duals: Sequence[float], known: Container[Pattern]
    ) -> tuple[list[Pattern], Duals]:
        """Return patterns that lower the cost, and what these dual values prove."""
        items = len(self._model.sizes)
        whole = self._scale * self._grain
        values = [max(0, int(dual * whole)) for dual in duals[:items]]
        packed = self._knapsack.packed(values)
        found = []
        for stock in self._open:
            limit = duals[self._row_of[stock]] if stock in self._row_of else 0.0
            cost = self._model.costs[stock] * self._grain - int(limit * whole)
            if packed.value(self._model.rooms[stock]) > cost + whole // 10**9:
                pattern = self._pattern(packed, stock, values)
                found += [pattern] if pattern not in known else []
        return found, self._proving(values, packed)

    def _pattern(self, packed: Packed, stock: int, values: Sequence[int]) -> Pattern:
        """Return the pattern worth most; where rounding made it too long, less its poorest."""
        room = self._model.rooms[stock]
        counts = list(packed.pieces(room))
        for item in sorted(range(len(counts)), key=lambda item: values[item]):
            while counts[item] and self._model.used(counts) > room:
                counts[item] -= 1
        return Pattern(stock, tuple(counts))

    def _proving(self, values: Sequence[int], packed: Packed) -> Duals:
        """Return dual values that prove a bound (Lagrangian bound, in whole numbers).

        They are lowered together until no bought stick nor piece left uncut is worth more than
        it costs; sticks that are limited pay for what they are worth beyond that.
        """
        model, grain = self._model, self._grain
        worth = {stock: packed.value(model.rooms[stock]) for stock in self._open}
        uncut = model.uncut_cost * grain
        shares = [Fraction(uncut, value) for value in values if value > uncut]
        shares += [
            Fraction(model.costs[stock] * grain, worth[stock])
            for stock in self._open
            if model.there[stock] is None and worth[stock] > model.costs[stock] * grain
        ]
        share = min(shares, default=Fraction(1))
        lowered = tuple(int(value * share) for value in values)
        limits = [0] * len(model.rooms)
        for stock in self._open:
            beyond = model.costs[stock] * grain - ceil(worth[stock] * share)
            limits[stock] = min(0, beyond) if model.there[stock] is not None else 0
        total = sum(value * count for value, count in zip(lowered, model.wanted, strict=True))
        total += sum(limit * (there or 0) for limit, there in zip(limits, model.there, strict=True))
        return Duals(lowered, tuple(limits), total, grain)
