"""Taking a plan in, and looking at it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import AlreadyDoneError, InventoryError, NotFoundError, problems_in
from inventory.core.items import part_key
from inventory.core.planning.plan_difference import plan_changes
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.store.ledger.stock import lying
from inventory.store.planning.plans import current_plan, save_plan

if TYPE_CHECKING:
    from collections.abc import Iterable
    from pathlib import Path

    from inventory.core.errors import Problem
    from inventory.core.planning.plan import Plan
    from inventory.core.planning.plan_difference import PlanChange
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection


def read_plan_file(path: Path) -> Plan:
    """Return the plan of a spreadsheet, with all that is wrong in it."""
    from inventory.sheets.plan.plan_sheet import read_plan

    return read_plan(path)


def changes_by(bench: Bench, plan: Plan) -> tuple[PlanChange, ...]:
    """Return what a plan would change if it were taken in; nothing where it is the first."""
    with bench.store.reading() as db:
        before = current_plan(db, bench.kit.id)
    return plan_changes(before, plan) if before.steps else ()


@tried_again
def take_in_plan(bench: Bench, plan: Plan, slip: Slip) -> tuple[PlanChange, ...]:
    """Store a plan whole and return what it changes; the same file again changes nothing."""
    if plan.problems:
        raise problems_in(plan.source, plan.problems, "Mend them in the sheet and read it again.")
    with acting(bench, "plan read", slip) as act:
        before = current_plan(act.db, bench.kit.id)
        if before.sha256 == plan.sha256:
            raise AlreadyDoneError(
                f"{plan.source} was taken in before", remedy="Nothing was changed."
            )
        save_plan(act.db, bench.kit.id, act.recorded.id, plan)
        return plan_changes(before, plan) if before.steps else ()


def unlisted_parts(bench: Bench, plan: Plan) -> list[str]:
    """Return the part numbers of a plan, as printed, that stand on no list and lie nowhere.

    Where no packing list was read and nothing lies anywhere yet, nothing can be said: none.
    """
    from inventory.core.planning.plan_check import dangling_needs

    with bench.store.reading() as db:
        known = _known_parts(db, bench.kit.id)
    return [need.printed or need.part for need in dangling_needs(plan, known)] if known else []


def _known_parts(db: Connection, kit: int) -> set[str]:
    from inventory.store.receiving.packing_lists import current_lines

    return {line.part for line in current_lines(db, kit)} | {
        lies.item.part for lies in lying(db, kit)
    }


def plan_problems(bench: Bench) -> list[Problem]:
    """Return what doesn't hold together in the plan, or between plan and packing lists."""
    from inventory.core.planning.plan_check import check_plan
    from inventory.core.planning.revisions import revision_problems
    from inventory.store.receiving.packing_lists import current_lines

    plan = plan_that_counts(bench)
    with bench.store.reading() as db:
        lines = current_lines(db, bench.kit.id)
        known = _known_parts(db, bench.kit.id)
    return [
        *check_plan(plan, known or None),
        *revision_problems(plan.needs, ((line.part, line.revision) for line in lines)),
    ]


def plan_that_counts(bench: Bench) -> Plan:
    """Return the newest plan; refused where none was read yet."""
    with bench.store.reading() as db:
        plan = current_plan(db, bench.kit.id)
    if not plan.steps:
        raise InventoryError(
            "no plan was read yet", remedy="Read one: kitwright plan read PLAN.xlsx"
        )
    return plan


def known_step(codes: Iterable[str], code: str) -> str:
    """Return the step's code as the plan writes it, however it was typed."""
    wanted = part_key(code)
    for known in codes:
        if part_key(known) == wanted:
            return known
    raise NotFoundError(
        f"there is no step {code!r} in the plan", remedy="Look: kitwright plan show"
    )
