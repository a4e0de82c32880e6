"""Taking a plan in, and looking at it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import AlreadyDoneError, InventoryError, NotFoundError, ProblemsError
from inventory.core.items import part_key
from inventory.jobs.acts import acting
from inventory.store.names import all_parts
from inventory.store.plans import current_plan, save_plan

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.plan import Plan
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench


def take_in_plan(bench: Bench, plan: Plan, slip: Slip) -> None:
    """Store a plan whole; the same file a second time changes nothing."""
    if plan.problems:
        raise ProblemsError(
            f"{plan.source} holds {len(plan.problems)} problems; nothing was stored",
            plan.problems,
            remedy="Mend them in the sheet and read it again.",
        )
    with acting(bench, "plan read", slip) as act:
        if current_plan(act.db, bench.kit.id).sha256 == plan.sha256:
            raise AlreadyDoneError(
                f"{plan.source} was taken in before", remedy="Nothing was changed."
            )
        save_plan(act.db, bench.kit.id, act.recorded.id, plan)


def plan_that_counts(bench: Bench) -> Plan:
    """Return the newest plan; refused where none was read yet."""
    with bench.store.reading() as db:
        plan = current_plan(db, bench.kit.id)
    if not plan.steps:
        raise InventoryError(
            "no plan was read yet", remedy="Read one: kitwright plan read PLAN.xlsx"
        )
    return plan


def known_parts(bench: Bench) -> frozenset[str]:
    """Return the keys of all parts of the bench.kit."""
    with bench.store.reading() as db:
        return frozenset(all_parts(db, bench.kit.id))


def known_step(codes: Iterable[str], code: str) -> str:
    """Return the step's code as the plan writes it, however it was typed."""
    wanted = part_key(code)
    for known in codes:
        if part_key(known) == wanted:
            return known
    raise NotFoundError(
        f"there is no step {code!r} in the plan", remedy="Look: kitwright plan show"
    )
