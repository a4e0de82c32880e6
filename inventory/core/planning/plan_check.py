"""What is wrong with a plan as a whole: circles, unknown steps, parts that nobody delivers."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.errors import Problem
from inventory.core.items import Measure, fits
from inventory.core.planning.plan import NeedKind, find_loop

if TYPE_CHECKING:
    from collections.abc import Container, Iterator, Mapping, Sequence

    from inventory.core.items import Hand
    from inventory.core.planning.plan import Need, PartSize, Plan, Step


def check_plan(plan: Plan, known_parts: Container[str] | None = None) -> list[Problem]:
    """Return all that must be settled before the plan counts, in the order of the sheet.

    `known_parts` are the keys of all part numbers that a packing list, an order or the stock
    names; without them dangling part numbers aren't looked for.
    """
    return [
        *_double_steps(plan.steps),
        *_order_problems(plan.steps),
        *_need_problems(plan),
        *_alternate_problems(plan.needs),
        *_sub_assembly_problems(plan),
        *_size_problems(plan),
        *(_dangling(plan, known_parts) if known_parts is not None else ()),
    ]


def _at(entry: Step | Need) -> str:
    return entry.where or f"row {entry.row}"


def _double_steps(steps: Sequence[Step]) -> Iterator[Problem]:
    first: dict[str, Step] = {}
    for step in steps:
        if step.code in first:
            yield Problem(
                f"step {step.code} is there twice, first in {_at(first[step.code])}",
                _at(step),
                "Give one of them another code",
            )
        first.setdefault(step.code, step)


def _order_problems(steps: Sequence[Step]) -> Iterator[Problem]:
    by_code = {step.code: step for step in steps}
    for step in steps:
        for code in step.after:
            if code not in by_code:
                yield Problem(
                    f"step {step.code} comes after {code}, which is no step of the plan",
                    _at(step),
                    "Correct the code, or add the step",
                )
    loop = find_loop(steps)
    if loop:
        # The loop is found from a step back to what comes before it: told forwards.
        yield Problem(
            f"steps wait for each other in a circle: {' -> '.join(reversed(loop))}",
            _at(by_code[loop[0]]),
            "Take out one of these",
        )


def _need_problems(plan: Plan) -> Iterator[Problem]:
    codes = {step.code for step in plan.steps}
    measures: dict[str, Need] = {}
    for need in plan.needs:
        if need.step not in codes:
            yield Problem(
                f"{_name(need)} is for step {need.step}, which is no step of the plan",
                _at(need),
                "Correct the code, or add the step",
            )
        first = measures.setdefault(need.part, need)
        if first.measure is not need.measure:
            yield Problem(
                f"{_name(need)} is in {need.measure} here and in {first.measure} in {_at(first)}",
                _at(need),
                "Write both in one kind of unit",
            )
        yield from _amount_problems(need)


def _amount_problems(need: Need) -> Iterator[Problem]:
    if need.quantity < 0 or need.spare < 0:
        yield Problem(f"{_name(need)} has a negative quantity", _at(need), "Write 1 or more, or AR")
    elif bool(need.quantity) is need.as_required:
        yield Problem(
            f"{_name(need)} has the quantity {need.quantity}"
            + (" and is as-required too" if need.as_required else ""),
            _at(need),
            "Write 1 or more, or AR (as required)",
        )
    if (need.kind is NeedKind.CUT) is not bool(need.length):
        yield Problem(
            f"{_name(need)} is cut from stock, but no length is given"
            if need.kind is NeedKind.CUT
            else f"{_name(need)} has a length to cut, but isn't of the kind cut",
            _at(need),
            "Give kind cut and length together",
        )
    if need.kind is NeedKind.CUT and need.measure is not Measure.PIECES:
        yield Problem(
            f"{_name(need)} is cut, but counted in {need.measure}",
            _at(need),
            "Write the number of pieces, and the length of each",
        )


def _alternate_problems(needs: Sequence[Need]) -> Iterator[Problem]:
    groups: defaultdict[tuple[str, str], list[Need]] = defaultdict(list)
    for need in needs:
        if need.one_of:
            groups[need.step, need.one_of].append(need)
    for (step, word), group in groups.items():
        if len(group) == 1:
            yield Problem(
                f"{_name(group[0])} is the only one of {word} in step {step}",
                _at(group[0]),
                "Give its alternates the same word, or none to it",
            )


def _sub_assembly_problems(plan: Plan) -> Iterator[Problem]:
    """Yield the needs of what a step makes that don't come after that step."""
    makers: defaultdict[str, list[Step]] = defaultdict(list)
    for step in plan.steps:
        if step.makes:
            makers[step.makes].append(step)
    after = {step.code: step.after for step in plan.steps}
    before: dict[str, set[str]] = {}
    for need in plan.needs if makers else ():
        of_part = [step for step in makers[need.part] if fits(need.hand, step.makes_hand)]
        if of_part and need.step not in before:
            before[need.step] = _all_before(need.step, after)
        if of_part and not any(step.code in before[need.step] for step in of_part):
            yield Problem(
                f"{_name(need)} is made by step {of_part[0].code}, which doesn't come before "
                f"step {need.step}",
                _at(need),
                f"Let step {need.step} come after step {of_part[0].code}",
            )


def _all_before(step: str, after: Mapping[str, Sequence[str]]) -> set[str]:
    """Return every step that comes before one, directly or not; in a circle it is among them."""
    seen: set[str] = set()
    waiting = list(after.get(step, ()))
    while waiting:
        code = waiting.pop()
        if code not in seen:
            seen.add(code)
            waiting.extend(after.get(code, ()))
    return seen


def _size_problems(plan: Plan) -> Iterator[Problem]:
    sizes: dict[tuple[str, Hand], PartSize] = {}
    for size in plan.sizes:
        first = sizes.setdefault((size.part, size.hand), size)
        if first != size:
            yield Problem(
                f"{size.part} has two different sizes in the plan",
                size.part,
                "Write the same thickness, width, length and holes in each of its rows",
            )


def dangling_needs(plan: Plan, known_parts: Container[str]) -> list[Need]:
    """Return the first need of each part that nobody delivers and no step makes."""
    made = {step.makes for step in plan.steps}
    found: dict[str, Need] = {}
    for need in plan.needs:
        if need.part not in known_parts and need.part not in made:
            found.setdefault(need.part, need)
    return list(found.values())


def _dangling(plan: Plan, known_parts: Container[str]) -> Iterator[Problem]:
    for need in dangling_needs(plan, known_parts):
        yield Problem(
            f"{_name(need)} of step {need.step} stands on no packing list or order, isn't in "
            "stock, and no step makes it",
            _at(need),
            "Correct the part number, or put it on the list of what is to be ordered",
        )


def _name(need: Need) -> str:
    return need.printed or need.part
