"""The cutting plan of a job: least bought, then tidy, and how sure it is."""

from __future__ import annotations

from collections import defaultdict
from itertools import cycle, repeat
from typing import TYPE_CHECKING

from inventory.core.cutting.columns import relaxed
from inventory.core.cutting.dive import Aim, Effort, plan_within
from inventory.core.cutting.job import CutPiece, CutPlan, CutStick, check_cut_job
from inventory.core.cutting.knapsack import lots
from inventory.core.cutting.model import first_plan, model_of
from inventory.core.cutting.tidy import tidied, without_surplus
from inventory.core.errors import ProblemsError
from inventory.core.solver import solver_there

if TYPE_CHECKING:
    from collections import Counter
    from collections.abc import Iterator, Sequence

    from inventory.core.cutting.columns import Relaxed
    from inventory.core.cutting.job import CutJob, CutStock
    from inventory.core.cutting.model import CutModel, Pattern

_RELAXATIONS = 120
_MOST_SUMS = 200_000
"""Above so many steps of cost the sums aren't worked out: the bound is then left as it is."""


def cut_plan(job: CutJob, *, seconds: float = 4.0) -> CutPlan:
    """Return which piece comes from which stick at the least cost of what is bought.

    The cost is in prices, else in length; pieces for which nothing suffices stay uncut, as few
    as possible. Of plans that cost the same it takes one that uses remnants before bars, little
    of what is owned, and leaves a long rest (sought, not claimed best). `seconds` bounds each
    search by the solver; without HiGHS the first plan comes back, not proved best.
    Raises `ProblemsError` for a job that can't be cut at all.
    """
    problems = check_cut_job(job)
    if problems:
        raise ProblemsError("this can't be cut", problems)
    if not job.pieces:
        return CutPlan(sticks=(), cost=0, bound=0)
    model = model_of(job)
    plan = first_plan(model)
    bound = length_bound(model)
    if solver_there():
        now = relaxed(model, plan)
        plan, bound = _best(model, now, plan, seconds)
        likely = sorted(now.patterns, key=lambda pattern: now.duals.wasted(model, pattern))
        plan = tidied(model, plan, likely)
    return _in_words(job, model, plan, bound)


def length_bound(model: CutModel) -> int:
    """Return what must be bought at least for the sum of all lengths: dearest inch for inch."""
    sticks = list(zip(model.rooms, model.there, model.costs, strict=True))
    owned = sum(room * (there or 0) for room, there, cost in sticks if not cost)
    wanted = sum(size * count for size, count in zip(model.sizes, model.wanted, strict=True))
    missing = max(0, wanted - owned)
    return min((-(-missing * cost // room) for room, _, cost in sticks if cost), default=0)


def _best(
    model: CutModel, now: Relaxed, plan: Counter[Pattern], seconds: float
) -> tuple[Counter[Pattern], int]:
    """Return the cheapest plan found, and a cost that no plan can go below.

    Half of the effort goes to plans that cost what the bound says, the other half to any cheaper
    plan than the best known.
    """
    bound = next_cost(model, now.bound, model.cost(plan))
    effort = Effort(_RELAXATIONS, seconds / 2)
    while bound < model.cost(plan) and effort.seconds > 0:
        found = plan_within(model, now, Aim(bound, bound), effort)
        if found.plan is not None:
            return found.plan, bound
        if found.bound <= bound:
            break
        bound = next_cost(model, found.bound, model.cost(plan))
    effort = Effort(_RELAXATIONS, seconds / 2)
    while bound < model.cost(plan):
        found = plan_within(model, now, Aim(model.cost(plan) - 1, bound), effort)
        plan = found.plan or plan
        bound = next_cost(model, max(bound, found.bound), model.cost(plan))
        if found.plan is None:
            break
    return plan, bound


def _single_sticks(job: CutJob, places: Sequence[int]) -> Iterator[CutStock]:
    """Yield one stick after the other: first those of which so many are there, then any number."""
    entries = [job.stock[place] for place in places]
    for entry in entries:
        yield from repeat(entry, entry.quantity or 0)
    yield from cycle(entry for entry in entries if entry.quantity is None)


def next_cost(model: CutModel, least: int, most: int) -> int:
    """Return the lowest sum of whole sticks, and pieces uncut, that is at least so much.

    A plan costs such a sum: between two of them there is none. `most` if there is none below it.
    """
    if most > _MOST_SUMS:
        return min(least, most)
    sums = 1
    """Bit n is set where n can be paid."""
    for cost, there in [*zip(model.costs, model.there, strict=True), (model.uncut_cost, None)]:
        times = most // cost if cost else 0
        for lot in lots(times if there is None else min(times, there)):
            sums |= (sums << lot * cost) & ((1 << most) - 1)
    above = sums >> least
    return least + (above & -above).bit_length() - 1 if above else most


def _in_words(job: CutJob, model: CutModel, plan: Counter[Pattern], bound: int) -> CutPlan:
    """Return the plan with real pieces; those of a plan that are left uncut are the last named."""
    named: defaultdict[int, list[CutPiece]] = defaultdict(list)
    for piece in job.pieces:
        named[piece.length + job.saw.kerf] += [
            CutPiece(piece.length, 1, piece.name) for _ in range(piece.quantity)
        ]
    for pieces in named.values():
        pieces.reverse()
    there = [_single_sticks(job, places) for places in model.places]
    filled = without_surplus(model, plan)
    sticks = [
        CutStick(
            next(there[stock]),
            tuple(
                named[size].pop()
                for size, count in zip(model.sizes, counts, strict=True)
                for _ in range(count)
            ),
            job.saw,
        )
        for stock, counts in filled
    ]
    uncut = tuple(piece for pieces in named.values() for piece in reversed(pieces))
    uncut_bound, rest = divmod(bound, model.uncut_cost)
    return CutPlan(
        sticks=tuple(sticks),
        cost=sum(model.costs[stock] for stock, _ in filled) * model.cost_step,
        bound=rest * model.cost_step if uncut_bound == len(uncut) else 0,
        uncut=uncut,
        uncut_bound=uncut_bound,
    )
