"""Steps told in several rows or tables, put together to one each."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.items import part_key

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Iterator, Sequence

    from inventory.core.planning.plan import Need, Step

_TOLD = ("title", "section", "sub_assembly", "after", "makes", "days")


def settled_steps(
    listed: Sequence[Step], mentioned: Iterable[Step], needs: Iterable[Need]
) -> tuple[tuple[Step, ...], tuple[Need, ...], list[Problem]]:
    """Return the steps, the needs with their steps' codes as printed, and what contradicts.

    Where a table of steps stands, it alone says which steps there are; rows of needs may fill in
    what it leaves empty. Codes that differ only in case, dashes or blanks are the same.
    """
    problems: list[Problem] = []
    steps: dict[int, Step] = dict(enumerate(listed))
    places: dict[str, int] = {}
    for place, step in steps.items():
        places.setdefault(part_key(step.code), place)
    for step in mentioned:
        known = places.get(part_key(step.code))
        if known is not None:
            problems += _contradictions(steps[known], step)
            steps[known] = _joined(steps[known], step)
        elif not listed:
            places[part_key(step.code)] = len(steps)
            steps[len(steps)] = step
    printed = {key: steps[place].code for key, place in places.items()}

    def as_printed(code: str) -> str:
        return printed.get(part_key(code), code)

    return (
        tuple(_with_codes(step, as_printed) for step in steps.values()),
        tuple(replace(need, step=as_printed(need.step)) for need in needs),
        problems,
    )


def _contradictions(first: Step, again: Step) -> Iterator[Problem]:
    for name in _TOLD:
        before, now = getattr(first, name), getattr(again, name)
        if before and now and before != now:
            yield Problem(
                f"the {name.replace('_', '-')} of step {first.code} is {_shown(now)} here, "
                f"and {_shown(before)} in {first.where}",
                again.where,
                "Write the same in both, or leave one empty",
            )


def _joined(first: Step, again: Step) -> Step:
    return replace(
        first,
        title=first.title or again.title,
        section=first.section or again.section,
        sub_assembly=first.sub_assembly or again.sub_assembly,
        after=first.after or again.after,
        makes=first.makes or again.makes,
        makes_hand=first.makes_hand if first.makes else again.makes_hand,
        days=first.days or again.days,
    )


def _shown(value: object) -> str:
    return ", ".join(value) if isinstance(value, tuple) else str(value)


def _with_codes(step: Step, as_printed: Callable[[str], str]) -> Step:
    return replace(step, after=tuple(as_printed(code) for code in step.after))
