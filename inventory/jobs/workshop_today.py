"""The kit as it stands today, put together from the store for the pure functions."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from inventory.core.places import PlaceKind, crate_code
from inventory.core.shortage import net
from inventory.core.tally import tally
from inventory.core.workshop import Aside, Due, Workshop
from inventory.jobs.planning import known_step
from inventory.store.counts import all_counts, counts_that_stand
from inventory.store.events import crate_states, step_states
from inventory.store.names import all_parts
from inventory.store.packing_lists import current_lines
from inventory.store.plans import current_plan
from inventory.store.stock import lying

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.items import Item
    from inventory.core.packing import PackingLine
    from inventory.core.places import Place
    from inventory.core.plan import Plan, Step
    from inventory.core.shortage import Netting
    from inventory.jobs.acts import Bench
    from inventory.store.database import Connection
    from inventory.store.kits import Kit
    from inventory.store.names import PartName
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
    plan = _described(current_plan(db, kit.id), all_parts(db, kit.id))
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


def _sums(there: Iterable[Lying], kind: PlaceKind) -> Counter[Item]:
    sums: Counter[Item] = Counter()
    for lies in there:
        if lies.place.kind is kind:
            sums[lies.item] += lies.quantity
    return sums


def _due(db: Connection, kit: Kit) -> list[Due]:
    """Return what is still to come: back-orders, and what nobody counted yet in open crates."""
    lines = current_lines(db, kit.id)
    counts = [each.count for each in counts_that_stand(all_counts(db, kit.id))]
    closed = {crate for crate, event in crate_states(db, kit.id).items() if event == "closed"}
    due: list[Due] = []
    for one in tally(lines, counts).lines:
        if one.line.back_ordered:
            due.append(_coming(one.line, one.line.back_ordered, _back_order_words(one.line)))
        uncounted = one.line.shipped - one.pieces_received
        if one.line.crate not in closed and uncounted > 0:
            crate = crate_code(one.line.crate, one.line.bag)
            due.append(_coming(one.line, uncounted, f"crate {crate}, not counted yet"))
    return due


def _coming(line: PackingLine, quantity: int, source: str) -> Due:
    return Due(part=line.part, hand=line.hand, length=line.length, quantity=quantity, source=source)


def _back_order_words(line: PackingLine) -> str:
    where = f"back-order, row {line.row} of the packing list"
    return f"{where} ({line.remark})" if line.remark else where
