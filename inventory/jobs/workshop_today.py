"""The kit as it stands today, put together from the store for the pure functions."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.places import PlaceKind
from inventory.core.shortage import net
from inventory.core.workshop import Aside, Due, Workshop
from inventory.jobs.planning import known_step
from inventory.store.events import step_states
from inventory.store.packing_lists import current_lines
from inventory.store.plans import current_plan
from inventory.store.stock import lying

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.core.plan import Plan, Step
    from inventory.core.shortage import Netting
    from inventory.jobs.acts import Bench
    from inventory.store.database import Connection
    from inventory.store.kits import Kit
    from inventory.store.stock import Lying

DONE = frozenset({"done", "built before"})


@dataclass(frozen=True, slots=True)
class Today:
    """Plan, stock and what lies where, of one moment."""

    plan: Plan
    workshop: Workshop
    lying: tuple[Lying, ...]

    @property
    def netting(self) -> Netting:
        """All needs netted in build order."""
        return net(self.plan, self.workshop)

    def step(self, code: str) -> Step:
        """Return the step with this code, however it was typed."""
        known = known_step((each.code for each in self.plan.steps), code)
        return next(each for each in self.plan.steps if each.code == known)

    def in_bins(self) -> list[tuple[Place, Item, int]]:
        """Return what lies in bins."""
        return [
            (lies.place, lies.item, lies.quantity)
            for lies in self.lying
            if lies.place.kind is PlaceKind.BIN
        ]


def today(bench: Bench) -> Today:
    """Return the kit as it stands at this moment."""
    with bench.store.reading() as db:
        return today_within(db, bench.kit)


def today_within(db: Connection, kit: Kit) -> Today:
    """Return the kit as it stands inside a transaction."""
    plan = current_plan(db, kit.id)
    there = lying(
        db,
        kit.id,
        kinds=(PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP, PlaceKind.SUPPLIER),
    )
    states = step_states(db, kit.id)
    workshop = Workshop(
        usable=_sums(there, PlaceKind.BIN),
        issued=Counter(
            {
                (lies.place.code, lies.item): lies.quantity
                for lies in there
                if lies.place.kind is PlaceKind.STEP
            }
        ),
        done=frozenset(step for step, state in states.items() if state in DONE),
        started=frozenset(step for step, state in states.items() if state == "started"),
        due=tuple(_due(db, kit)),
        aside={
            Aside.HOLD: _sums(there, PlaceKind.HOLD),
            Aside.CRATE: _sums(there, PlaceKind.CRATE),
        },
    )
    return Today(plan, workshop, tuple(there))


def _sums(there: Iterable[Lying], kind: PlaceKind) -> Counter[Item]:
    sums: Counter[Item] = Counter()
    for lies in there:
        if lies.place.kind is kind:
            sums[lies.item] += lies.quantity
    return sums


def _due(db: Connection, kit: Kit) -> list[Due]:
    return [
        Due(
            part=line.part,
            hand=line.hand,
            length=line.length,
            quantity=line.back_ordered,
            source=line.remark or f"back-order, row {line.row} of the packing list",
        )
        for line in current_lines(db, kit.id)
        if line.back_ordered
    ]
