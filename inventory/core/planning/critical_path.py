"""Earliest and latest dates of steps that wait for each other: the critical path."""

from __future__ import annotations

from collections import defaultdict
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


@frozen
class Timing:
    """When one step can begin and end, and how late it may be without delaying the last one."""

    start: Fraction
    finish: Fraction
    latest_start: Fraction
    latest_finish: Fraction
    binding: str = ""
    """The step whose end decides the start; empty where nothing before decides it."""

    @property
    def slack(self) -> Fraction:
        """How much later the step may begin without delaying the end of all."""
        return self.latest_start - self.start

    @property
    def critical(self) -> bool:
        """Say whether every delay of this step delays the end of all."""
        return not self.slack


@frozen
class Activity:
    """One step as a span of time."""

    code: str
    duration: Fraction
    after: tuple[str, ...] = ()
    not_before: Fraction | None = None
    """The earliest day on which it may begin, whatever is done by then."""


def timings(activities: Sequence[Activity]) -> Mapping[str, Timing]:
    """Return the times of activities given in an order that holds what comes before what.

    Forward and backward pass of the critical path method (Kelley and Walker 1959). Times count
    from 0; codes in `after` that aren't among the activities are done already.
    """
    start, finish, binding = _forward(activities)
    end = max(finish.values(), default=Fraction(0))
    latest = _backward(activities, end)
    return {
        each.code: Timing(
            start[each.code],
            finish[each.code],
            latest[each.code] - each.duration,
            latest[each.code],
            binding[each.code],
        )
        for each in activities
    }


def _forward(
    activities: Sequence[Activity],
) -> tuple[dict[str, Fraction], dict[str, Fraction], dict[str, str]]:
    start: dict[str, Fraction] = {}
    finish: dict[str, Fraction] = {}
    binding: dict[str, str] = {}
    for each in activities:
        before = [(finish[code], code) for code in each.after if code in finish]
        ready, code = max(before, default=(Fraction(0), ""), key=lambda pair: pair[0])
        earliest = each.not_before or Fraction(0)
        start[each.code] = max(ready, earliest)
        binding[each.code] = code if ready >= earliest else ""
        finish[each.code] = start[each.code] + each.duration
    return start, finish, binding


def _backward(activities: Sequence[Activity], end: Fraction) -> dict[str, Fraction]:
    latest: defaultdict[str, Fraction] = defaultdict(lambda: end)
    for each in reversed(activities):
        begin = latest[each.code] - each.duration
        for code in each.after:
            latest[code] = min(latest[code], begin)
    return latest


def critical_path(timings_of: Mapping[str, Timing]) -> list[str]:
    """Return the steps of one critical path, the last to end backwards to the first."""
    last = max(timings_of, key=lambda code: timings_of[code].finish, default="")
    path: list[str] = []
    while last:
        path.append(last)
        last = timings_of[last].binding
    return path[::-1]
