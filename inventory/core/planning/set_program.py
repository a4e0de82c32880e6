"""The best set of tasks as a program in whole numbers."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from math import floor, inf
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.solver import Between, Column, least

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from inventory.core.planning.set_tasks import Claim, Contest, Task


class BestSet(NamedTuple):
    """Tasks that can be finished together, and a worth that no set goes beyond."""

    tasks: tuple[Task, ...]
    at_most: int


def best_set(contest: Contest, never: Sequence[frozenset[str]], seconds: float) -> BestSet | None:
    """Return the tasks of most worth that can be finished together; None if none was found.

    Of each set in `never` at least one task is left out.
    """
    program = _Program(contest, never)
    solved = least(program.columns(), program.rows, seconds)
    chosen = tuple(
        task
        for task, value in zip(contest.tasks, solved.values, strict=False)
        if value > 0.5  # noqa: PLR2004  it is 0 or 1, but for the solver's tolerance
    )
    return BestSet(chosen, floor(1e-6 - solved.bound)) if solved.values else None


class RelaxedSet(NamedTuple):
    """Tasks that could be done in part: what is done wholly here mostly is in the best set."""

    shares: dict[str, float]
    at_most: int
    seconds: float
    """That it took."""


def relaxed_set(contest: Contest, seconds: float) -> RelaxedSet | None:
    """Return how much of each task is done if tasks could be done in part; None if out of time."""
    program = _Program(contest, ())
    columns = [replace(column, whole=False) for column in program.columns()]
    solved = least(columns, program.rows, seconds)
    if not solved.proved:
        return None
    shares = dict(zip((task.code for task in contest.tasks), solved.values, strict=False))
    return RelaxedSet(shares, floor(1e-6 - solved.cost), solved.seconds)


class _Program:
    """A column for each task, then one for each choice among claims and sources.

    Rows: a task only with those before it; a stock not beyond what is there and made; a claim
    met wholly if its task is finished.
    """

    def __init__(self, contest: Contest, never: Sequence[frozenset[str]]) -> None:
        self.rows: list[Between] = []
        self._places = {task.code: place for place, task in enumerate(contest.tasks)}
        self._tasks = [
            (float(-task.worth), defaultdict[int, float](float)) for task in contest.tasks
        ]
        self._more: list[Column] = []
        self._stocks: dict[Hashable, int] = {}
        self._supply = contest.supply
        for place, task in enumerate(contest.tasks):
            self._order(place, task)
            for group in task.claims:
                self._group(place, group)
        for place, task in enumerate(contest.tasks):
            for stock in task.makes:
                if stock in self._stocks:
                    self._tasks[place][1][self._stocks[stock]] -= 1.0
        for together in never:
            row = self._row(Between(high=len(together) - 1))
            for code in together:
                self._tasks[self._places[code]][1][row] += 1.0

    def columns(self) -> list[Column]:
        """Return all columns, the tasks first."""
        tasks = [Column(cost=cost, high=1, whole=True, factors=of) for cost, of in self._tasks]
        return tasks + self._more

    def _row(self, between: Between) -> int:
        self.rows.append(between)
        return len(self.rows) - 1

    def _order(self, place: int, task: Task) -> None:
        for code in task.after:
            if code in self._places:
                row = self._row(Between(high=0))
                self._tasks[place][1][row] += 1.0
                self._tasks[self._places[code]][1][row] -= 1.0

    def _group(self, place: int, group: Sequence[Claim]) -> None:
        if len(group) == 1:
            self._claim(group[0], self._tasks[place][1])
            return
        row = self._row(Between(low=0, high=0))
        self._tasks[place][1][row] -= 1.0
        for claim in group:
            chosen = defaultdict[int, float](float, {row: 1.0})
            self._claim(claim, chosen)
            self._more.append(Column(high=1, whole=True, factors=chosen))

    def _claim(self, claim: Claim, whole: defaultdict[int, float]) -> None:
        """Let what takes the claim wholly draw on its sources."""
        if len(claim.sources) == 1:
            whole[self._stock(claim.sources[0].stock)] += claim.quantity * claim.sources[0].each
            return
        row = self._row(Between(low=0, high=0))
        whole[row] -= claim.quantity
        for source in claim.sources:
            drawn = {row: 1.0, self._stock(source.stock): float(source.each)}
            self._more.append(Column(high=inf, whole=True, factors=drawn))

    def _stock(self, stock: Hashable) -> int:
        row = self._stocks.get(stock)
        if row is None:
            row = self._stocks[stock] = self._row(Between(high=self._supply.get(stock, 0)))
        return row
