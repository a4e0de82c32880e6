"""Where the plan uses a part, on how many levels, and what stands on a page of the plans."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.frozen import frozen
from inventory.core.planning.explosion import Component, low_level_codes
from inventory.core.planning.where_used import on_plan_page, where_used
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.planning.planning import plan_that_counts

if TYPE_CHECKING:
    from inventory.core.planning.plan import Need, Plan
    from inventory.core.planning.where_used import Use
    from inventory.jobs.acts import Bench
    from inventory.store.ledger.names import PartName

AIRCRAFT = ""
"""Stands for what the plan builds: the top of all levels."""


@frozen
class Uses:
    """All uses of a part."""

    part: PartName
    level: int | None
    """The longest way down to it: 1 where only steps use it that make no sub-assembly; None where
    the plan doesn't use it."""
    uses: tuple[Use, ...]

    @property
    def direct(self) -> int:
        """What all steps take of it, in the part's measure."""
        return sum(use.quantity for use in self.uses if len(use.steps) == 1)


def uses_of(bench: Bench, text: str) -> Uses:
    """Return every step that uses a part, and what becomes of it there."""
    with bench.store.reading() as db:
        part = known_part(db, bench.kit, text)
    plan = plan_that_counts(bench)
    return Uses(part, levels(plan).get(part.key), where_used(plan, part.key))


def levels(plan: Plan) -> dict[str, int]:
    """Return the low-level code of each part: netted in this order, none is netted twice."""
    makes = {step.code: step.makes for step in plan.steps}
    structure: defaultdict[str, list[Component]] = defaultdict(list)
    for need in plan.needs:
        structure[makes.get(need.step) or AIRCRAFT].append(Component(need.part, need.quantity))
    taken = {need.part for need in plan.needs}
    structure[AIRCRAFT] += [
        Component(made, 1) for made in makes.values() if made and made not in taken
    ]
    codes = low_level_codes(structure)
    codes.pop(AIRCRAFT, None)
    return codes


def on_page(bench: Bench, sheet: str, find_number: str = "") -> tuple[Need, ...]:
    """Return what stands on a drawing sheet or manual page, or under one find number of it."""
    found = on_plan_page(plan_that_counts(bench), sheet, find_number)
    if not found:
        named = f"{sheet}, find number {find_number}" if find_number else sheet
        raise NotFoundError(
            f"the plan names no part on {named}", remedy="Look: kitwright plan show STEP"
        )
    return found
