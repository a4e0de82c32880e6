"""Steps that compete for scarce stock: what each would take, and what may be left out at once."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from heapq import heapify, heappop, heappush
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence


class Source(NamedTuple):
    """A stock that a claim may draw on, and how much of it one piece takes."""

    stock: Hashable
    each: int = 1


class Claim(NamedTuple):
    """So many pieces from any of these sources together."""

    quantity: int
    sources: tuple[Source, ...]


@frozen(kw_only=True)
class Task:
    """A step that can be finished or not."""

    code: str
    worth: int = 1
    after: tuple[str, ...] = ()
    """Steps that must be finished too."""
    claims: tuple[tuple[Claim, ...], ...] = ()
    """Of each of these groups one claim must be met wholly."""
    makes: tuple[Hashable, ...] = ()
    """Stocks that get one piece more when it is finished."""


@frozen
class Contest:
    """Tasks in build order, and the stock they compete for."""

    tasks: tuple[Task, ...]
    supply: Mapping[Hashable, int]


def reduced(contest: Contest) -> Contest:
    """Return the same contest without tasks that can't be finished and claims that can be met.

    A task goes if it couldn't be finished with the whole stock to itself, and with it all that
    comes after. A claim goes if some stock suffices for all that might ever be claimed from it.
    """
    while True:
        tasks = _without_blocked(contest.tasks, contest.supply)
        tasks = _without_met(tasks, contest.supply)
        if tasks == contest.tasks:
            return contest
        contest = Contest(tasks, contest.supply)


def _without_blocked(tasks: Sequence[Task], supply: Mapping[Hashable, int]) -> tuple[Task, ...]:
    most = Counter(supply)
    for task in tasks:
        most.update(task.makes)
    gone: set[str] = set()
    kept = []
    for task in tasks:
        if gone.isdisjoint(task.after) and all(_some(group, most) for group in task.claims):
            kept.append(task)
        else:
            gone.add(task.code)
    return tuple(kept)


def _some(group: Iterable[Claim], supply: Mapping[Hashable, int]) -> bool:
    """Say whether one claim of a group could be met if nobody else claimed anything."""
    return any(
        sum(supply.get(source.stock, 0) // source.each for source in claim.sources)
        >= claim.quantity
        for claim in group
    )


def _without_met(tasks: Sequence[Task], supply: Mapping[Hashable, int]) -> tuple[Task, ...]:
    asked: Counter[Hashable] = Counter()
    for task in tasks:
        for group in task.claims:
            asked.update(_most_asked(group))
    ample = {stock for stock, quantity in asked.items() if quantity <= supply.get(stock, 0)}
    if not ample:
        return tuple(tasks)
    return tuple(
        replace(task, claims=tuple(group for group in task.claims if not _meets(group, ample)))
        if task.claims
        else task
        for task in tasks
    )


def _most_asked(group: Iterable[Claim]) -> dict[Hashable, int]:
    most: dict[Hashable, int] = {}
    for claim in group:
        for source in claim.sources:
            asked = claim.quantity * source.each
            most[source.stock] = max(asked, most.get(source.stock, 0))
    return most


def _meets(group: Iterable[Claim], ample: set[Hashable]) -> bool:
    return any(source.stock in ample for claim in group for source in claim.sources)


def at_most(contest: Contest) -> int:
    """Return a worth that no set of tasks goes beyond: what the scarcest stock allows.

    For each stock by itself: tasks that need none of it, and of the others those that get most
    done for it, the last one in part (the relaxed knapsack of Dantzig 1957).
    """
    everything = sum(task.worth for task in contest.tasks)
    made = Counter(stock for task in contest.tasks for stock in task.makes)
    eaters: defaultdict[Hashable, list[tuple[int, int]]] = defaultdict(list)
    for task in contest.tasks:
        for stock, quantity in _surely_taken(task).items():
            eaters[stock].append((quantity, task.worth))
    return min(
        (
            everything - sum(worth for _, worth in of) + _most_worth(of, there)
            for stock, of in eaters.items()
            for there in [contest.supply.get(stock, 0) + made[stock]]
        ),
        default=everything,
    )


def _surely_taken(task: Task) -> Counter[Hashable]:
    """Return what a task takes for which it has no choice."""
    taken: Counter[Hashable] = Counter()
    for group in task.claims:
        if len(group) == 1 and len(group[0].sources) == 1:
            source = group[0].sources[0]
            taken[source.stock] += group[0].quantity * source.each
    return taken


def _most_worth(eaters: Iterable[tuple[int, int]], there: int) -> int:
    worth = 0
    for quantity, each in sorted(eaters, key=lambda pair: -pair[1] / pair[0]):
        if quantity > there:
            return worth + each * there // quantity
        there -= quantity
        worth += each
    return worth


def finished_first_come(contest: Contest, order: Iterable[Task]) -> list[Task]:
    """Return the tasks that are finished if each takes, in this order, what it can get."""
    left = Counter(contest.supply)
    finished: dict[str, Task] = {}
    for task in order:
        if all(code in finished for code in task.after):
            taken = _taken(task, left)
            if taken is not None:
                left.subtract(taken)
                left.update(task.makes)
                finished[task.code] = task
    return list(finished.values())


def _taken(task: Task, left: Mapping[Hashable, int]) -> Counter[Hashable] | None:
    """Return what a task takes of each stock; None if it can't be finished with what is left."""
    taken: Counter[Hashable] = Counter()
    for group in task.claims:
        for claim in group:
            share = _share(claim, left, taken)
            if share is not None:
                taken.update(share)
                break
        else:
            return None
    return taken


def _share(
    claim: Claim, left: Mapping[Hashable, int], taken: Mapping[Hashable, int]
) -> Counter[Hashable] | None:
    share: Counter[Hashable] = Counter()
    rest = claim.quantity
    for source in claim.sources:
        there = left.get(source.stock, 0) - taken.get(source.stock, 0) - share[source.stock]
        pieces = min(rest, there // source.each)
        share[source.stock] += pieces * source.each
        rest -= pieces
    return None if rest else share


def scarcest_last(contest: Contest) -> list[Task]:
    """Return the tasks with those first that take the smallest part of what is scarce."""
    return lowest_first(
        contest,
        {
            task.code: sum(
                min(_part(claim, contest.supply) for claim in group) for group in task.claims
            )
            for task in contest.tasks
        },
    )


def lowest_first(contest: Contest, rank: Mapping[str, float]) -> list[Task]:
    """Return the tasks by rank, but each after all that must come before it."""
    place = {task.code: number for number, task in enumerate(contest.tasks)}
    waits = {task.code: sum(code in place for code in task.after) for task in contest.tasks}
    later: defaultdict[str, list[Task]] = defaultdict(list)
    for task in contest.tasks:
        for code in task.after:
            later[code].append(task)
    ready = [(rank[task.code], place[task.code]) for task in contest.tasks if not waits[task.code]]
    heapify(ready)
    order = []
    while ready:
        task = contest.tasks[heappop(ready)[1]]
        order.append(task)
        for next_task in later[task.code]:
            waits[next_task.code] -= 1
            if not waits[next_task.code]:
                heappush(ready, (rank[next_task.code], place[next_task.code]))
    return order


def _part(claim: Claim, supply: Mapping[Hashable, int]) -> float:
    there = sum(supply.get(source.stock, 0) for source in claim.sources)
    return claim.quantity / max(1, there)
