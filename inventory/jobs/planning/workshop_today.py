"""The kit as it stands today, put together from the store for the pure functions."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from functools import cached_property
from typing import TYPE_CHECKING

from inventory.core.places import PlaceKind
from inventory.core.planning.plan import Plan
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Aside, Workshop
from inventory.jobs.cutting.saw import saw_within
from inventory.jobs.planning.buying import purchases_due
from inventory.jobs.planning.kept_aside import kept_now
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.preparing import prepared_within
from inventory.jobs.planning.shelf_lives import is_expired, last_days, this_day
from inventory.jobs.receiving.still_coming import due_within
from inventory.store.ledger.events import step_states
from inventory.store.ledger.names import all_parts
from inventory.store.ledger.stock import lying
from inventory.store.opening.one_moment import read_once
from inventory.store.planning.plans import current_plan
from inventory.store.planning.scarce import plan_bearing_on, plan_of_scarce
from inventory.store.planning.standing import standing

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Mapping
    from datetime import date

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import Netting
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.ledger.names import PartName
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection

DONE = frozenset({"done", "built before"})


@dataclass(frozen=True)
class Today:
    """Plan, stock and what lies where, of one moment."""

    plan: Plan
    workshop: Workshop
    lying: tuple[Lying, ...]
    last_use: Mapping[tuple[str, str], date]
    """By part and lot, of all that expires."""

    @cached_property
    def netting(self) -> Netting:
        """All needs netted in build order; worked out once."""
        return net(self.plan, self.workshop)

    def step(self, code: str) -> Step:
        """Return the step with this code, however it was typed."""
        known = known_step((each.code for each in self.plan.steps), code)
        return next(each for each in self.plan.steps if each.code == known)

    def in_bins(self) -> list[tuple[Place, Item, int]]:
        """Return what lies in bins and isn't past its date."""
        usable = self.workshop.usable
        return [
            (lies.place, lies.item, lies.quantity)
            for lies in self.lying
            if lies.place.kind is PlaceKind.BIN and lies.item in usable
        ]

    def for_step(self, code: str) -> list[tuple[Place, Item, int]]:
        """Return what a step may fetch from the bins: nothing that is set aside for others."""
        kept: Counter[Item] = Counter()
        for each in self.workshop.set_aside:
            if each.step != code:
                kept[replace(each.item, lot="")] += each.quantity
        found = []
        for place, item, quantity in self.in_bins():
            kind = replace(item, lot="")
            left_there = min(quantity, kept[kind])
            kept[kind] -= left_there
            if quantity > left_there:
                found.append((place, item, quantity - left_there))
        return found


def today(bench: Bench, on: date | None = None) -> Today:
    """Return the kit as it stands; what is past its date is judged by `on`, else by today."""
    with bench.store.reading() as db:
        return today_within(db, bench.kit, on)


@read_once
def today_within(db: Connection, kit: Kit, on: date | None = None) -> Today:
    """Return the kit as it stands inside a transaction."""
    now = _without_plan(db, kit, on)
    return replace(now, plan=_described(current_plan(db, kit.id), all_parts(db, kit.id)))


def scarce_within(db: Connection, kit: Kit, step: str = "") -> Today:
    """Return the kit as it stands, with only those needs of the plan that may be short.

    Of one step, with those that bear on it.
    """
    now = _without_plan(db, kit, None)
    plan = (
        plan_bearing_on(db, kit.id, now.workshop, step)
        if step
        else plan_of_scarce(db, kit.id, now.workshop)
    )
    return replace(now, plan=_described(plan, all_parts(db, kit.id)))


def workshop_within(db: Connection, kit: Kit) -> Workshop:
    """Return the workshop as it stands, without the plan."""
    return _without_plan(db, kit, None).workshop


@read_once
def _without_plan(db: Connection, kit: Kit, on: date | None) -> Today:
    last_use = last_days(db, kit)
    expired = frozenset(key for key, day in last_use.items() if day < (on or this_day()))
    there = lying(
        db,
        kit.id,
        kinds=(PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP, PlaceKind.SUPPLIER),
    )
    states = step_states(db, kit.id)
    usable = _sums(there, PlaceKind.BIN, lambda item: not is_expired(item, expired))
    workshop = Workshop(
        usable=usable,
        issued=Counter(
            {
                (lies.place.code, lies.item): lies.quantity
                for lies in there
                if lies.place.kind is PlaceKind.STEP
            }
        ),
        done=frozenset(step for step, state in states.items() if state in DONE),
        started=frozenset(step for step, state in states.items() if state == "started"),
        due=(*due_within(db, kit), *purchases_due(db, kit)),
        set_aside=tuple(kept_now(db, kit)),
        aside={
            Aside.HOLD: _sums(there, PlaceKind.HOLD),
            Aside.CRATE: _sums(there, PlaceKind.CRATE),
            Aside.EXPIRED: _sums(there, PlaceKind.BIN, lambda item: is_expired(item, expired)),
        },
        prepared=prepared_within(db, kit, usable),
        stand_ins=standing(db, kit.id).stand_ins,
        saw=saw_within(db).saw,
    )
    return Today(Plan(), workshop, tuple(there), last_use)


def _described(plan: Plan, parts: Mapping[str, PartName]) -> Plan:
    """Return the plan with the packing list's words where it has none of its own."""
    needs = tuple(
        need
        if need.description and need.printed
        else replace(
            need,
            printed=need.printed or parts[need.part].printed,
            description=need.description or parts[need.part].description,
        )
        for need in plan.needs
    )
    return replace(plan, needs=needs)


def _sums(
    there: Iterable[Lying], kind: PlaceKind, counts: Callable[[Item], bool] = lambda _: True
) -> Counter[Item]:
    sums: Counter[Item] = Counter()
    for lies in there:
        if lies.place.kind is kind and counts(lies.item):
            sums[lies.item] += lies.quantity
    return sums
