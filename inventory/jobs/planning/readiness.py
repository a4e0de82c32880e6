"""What can be begun, what finished together, and which missing parts free most work."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.freeing import freeing_parts
from inventory.core.planning.largest_set import largest_set
from inventory.core.planning.ready import steps_ready
from inventory.jobs.planning.workshop_today import today

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.planning.freeing import Freeing
    from inventory.core.planning.largest_set import LargestSet
    from inventory.core.planning.ready import StepReady
    from inventory.jobs.acts import Bench


@frozen
class Largest:
    """The largest set of steps, beside the other answers and never mixed with them."""

    together: LargestSet
    alone: tuple[str, ...]
    """Steps for which everything would be there if no other took any of it."""
    titles: Mapping[str, str]


def ready_step(bench: Bench, code: str) -> StepReady:
    """Return how far one step is: what of it can be done, and what keeps the rest."""
    now = today(bench)
    step = now.step(code)
    every = steps_ready(now.netting, now.workshop)
    return next(each for each in every if each.step.code == step.code)


def largest(bench: Bench) -> Largest:
    """Return the largest set of steps that can be finished with what is on hand."""
    now = today(bench)
    netting = now.netting
    done = now.workshop.done
    stopped = {each.need.step for each in netting.needs if each.chosen and each.stops_alone}
    return Largest(
        largest_set(netting, now.workshop),
        tuple(s.code for s in netting.steps if s.code not in stopped and s.code not in done),
        {step.code: step.title for step in netting.steps},
    )


def frees(bench: Bench, most: int = 10) -> tuple[Freeing, ...]:
    """Return which missing parts free most work, what to ask for first at the top."""
    now = today(bench)
    return freeing_parts(now.netting, now.workshop.done, most=most)
