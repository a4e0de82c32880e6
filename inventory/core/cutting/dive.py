"""Whole plans out of relaxed ones: sure sticks are settled, the rest is relaxed again."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from math import ceil, floor, inf
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.cutting.columns import relaxed
from inventory.core.cutting.model import UNCUT, Pattern, clipped, covers, left_uncut
from inventory.core.cutting.search import patterns_within
from inventory.core.frozen import frozen
from inventory.core.solver import Between, Column, least

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator

    from inventory.core.cutting.columns import Relaxed
    from inventory.core.cutting.model import CutModel

MOST_PATTERNS = 4000
"""Up to so many patterns are given to the solver at once, for the whole job."""
FEWER_PATTERNS = 1000
"""The same for what is left of it, where the question is asked again and again."""
FEW_PIECES = 40
NEAR_PATTERNS = 60
NEAR_SECONDS = 0.1
"""For a first look among the patterns nearest to the relaxed plan: in most jobs it suffices."""
LEAST_SECONDS = 0.05
"""What a search by the solver gets even where the time is used up."""


class Found(NamedTuple):
    """A plan within the target, or None, and a cost that no plan within it can go below."""

    plan: Counter[Pattern] | None
    bound: int
    """One more than the target where there is certainly no plan within it."""


@dataclass(slots=True)
class Effort:
    """How much may still be tried."""

    relaxations: int
    seconds: float
    """Of the solver for whole plans, all together."""


@frozen
class Aim:
    """A plan is to cost at most `target`; one that costs no more than `enough` will do."""

    target: int
    enough: int

    def less(self, cost: int) -> Aim:
        """Return what is left to aim at when so much is spent."""
        return Aim(self.target - cost, self.enough - cost)


def plan_within(
    model: CutModel, now: Relaxed, aim: Aim, effort: Effort, most: int = MOST_PATTERNS
) -> Found:
    """Look for a plan that costs at most the target.

    First among the patterns that are known. Then, where few patterns can be in such a plan, all
    of them go to the solver, which finds it or proves that there is none. Else the sticks that
    the relaxed plan cuts whole are kept, and the same is asked of the rest; if that leads
    nowhere, with the next likely stick.
    """
    if now.bound > aim.target:
        return Found(None, aim.target + 1)
    if not model.pieces:
        return Found(Counter(), 0)
    known = most == MOST_PATTERNS or model.pieces <= FEW_PIECES
    at_once = _among_known(model, now, aim, effort) if known else None
    if at_once is not None:
        return Found(at_once, now.bound)
    patterns = patterns_within(model, now.duals, aim.target, most)
    if patterns is not None:
        return _whole(model, now, patterns, aim, effort)
    return _dived(model, now, aim, effort)


def _dived(model: CutModel, now: Relaxed, aim: Aim, effort: Effort) -> Found:
    """Keep likely sticks and look for a plan of the rest."""
    for kept in _likely(model, now):
        if effort.relaxations <= 0 or effort.seconds <= 0:
            break
        effort.relaxations -= 1
        rest = model.without(kept)
        again = relaxed(rest, _usable(now.patterns, rest))
        below = plan_within(rest, again, aim.less(model.cost(kept)), effort, FEWER_PATTERNS)
        if below.plan is not None:
            return Found(kept + below.plan, now.bound)
    return Found(None, now.bound)


def _likely(model: CutModel, now: Relaxed) -> Iterator[Counter[Pattern]]:
    """Yield what to keep first: the sticks cut whole, else one that is nearly, then the next."""
    sure = [
        (pattern, floor(times + 1e-6))
        for pattern, times in zip(now.patterns, now.times, strict=True)
        if times >= 1 - 1e-6
    ]
    if sure:
        yield _still_wanted(model, sure)
    ranked = sorted(
        zip(now.times, now.patterns, strict=True), key=lambda pair: pair[0] % 1, reverse=True
    )
    for _, pattern in ranked[:2]:
        yield _still_wanted(model, [(pattern, 1)])


def _still_wanted(model: CutModel, sure: Iterable[tuple[Pattern, int]]) -> Counter[Pattern]:
    """Return these sticks without the pieces of them that are more than wanted."""
    kept: Counter[Pattern] = Counter()
    rest = model
    for pattern, times in sure:
        for _ in range(times):
            for fitting in clipped([pattern], rest.wanted):
                kept[fitting] += 1
                rest = rest.without({fitting: 1})
    return kept


def _usable(patterns: Iterable[Pattern], model: CutModel) -> list[Pattern]:
    """Return what is left of the patterns where pieces and sticks are gone."""
    return [
        pattern
        for pattern in sorted(clipped(patterns, model.wanted))
        if pattern.stock == UNCUT or model.there[pattern.stock] != 0
    ]


def _among_known(
    model: CutModel, now: Relaxed, aim: Aim, effort: Effort
) -> Counter[Pattern] | None:
    """Return a plan within the target of the patterns nearest to the relaxed plan, if one is."""
    sticks = (pattern for pattern in now.patterns if pattern.stock != UNCUT)
    near = sorted(sticks, key=lambda pattern: now.duals.wasted(model, pattern))[:NEAR_PATTERNS]
    short = Effort(0, min(NEAR_SECONDS, effort.seconds))
    return _whole(model, now, near, aim, short).plan


def _whole(
    model: CutModel, now: Relaxed, patterns: Iterable[Pattern], aim: Aim, effort: Effort
) -> Found:
    """Return the cheapest plan of these patterns, which hold every plan within the target."""
    columns = [*patterns, *left_uncut(model.wanted)]
    solved = least(
        [_column(model, pattern) for pattern in columns],
        [
            *(Between(low=count) for count in model.wanted),
            *(Between(high=inf if there is None else there) for there in model.there),
        ],
        max(effort.seconds, LEAST_SECONDS),
        enough=aim.enough + 0.5,
    )
    effort.seconds -= solved.seconds
    plan: Counter[Pattern] = Counter()
    for pattern, times in zip(columns, solved.values, strict=bool(solved.values)):
        if round(times):
            plan[pattern] = round(times)
    bound = ceil(min(aim.target + 1, max(now.bound, solved.bound)) - 1e-6)
    if solved.values and covers(model, plan) and model.cost(plan) <= aim.target:
        return Found(plan, min(bound, model.cost(plan)))
    return Found(None, bound)


def _column(model: CutModel, pattern: Pattern) -> Column:
    factors = {item: float(count) for item, count in enumerate(pattern.counts) if count}
    if pattern.stock != UNCUT:
        factors[len(model.sizes) + pattern.stock] = 1.0
    return Column(cost=model.cost_of(pattern), whole=True, factors=factors)
