"""When each step can begin, by the dates that deliveries were promised for."""

from __future__ import annotations

import datetime as dt
from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen
from inventory.core.planning.critical_path import Activity, Timing, timings

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Due, Workshop


@frozen(kw_only=True)
class Outlook:
    """From which day on, and how much trust to put in promises."""

    today: dt.date
    late: bool = False
    """Reckon with the late end of each range of dates."""
    slip: int = 0
    """Days by which every delivery still to come is thought to be late."""


class Wait(NamedTuple):
    """A part that decides when a step can begin."""

    need: NetNeed
    until: dt.date | None
    """None where no date is known: it may be any day."""


@frozen(kw_only=True)
class StepForecast:
    """When one step can begin and end at the earliest, and why not sooner."""

    step: Step
    start: dt.date | None
    """None where something it waits for has no date."""
    finish: dt.date | None
    """The day after its last day of work."""
    waits_for: tuple[Wait, ...] = ()
    """The parts that decide the start; empty where steps before it, or nothing, decide it."""
    after: tuple[str, ...] = ()
    """The steps that decide the start."""
    slack: int | None = None
    """Days it may be later without delaying the last step that has a date."""


def forecast(netting: Netting, workshop: Workshop, outlook: Outlook) -> tuple[StepForecast, ...]:
    """Return when each step not done can begin, in build order.

    A step begins when all before it are finished and promised deliveries have reached what it
    lacks, after what earlier steps take of them. Days are calendar days; a promise that is
    overdue counts as today. A delivery without a date, or a part nobody promised, gives no date,
    and none to the steps that come after.
    """
    waits = _waits(netting, workshop, outlook)
    before = _before(netting, workshop.done)
    undated = _undated(netting.steps, waits, before)
    times = timings(
        [
            Activity(
                step.code,
                Fraction(step.days),
                before[step.code],
                _day(outlook, waits[step.code]),
            )
            for step in netting.steps
            if step.code in before and step.code not in undated
        ]
    )
    return tuple(
        _step_forecast(
            step, waits[step.code], times.get(step.code), outlook, undated.get(step.code, ())
        )
        for step in netting.steps
        if step.code in before
    )


def _before(netting: Netting, done: frozenset[str]) -> dict[str, tuple[str, ...]]:
    """Return for each step not done the steps before it that aren't done, makers among them."""
    makers: dict[str, list[str]] = {}
    for need in netting.needs:
        makers.setdefault(need.need.step, []).extend(maker for maker, _ in need.from_steps)
    return {
        step.code: tuple(
            code
            for code in dict.fromkeys((*step.after, *makers.get(step.code, ())))
            if code not in done
        )
        for step in netting.steps
        if step.code not in done
    }


def _waits(netting: Netting, workshop: Workshop, outlook: Outlook) -> dict[str, tuple[Wait, ...]]:
    waits: dict[str, list[Wait]] = {step.code: [] for step in netting.steps}
    for need in netting.needs:
        if need.stops:
            waits[need.need.step].append(Wait(need, _covered_on(need, workshop.due, outlook)))
    return {code: tuple(found) for code, found in waits.items()}


def _covered_on(need: NetNeed, due: Iterable[Due], outlook: Outlook) -> dt.date | None:
    """Return the day on which what lacks is there; None where no such day is known."""
    if need.absent:
        parts = {pool.part for pool in need.pools}
        days = [_expected(each, outlook) for each in due if each.part in parts]
        return min((day for day in days if day), default=None)
    if need.short_beyond_due:
        return None
    days = [_expected(share.due, outlook) for share in need.due]
    known = [day for day in days if day]
    return max(known) if len(known) == len(days) else None


def _expected(due: Due, outlook: Outlook) -> dt.date | None:
    day = due.latest or due.promised if outlook.late else due.promised
    return max(outlook.today, day + dt.timedelta(outlook.slip)) if day else None


def _undated(
    steps: Sequence[Step],
    waits: Mapping[str, tuple[Wait, ...]],
    before: Mapping[str, tuple[str, ...]],
) -> dict[str, tuple[str, ...]]:
    """Return the steps that get no date, each with the undated steps it comes after."""
    undated: dict[str, tuple[str, ...]] = {}
    for step in steps:
        after = tuple(code for code in before.get(step.code, ()) if code in undated)
        if step.code in before and (after or any(not wait.until for wait in waits[step.code])):
            undated[step.code] = after
    return undated


def _day(outlook: Outlook, waits: Iterable[Wait]) -> Fraction | None:
    days = [(wait.until - outlook.today).days for wait in waits if wait.until]
    return Fraction(max(days)) if days else None


def _step_forecast(
    step: Step,
    waits: tuple[Wait, ...],
    timing: Timing | None,
    outlook: Outlook,
    after: tuple[str, ...],
) -> StepForecast:
    if timing is None:
        deciding = tuple(wait for wait in waits if not wait.until)
        return StepForecast(step=step, start=None, finish=None, waits_for=deciding, after=after)
    start = outlook.today + dt.timedelta(int(timing.start))
    by_step = (timing.binding,) if timing.binding else ()
    return StepForecast(
        step=step,
        start=start,
        finish=outlook.today + dt.timedelta(int(timing.finish)),
        waits_for=() if by_step else tuple(wait for wait in waits if wait.until == start),
        after=by_step,
        slack=int(timing.slack),
    )


def delayed(workshop: Workshop, source: str, days: int) -> Workshop:
    """Return the workshop with the deliveries of one source so many days later."""

    def later(day: dt.date | None) -> dt.date | None:
        return day + dt.timedelta(days) if day else None

    return replace(
        workshop,
        due=tuple(
            replace(due, promised=later(due.promised), latest=later(due.latest))
            if due.source == source
            else due
            for due in workshop.due
        ),
    )


class Moved(NamedTuple):
    """A step that begins on another day than before."""

    step: str
    was: dt.date | None
    now: dt.date | None


def moved(was: Iterable[StepForecast], now: Iterable[StepForecast]) -> tuple[Moved, ...]:
    """Return the steps whose start differs between two forecasts, in the order of the second."""
    starts = {each.step.code: each.start for each in was}
    return tuple(
        Moved(each.step.code, starts.get(each.step.code), each.start)
        for each in now
        if starts.get(each.step.code) != each.start
    )
