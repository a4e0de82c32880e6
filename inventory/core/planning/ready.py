"""Which steps can start now, and what keeps the others."""

from __future__ import annotations

from collections import defaultdict
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Workshop


class Readiness(StrEnum):
    """How far a step is, in words for a list."""

    DONE = "done"
    READY = "ready"
    """All steps before it are done, and everything it needs is there."""
    READY_ALONE = "ready if an earlier step waits"
    """Everything is there, but steps before it in build order need some of it too."""
    PREPARE = "to be prepared"
    """Everything is there, but not prepared as the step asks."""
    PARTIAL = "can be begun"
    """Steps before it are done, and some of what it needs is there."""
    SHORT = "short"
    """Steps before it are done, and nothing of what it needs is there."""
    WAITS = "waits"
    """Another step must be done first."""


@frozen(kw_only=True)
class StepReady:
    """How far one step is, and why."""

    step: Step
    readiness: Readiness
    started: bool = False
    waits_for: tuple[str, ...] = ()
    """Steps that must be done first and aren't; makers of a sub-assembly among them."""
    short: tuple[NetNeed, ...] = ()
    """What isn't there in build order."""
    unprepared: tuple[NetNeed, ...] = ()
    fetchable: tuple[NetNeed, ...] = ()
    """Needs that can be filled wholly today: what can be done of the step."""


def steps_ready(netting: Netting, workshop: Workshop) -> tuple[StepReady, ...]:
    """Say of every step how far it is, in build order."""
    by_step: defaultdict[str, list[NetNeed]] = defaultdict(list)
    for need in netting.needs:
        if need.chosen:
            by_step[need.need.step].append(need)
    return tuple(_step_ready(step, by_step[step.code], workshop) for step in netting.steps)


def _step_ready(step: Step, needs: Sequence[NetNeed], workshop: Workshop) -> StepReady:
    if step.code in workshop.done:
        return StepReady(step=step, readiness=Readiness.DONE)
    makers = (maker for need in needs for maker, _ in need.from_steps)
    waits_for = tuple(
        code for code in dict.fromkeys((*step.after, *makers)) if code not in workshop.done
    )
    short = tuple(need for need in needs if need.stops)
    unprepared = tuple(need for need in needs if need.unprepared)
    fetchable = tuple(need for need in needs if not (need.stops or need.from_steps))
    return StepReady(
        step=step,
        readiness=Readiness.WAITS if waits_for else _of_parts(needs),
        started=step.code in workshop.started,
        waits_for=waits_for,
        short=short,
        unprepared=unprepared,
        fetchable=fetchable,
    )


def _of_parts(needs: Sequence[NetNeed]) -> Readiness:
    """Return how far a step is whose predecessors are all done."""
    if not any(need.stops for need in needs):
        lacking = any(need.unprepared for need in needs)
        return Readiness.PREPARE if lacking else Readiness.READY
    if not any(need.stops_alone for need in needs):
        return Readiness.READY_ALONE
    begun = any(need.issued or need.filled or need.to_cut for need in needs)
    return Readiness.PARTIAL if begun else Readiness.SHORT
