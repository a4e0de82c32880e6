"""Where a part is used: in which steps, and in what they make."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterator, Mapping, Sequence

    from inventory.core.planning.plan import Need, Plan, Step


@frozen
class Use:
    """One way from a part up into the aircraft."""

    need: Need
    """What the first step asks for: with drawing sheet and find number."""
    steps: tuple[str, ...]
    """That step, then the step that takes what it makes, and so on."""
    quantity: int
    """In the part's measure, for the last step of the way."""


def where_used(plan: Plan, part: str) -> tuple[Use, ...]:
    """Return every use of a part, in the order of the sheet: each single one, then the ways up.

    A step that makes a sub-assembly hands on what it takes: the part is used there, and again in
    the steps that need the sub-assembly, as often as they need it.
    """
    by_part: defaultdict[str, list[Need]] = defaultdict(list)
    for need in plan.needs:
        by_part[need.part].append(need)
    steps = {step.code: step for step in plan.steps}
    return tuple(
        use
        for need in by_part[part]
        for use in _ways(Use(need, (need.step,), need.quantity), steps, by_part)
    )


def _ways(
    use: Use, steps: Mapping[str, Step], by_part: Mapping[str, Sequence[Need]]
) -> Iterator[Use]:
    yield use
    step = steps.get(use.steps[-1])
    for need in by_part.get(step.makes, ()) if step and step.makes else ():
        if need.step not in use.steps:
            yield from _ways(
                Use(use.need, (*use.steps, need.step), use.quantity * need.quantity),
                steps,
                by_part,
            )


def on_plan_page(plan: Plan, sheet: str, find_number: str = "") -> tuple[Need, ...]:
    """Return what stands on a drawing sheet or manual page: from the plans back to the part."""

    def plain(text: str) -> str:
        return "".join(text.split()).casefold()

    return tuple(
        need
        for need in plan.needs
        if plain(need.sheet) == plain(sheet)
        and (not find_number or plain(need.find_number) == plain(find_number))
    )
