"""A cutting job as numbers: sizes with the kerf in them, rooms, costs, and patterns."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from math import gcd
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.cutting.job import CutJob, Owned

UNCUT = -1
"""The stock of a pattern that is no stick: pieces that are left uncut."""


class Pattern(NamedTuple):
    """How many of each size one stick of a stock gives."""

    stock: int
    counts: tuple[int, ...]


@frozen(kw_only=True)
class CutModel:
    """Sizes and rooms in nanometres, kerf included; the longest size first."""

    sizes: tuple[int, ...]
    wanted: tuple[int, ...]
    rooms: tuple[int, ...]
    costs: tuple[int, ...]
    """In steps of the greatest common divisor of all costs, so that bounds round up well."""
    there: tuple[int | None, ...]
    """How many sticks there are; None where any number can be bought."""
    places: tuple[tuple[int, ...], ...]
    """Which entries of the job's stock each of these is."""
    owned: tuple[Owned, ...]
    cost_step: int
    uncut_cost: int
    """Of one piece left uncut: more than everything that could be bought."""

    @property
    def pieces(self) -> int:
        """How many pieces are wanted in all."""
        return sum(self.wanted)

    def cost_of(self, pattern: Pattern) -> int:
        """Return what one stick cut so costs."""
        if pattern.stock == UNCUT:
            return self.uncut_cost * sum(pattern.counts)
        return self.costs[pattern.stock]

    def cost(self, plan: Mapping[Pattern, int]) -> int:
        """Return what a plan costs."""
        return sum(self.cost_of(pattern) * times for pattern, times in plan.items())

    def used(self, counts: Sequence[int]) -> int:
        """Return the room that a pattern takes."""
        return sum(size * count for size, count in zip(self.sizes, counts, strict=True) if count)

    def without(self, plan: Mapping[Pattern, int]) -> CutModel:
        """Return what is still wanted, and still there, when these sticks are cut."""
        wanted, there = list(self.wanted), list(self.there)
        for pattern, times in plan.items():
            for item, count in enumerate(pattern.counts):
                wanted[item] = max(0, wanted[item] - count * times)
            left = there[pattern.stock] if pattern.stock != UNCUT else None
            if left is not None:
                there[pattern.stock] = left - times
        return replace(self, wanted=tuple(wanted), there=tuple(there))


def model_of(job: CutJob) -> CutModel:
    """Return the numbers of a job; pieces of one length are one size, like sticks one stock."""
    wanted: Counter[int] = Counter()
    for piece in job.pieces:
        wanted[piece.length + job.saw.kerf] += piece.quantity
    alike: defaultdict[tuple[int, int, Owned], list[int]] = defaultdict(list)
    for place, stock in enumerate(job.stock):
        alike[job.room(stock), job.cost(stock), stock.owned].append(place)
    sizes = tuple(sorted(wanted, reverse=True))
    step = gcd(*(cost for _, cost, _ in alike)) or 1
    costs = tuple(cost // step for _, cost, _ in alike)
    return CutModel(
        sizes=sizes,
        wanted=tuple(wanted[size] for size in sizes),
        rooms=tuple(room for room, _, _ in alike),
        costs=costs,
        there=tuple(_there([job.stock[place].quantity for place in of]) for of in alike.values()),
        places=tuple(map(tuple, alike.values())),
        owned=tuple(owned for _, _, owned in alike),
        cost_step=step,
        uncut_cost=1 + max(costs) * sum(wanted.values()),
    )


def _there(quantities: Sequence[int | None]) -> int | None:
    known = [quantity for quantity in quantities if quantity is not None]
    return sum(known) if len(known) == len(quantities) else None


def covers(model: CutModel, plan: Counter[Pattern]) -> bool:
    """Say whether a plan gives every piece, from sticks that are there and long enough."""
    rest = model.without(plan)
    fits = all(
        pattern.stock == UNCUT or model.used(pattern.counts) <= model.rooms[pattern.stock]
        for pattern in plan
    )
    return fits and not rest.pieces and all(there is None or there >= 0 for there in rest.there)


def first_plan(model: CutModel) -> Counter[Pattern]:
    """Return a plan found at once: longest first, sticks that lie there before bought ones.

    First fit decreasing, once for each length sold as the one to buy; the cheapest is taken. It
    needs at most 11/9 of the least number of bars, and 6/9 of a bar (Dósa 2007), where all bars
    are alike.
    """
    to_buy = [stock for stock, cost in enumerate(model.costs) if cost]
    plans = (_first_fit(model, stock) for stock in to_buy or [UNCUT])
    return min(plans, key=model.cost)


def _first_fit(model: CutModel, to_buy: int) -> Counter[Pattern]:
    there = list(model.there)
    sticks: list[tuple[int, list[int]]] = []
    rooms: list[int] = []
    uncut = [0] * len(model.sizes)
    for item, size in enumerate(model.sizes):
        for _ in range(model.wanted[item]):
            place = next((n for n, room in enumerate(rooms) if room >= size), None)
            if place is None:
                stock = _opened(model, size, there, to_buy)
                if stock == UNCUT:
                    uncut[item] += 1
                    continue
                place = len(rooms)
                sticks.append((stock, [0] * len(model.sizes)))
                rooms.append(model.rooms[stock])
            rooms[place] -= size
            sticks[place][1][item] += 1
    plan = Counter(
        Pattern(_cheapest(model, stock, counts), tuple(counts)) for stock, counts in sticks
    )
    return plan + left_uncut(uncut)


def left_uncut(counts: Sequence[int]) -> Counter[Pattern]:
    """Return the pieces left uncut as patterns of one piece each."""
    every: Counter[Pattern] = Counter()
    for item, count in enumerate(counts):
        if count:
            single = tuple(int(other == item) for other in range(len(counts)))
            every[Pattern(UNCUT, single)] = count
    return every


def _opened(model: CutModel, size: int, there: list[int | None], to_buy: int) -> int:
    """Take another stick: remnants, then bars that lie there, then the one to buy; short first."""
    fitting = [
        stock for stock, room in enumerate(model.rooms) if room >= size and there[stock] != 0
    ]
    if not fitting:
        return UNCUT
    stock = min(
        fitting, key=lambda stock: (model.owned[stock], stock != to_buy, model.rooms[stock])
    )
    left = there[stock]
    if left is not None:
        there[stock] = left - 1
    return stock


def _cheapest(model: CutModel, stock: int, counts: Sequence[int]) -> int:
    """Return the cheapest stock that any number can be bought of and that takes these pieces."""
    if not model.costs[stock]:
        return stock
    used = model.used(counts)
    sold = (
        other
        for other, room in enumerate(model.rooms)
        if room >= used and model.there[other] is None
    )
    return min(sold, key=lambda other: model.costs[other], default=stock)


def clipped(patterns: Iterable[Pattern], wanted: Sequence[int]) -> set[Pattern]:
    """Return the patterns without pieces that nobody wants any more."""
    every = {
        Pattern(
            pattern.stock,
            tuple(min(count, most) for count, most in zip(pattern.counts, wanted, strict=True)),
        )
        for pattern in patterns
    }
    return {pattern for pattern in every if any(pattern.counts)}
