"""One step's needs netted by what bears on them, however large the plan is."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.planning.plan import Plan, steps_in_order
from inventory.core.planning.shortage import net

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.items import Item
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import Netting
    from inventory.core.planning.workshop import Due, Workshop


class PlanIndex:
    """A plan and a workshop with everything at hand by part, for many questions in one session."""

    def __init__(self, plan: Plan, workshop: Workshop) -> None:
        self._plan = plan
        self._workshop = workshop
        self._order = steps_in_order(plan.steps)
        self._rank = {each.code: rank for rank, each in enumerate(self._order)}
        self._by_part: defaultdict[str, list[int]] = defaultdict(list)
        self._by_step: defaultdict[str, list[int]] = defaultdict(list)
        self._groups: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
        self._akin: defaultdict[str, set[str]] = defaultdict(set)
        for place, need in enumerate(plan.needs):
            self._by_part[need.part].append(place)
            self._by_step[need.step].append(place)
            if need.one_of:
                self._groups[need.step, need.one_of].append(place)
        for each in workshop.stand_ins:
            self._akin[each.part].add(each.instead)
            self._akin[each.instead].add(each.part)
        self._usable: defaultdict[str, dict[Item, int]] = defaultdict(dict)
        for item, quantity in workshop.usable.items():
            self._usable[item.part][item] = quantity
        self._due: defaultdict[str, list[Due]] = defaultdict(list)
        for due in workshop.due:
            self._due[due.part].append(due)

    def net_step(self, step: str) -> Netting:
        """Net the needs that compete with this step's for the same pieces; others aren't there.

        For the step itself the answer is that of netting the whole plan.
        """
        chosen, parts = self._bearing_on(step)
        needs = self._up_to(step, [self._plan.needs[place] for place in sorted(chosen)])
        codes = {need.step for need in needs}
        steps = tuple(each for each in self._order if each.code in codes or each.makes in parts)
        workshop = replace(
            self._workshop,
            usable={
                item: quantity
                for part in parts
                for item, quantity in self._usable.get(part, {}).items()
            },
            due=tuple(due for part in sorted(parts) for due in self._due.get(part, ())),
        )
        return net(Plan(steps=steps, needs=needs), workshop)

    def _up_to(self, step: str, needs: list[Need]) -> tuple[Need, ...]:
        """Leave out what comes after the step: later steps take nothing from earlier ones.

        Only which alternate an earlier step uses can depend on them.
        """
        if any(need.one_of for need in needs):
            return tuple(needs)
        last = self._rank.get(step, 0)
        return tuple(need for need in needs if self._rank[need.step] <= last)

    def _bearing_on(self, step: str) -> tuple[set[int], set[str]]:
        """Return the places of the needs that bear on a step's, and the parts they may draw on.

        Needs of the same parts, of parts that stand in for them or that they stand in for, and
        alternates of all these.
        """
        chosen: set[int] = set()
        parts: set[str] = set()
        waiting = list(self._by_step.get(step, ()))
        while waiting:
            place = waiting.pop()
            if place in chosen:
                continue
            chosen.add(place)
            need = self._plan.needs[place]
            waiting += self._groups.get((need.step, need.one_of), ())
            if need.part not in parts:
                waiting += self._of_parts(need.part, parts)
        return chosen, parts

    def _of_parts(self, part: str, parts: set[str]) -> Iterable[int]:
        """Add a part and its kin; return the needs of all of them."""
        new = {part, *self._akin.get(part, ())}
        parts.add(part)
        parts |= new - set(self._by_part)
        return [place for each in new for place in self._by_part.get(each, ())]
