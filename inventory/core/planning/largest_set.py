"""The largest set of steps that can be finished together with what is on hand."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.open_needs import OpenNeed, supply_of
from inventory.core.planning.plan import NeedKind
from inventory.core.planning.set_contest import contest_of
from inventory.core.planning.set_program import best_set, relaxed_set
from inventory.core.planning.set_tasks import (
    Contest,
    Task,
    at_most,
    finished_first_come,
    lowest_first,
    reduced,
    scarcest_last,
)
from inventory.core.planning.sources import Makers, covered
from inventory.core.solver import solver_there

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Workshop

MANY_TASKS = 500
PATIENCE = 3.0
"""Seconds for improving on the sets found at once: with these, a person waits under five."""
_LEAST_SECONDS = 0.2
_MOST_REFUSED = 10
"""So often a set whose pieces don't come out of the bars is refused and another sought."""


@frozen(kw_only=True)
class LargestSet:
    """Steps that can all be finished with what is on hand, in build order."""

    steps: tuple[str, ...]
    worth: int
    """How many they are, or the sum of what the person says that each is worth."""
    at_most: int
    """No set is worth more."""
    in_order: tuple[str, ...]
    """What can be finished if every earlier step holds what it needs, for comparison."""

    @property
    def proved(self) -> bool:
        """Say whether no set is larger."""
        return self.worth == self.at_most


def largest_set(
    netting: Netting,
    workshop: Workshop,
    *,
    worth: Mapping[str, int] | None = None,
    seconds: float = PATIENCE,
) -> LargestSet:
    """Return steps that can be finished together, as many as possible (set packing).

    A step is worth 1, or what `worth` says. First two sets are found at once (in build order,
    and what is scarce last); HiGHS improves on them within the time. Without it, or where the
    time is up, `at_most` tells how much more could be possible at best.
    """
    contest = reduced(contest_of(netting, workshop, worth or {}))
    bars = _Bars(netting, workshop)
    firsts = [
        bars.kept(finished_first_come(contest, order))
        for order in (contest.tasks, scarcest_last(contest))
    ]
    best = max(firsts, key=_worth)
    limit = at_most(contest)
    if _worth(best) < limit and solver_there():
        best, limit = _improved(contest, best, bars, seconds)
    place = {step.code: number for number, step in enumerate(netting.steps)}
    return LargestSet(
        steps=tuple(sorted((task.code for task in best), key=place.__getitem__)),
        worth=_worth(best),
        at_most=limit,
        in_order=finished_in_order(netting, workshop.done),
    )


def _worth(tasks: Iterable[Task]) -> int:
    return sum(task.worth for task in tasks)


def _improved(
    contest: Contest, best: list[Task], bars: _Bars, seconds: float
) -> tuple[list[Task], int]:
    """Return the best set found, and what no set goes beyond.

    Of many tasks the relaxed program comes first: it gives a bound and a good order at once.
    """
    limit = at_most(contest)
    if len(contest.tasks) > MANY_TASKS:
        relaxed = relaxed_set(contest, seconds)
        if relaxed is not None:
            limit = min(limit, relaxed.at_most)
            order = lowest_first(contest, {code: -part for code, part in relaxed.shares.items()})
            best = max(best, bars.kept(finished_first_come(contest, order)), key=_worth)
            seconds = max(_LEAST_SECONDS, seconds - relaxed.seconds)
    never: list[frozenset[str]] = []
    while _worth(best) < limit and len(never) < _MOST_REFUSED:
        found = best_set(contest, never, seconds)
        if found is None:
            break
        limit = min(limit, found.at_most) if not never else limit
        kept = bars.kept(found.tasks)
        best = max(best, kept, key=_worth)
        if len(kept) == len(found.tasks) or _worth(best) >= found.at_most:
            break
        never.append(bars.refused(found.tasks))
    return best, limit


def finished_in_order(netting: Netting, done: frozenset[str]) -> tuple[str, ...]:
    """Return the steps that can be finished if every earlier one holds what it needs."""
    stopped = {need.need.step for need in netting.needs if need.stops}
    waits: defaultdict[str, set[str]] = defaultdict(set)
    for need in netting.needs:
        waits[need.need.step].update(maker for maker, _ in need.from_steps)
    finished: list[str] = []
    able = set(done)
    for step in netting.steps:
        before = {*step.after, *waits[step.code]}
        if step.code not in done and step.code not in stopped and before <= able:
            finished.append(step.code)
            able.add(step.code)
    return tuple(finished)


class _Bars:
    """Whether what the steps want cut comes out of single bars."""

    def __init__(self, netting: Netting, workshop: Workshop) -> None:
        self._saw = workshop.saw
        self._lines: defaultdict[str, list[OpenNeed]] = defaultdict(list)
        for need in netting.needs:
            if need.need.kind is NeedKind.CUT and need.chosen:
                self._lines[need.need.step].append(_line(need))
        self._supply = supply_of(workshop) if self._lines else {}

    def refused(self, tasks: Iterable[Task]) -> frozenset[str]:
        """Return the steps that want something cut: all of them together are too many."""
        return frozenset(task.code for task in tasks if task.code in self._lines)

    def kept(self, tasks: Iterable[Task]) -> list[Task]:
        """Return the tasks without those whose pieces don't come out, and what comes after."""
        every = list(tasks)
        lines = [line for task in every for line in self._lines.get(task.code, ())]
        if not lines:
            return every
        makers = Makers((), frozenset())
        gone = {
            line.need.step
            for line, cover in zip(
                lines, covered(lines, self._supply, makers, self._saw), strict=True
            )
            if cover.quantity < line.open
        }
        kept = []
        for task in every:
            if task.code in gone or not gone.isdisjoint(task.after):
                gone.add(task.code)
            else:
                kept.append(task)
        return kept


def _line(need: NetNeed) -> OpenNeed:
    return OpenNeed(need.need, need.issued, need.open, 0, need.pools)
