"""How fast and how well bars are cut: `python -m tests.benchmarks.cutting`.

Jobs as a builder has them, made up: lengths in eighths of an inch, a kerf of 1/8, remnants on the
rack, one or three lengths sold. Every plan is looked at by the checker of the tests. Then the
published instances: how far from the optimum, proved or with its bound, and the time.
"""

from __future__ import annotations

import random
import statistics
import sys
import time
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.cutting.job import CutJob, CutPiece, CutPlan, CutStock, Owned
from inventory.core.cutting.model import first_plan, model_of
from inventory.core.cutting.plan import cut_plan
from inventory.core.planning.workshop import Saw
from tests.benchmarks.measure import Result, main
from tests.core.cut_check import faults
from tests.core.cutting.test_published import INSTANCES

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

EIGHTH = 3_175_000


class Sort(NamedTuple):
    """One sort of job: how many pieces, lengths and remnants, and what is sold, in inches."""

    pieces: int
    lengths: int
    remnants: int
    sold: tuple[int, ...]
    shortest: int = 4
    longest: int = 36


SORTS = (
    Sort(20, 8, 4, (72, 96, 144)),
    Sort(20, 8, 0, (96,)),
    Sort(60, 15, 6, (72, 96, 144)),
    Sort(200, 25, 10, (96,)),
    Sort(200, 40, 0, (96,), 2, 12),
    Sort(200, 25, 10, (72, 96, 144)),
)


def made_up(sort: Sort, dice: random.Random) -> CutJob:
    """Return one job of a sort."""
    lengths = [
        dice.randrange(sort.shortest * 8, sort.longest * 8) * EIGHTH for _ in range(sort.lengths)
    ]
    wanted = [dice.choice(lengths) for _ in range(sort.pieces)]
    return CutJob(
        pieces=tuple(CutPiece(length, wanted.count(length)) for length in sorted(set(wanted))),
        stock=(
            *(
                CutStock(length=dice.randrange(112, 480) * EIGHTH, quantity=1, owned=Owned.REMNANT)
                for _ in range(sort.remnants)
            ),
            *(CutStock(length=length * 8 * EIGHTH) for length in sort.sold),
        ),
        saw=Saw(EIGHTH, 2 * EIGHTH),
    )


def planned(job: CutJob) -> tuple[CutPlan, float]:
    """Return a checked plan and the processor time it took."""
    begun = time.process_time()
    plan = cut_plan(job, seconds=60 if job.saw.kerf == 0 else 4)
    spent = time.process_time() - begun
    wrong = faults(job, plan)
    if wrong:
        raise AssertionError(f"{wrong} for {job}")
    return plan, spent


def ten_profiles(rounds: int) -> Iterator[Result]:
    """Measure 200 pieces over ten profiles, against laying them out longest first."""
    dice = random.Random(3)
    times, proved = [], 0
    for _ in range(rounds):
        answers = [planned(made_up(SORTS[0], dice)) for _ in range(10)]
        times.append(sum(spent for _, spent in answers))
        proved += sum(plan.proved for plan, _ in answers)
    yield Result(
        what="200 pieces over 10 profiles, to the proved least",
        figure=statistics.median(times),
        goal=1.0,
        alarm=5.0,
        unit="s",
        detail=f"{proved} of {10 * rounds} proved",
    )


def sorts(jobs: int, chosen: Sequence[Sort]) -> Iterator[Result]:
    """Measure jobs of each sort: the median time, how many were proved, how much was saved."""
    for sort in chosen:
        dice = random.Random(5)
        times, proved, saved = [], 0, 0
        for _ in range(jobs):
            job = made_up(sort, dice)
            model = model_of(job)
            plan, spent = planned(job)
            times.append(spent)
            proved += plan.proved
            saved += model.cost(first_plan(model)) * model.cost_step - plan.cost
        sold = "/".join(map(str, sort.sold))
        yield Result(
            what=f"{sort.pieces} pieces of {sort.lengths} lengths from {sold}",
            figure=statistics.median(times),
            goal=1.0,
            alarm=10.0,
            unit="s",
            detail=f"{proved} of {jobs} proved, longest {max(times):.2f} s, "
            f"saves {saved / jobs / (8 * EIGHTH):.0f} in a job",
        )


def published() -> Iterator[Result]:
    """Solve the published instances."""
    for instance in INSTANCES:
        pieces = (text.split("x") for text in instance["pieces"].split())
        job = CutJob(
            pieces=tuple(CutPiece(int(length), int(count)) for length, count in pieces),
            stock=(CutStock(length=instance["stock"], price=1),),
            saw=Saw(0, 0),
        )
        plan, spent = planned(job)
        sure = "proved" if plan.proved else f"bound {plan.bound}"
        yield Result(
            what=instance["name"],
            figure=float(plan.cost - instance["optimum"]),
            goal=0.0,
            alarm=1.0,
            unit="bars",
            detail=f"{plan.cost} bars, {sure}, {spent:.2f} s",
        )


def measured(quick: bool) -> Iterator[Result]:  # noqa: FBT001  as measure.main calls it
    """Yield every figure; the published instances only where there is time."""
    yield from ten_profiles(3 if quick else 5)
    yield from sorts(3 if quick else 12, SORTS[:3] if quick else SORTS)
    if not quick:
        yield from published()


if __name__ == "__main__":
    sys.exit(main(__doc__, measured))
