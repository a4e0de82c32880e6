"""Decisions that another part may stand in: recorded with their source, never made here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.planning.substitution import standing_in
from inventory.core.planning.workshop import StandIn
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.workshop_today import today
from inventory.store.planning.plans import step_codes
from inventory.store.planning.stand_ins import all_decisions, save_decision, stand_ins_that_count

if TYPE_CHECKING:
    from inventory.core.planning.substitution import StandingIn
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.planning.stand_ins import Decision


@frozen
class Decided:
    """Every decision ever recorded, and where a stand-in is used as things lie today."""

    decisions: tuple[Decision, ...]
    used: tuple[StandingIn, ...]


@tried_again
def substitute(bench: Bench, wanted: StandIn, slip: Slip, *, allowed: bool = True) -> StandIn:
    """Record that a part may be used instead of another, or that it may no longer.

    Whose word that is must be said: plans, kit designer, maker, and where it is written.
    """
    if not wanted.decided.strip():
        raise InventoryError(
            "who decided it, and where is it written?",
            remedy='Say it with --why, for instance "plans RU-1 rev C, note 4".',
        )
    with acting(bench, "substitute", slip) as act:
        part = known_part(act.db, bench.kit, wanted.part)
        instead = known_part(act.db, bench.kit, wanted.instead)
        if part.key == instead.key:
            raise InventoryError(f"{part.printed} is the same part", where=part.printed)
        if part.measure is not instead.measure:
            raise InventoryError(
                f"{part.printed} is counted in {part.measure}, {instead.printed} in "
                f"{instead.measure}",
                where=instead.printed,
                remedy="Only what is counted alike can stand in.",
            )
        step = known_step(step_codes(act.db, bench.kit.id), wanted.step) if wanted.step else ""
        decision = StandIn(part.key, instead.key, step, wanted.decided.strip())
        if not allowed:
            standing = stand_ins_that_count(act.db, bench.kit.id)
            if not any(_same(decision, each) for each in standing):
                raise NotFoundError(
                    f"no decision lets {instead.printed} stand in for {part.printed}"
                    + (f" in step {step}" if step else ""),
                    remedy="Look: kitwright substitute",
                )
        save_decision(act.db, bench.kit.id, act.recorded.id, decision, allowed=allowed)
        return decision


def _same(one: StandIn, other: StandIn) -> bool:
    return (one.part, one.instead, one.step) == (other.part, other.instead, other.step)


def decided(bench: Bench) -> Decided:
    """Return all decisions on stand-ins, and where one is used today."""
    with bench.store.reading() as db:
        decisions = tuple(all_decisions(db, bench.kit.id))
    now = today(bench)
    return Decided(decisions, standing_in(now.netting, now.workshop) if decisions else ())
