"""The plan cut down to what may be short: totals first, then only those parts' lines.

What a part lacks depends on its own lines alone, unless a person or the plan ties it to others:
by a stand-in, an alternate, a sub-assembly, a preparation, by being cut or lent. Parts without
such ties whose free stock suffices for all that is asked are short nowhere, so that their lines
need not be read. The pure netting of the whole plan stays the measure: tests hold both equal on
random plans.
"""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import case, func, literal, select, tuple_

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.planning.open_needs import Pool, supply_of
from inventory.core.planning.plan import Plan, steps_in_order
from inventory.store.planning.plans import (
    current_plan_id,
    needs_of_parts,
    of_step,
    plan_without_needs,
)
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.planning import need as need_table

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping

    from sqlalchemy import ColumnElement, Connection

    from inventory.core.planning.workshop import Workshop

_HANDS = {hand.value: hand for hand in Hand}


@frozen
class Total:
    """What is asked of one part of one hand and length."""

    part: int
    pool: Pool
    quantity: int
    with_spare: int
    before: int
    """Of the quantity, what the steps before a given one ask for."""
    tied: bool
    """Whether its lines have to be looked at one by one."""


@frozen
class Moment:
    """A plan and a workshop of one moment, for many questions."""

    kit: int
    number: int
    """Of the plan."""
    plan: Plan
    """Its steps in build order, without needs."""
    workshop: Workshop
    supply: Mapping[Pool, int]
    parts: Mapping[int, str]
    """Keys of all parts, by their numbers."""
    tied: frozenset[str]
    """Parts that a stand-in or a sub-assembly ties to other lines."""
    apart: frozenset[str]
    """Parts of which pieces fit either side, are set aside, or are issued to a step not done."""
    open_lines: ColumnElement[bool]
    """The condition that a line is of this plan, and of a step not done."""

    def rank(self, code: str) -> int:
        """Return a step's place in build order, from 1."""
        return next(rank for rank, step in enumerate(self.plan.steps, 1) if step.code == code)


def moment(db: Connection, kit: int, workshop: Workshop) -> Moment | None:
    """Return what stands at this moment; None where no plan was read yet."""
    number = current_plan_id(db, kit)
    if number is None:
        return None
    plan = plan_without_needs(db, kit, number)
    plan = replace(plan, steps=tuple(steps_in_order(plan.steps)))
    c = need_table.c
    open_lines = (c.kit == kit) & (c.plan == number)
    done = [rank for rank, step in enumerate(plan.steps, 1) if step.code in workshop.done]
    names = select(part_table.c.id, part_table.c.key).where(part_table.c.kit == kit)
    supply = supply_of(workshop)
    return Moment(
        kit=kit,
        number=number,
        plan=plan,
        workshop=workshop,
        supply=supply,
        parts=dict(db.execute(names).all()),
        tied=frozenset({step.makes for step in plan.steps if step.makes})
        | {part for each in workshop.stand_ins for part in (each.part, each.instead)},
        apart=frozenset(pool.part for pool in supply if pool.kept_for or pool.hand is Hand.EITHER)
        | {item.part for step, item in workshop.issued if step not in workshop.done},
        open_lines=open_lines & c.rank.not_in(done) if done else open_lines,
    )


def totals(
    db: Connection, at: Moment, *where: ColumnElement[bool], before: int = 0
) -> Iterator[Total]:
    """Yield what the steps not done ask for, part by part; `before` is the rank of a step."""
    c = need_table.c
    earlier = func.sum(case((c.rank < before, c.quantity), else_=0)) if before else literal(0)
    rows = db.execute(
        select(
            c.part,
            c.hand,
            c.length,
            func.sum(c.quantity),
            func.sum(c.spare),
            earlier,
            func.max(c.tied),
            func.min(c.rank),
        )
        .where(at.open_lines, *where)
        .group_by(c.part, c.hand, c.length)
    ).all()
    for part, hand, length, quantity, spare, claimed, tied, rank in rows:
        key = at.parts[part]
        yield Total(
            part,
            Pool(key, _HANDS[hand], length),
            int(quantity),
            int(quantity + spare),
            int(claimed),
            bool(tied) or not rank or key in at.tied,
        )


def plan_of_scarce(db: Connection, kit: int, workshop: Workshop) -> Plan:
    """Return the plan that counts with all its steps, but only the needs that may be short."""
    at = moment(db, kit, workshop)
    if at is None:
        return Plan()
    parts = dict.fromkeys(
        total.part
        for total in totals(db, at)
        if total.tied or total.with_spare > at.supply.get(total.pool, 0)
    )
    return plan_of_parts(db, at, parts)


def plan_bearing_on(db: Connection, kit: int, workshop: Workshop, step: str) -> Plan:
    """Return the plan that counts with all its steps, but only the needs that bear on one step's.

    Those of the same parts, of parts that stand in for them or the other way round, and of the
    alternates of all these.
    """
    at = moment(db, kit, workshop)
    if at is None:
        return Plan()
    c = need_table.c
    own = select(c.part).where(at.open_lines, of_step(kit, at.number, step))
    return plan_of_parts(db, at, akin(db, at, set(db.execute(own).scalars())))


def plan_of_parts(db: Connection, at: Moment, parts: Iterable[int]) -> Plan:
    """Return the plan with the needs of some parts."""
    return replace(at.plan, needs=needs_of_parts(db, at.kit, at.number, list(parts)))


def akin(db: Connection, at: Moment, parts: set[int]) -> list[int]:
    """Return the numbers of these parts and of all that their shortages hang on."""
    c = need_table.c
    numbers = {key: part for part, key in at.parts.items() if key in at.tied}
    pairs = [
        {numbers[key] for key in (each.part, each.instead) if key in numbers}
        for each in at.workshop.stand_ins
    ]
    found, new = set(parts), set(parts)
    while new:
        in_groups = select(c.step, c.one_of).where(at.open_lines, c.one_of != "", c.part.in_(new))
        groups = {(step, word) for step, word in db.execute(in_groups)}
        beside: set[int] = set()
        if groups:
            alternates = tuple_(c.step, c.one_of).in_(sorted(groups))
            beside = set(db.execute(select(c.part).where(at.open_lines, alternates)).scalars())
        kin = {part for pair in pairs if not new.isdisjoint(pair) for part in pair}
        new = (beside | kin) - found
        found |= new
    return sorted(found)
