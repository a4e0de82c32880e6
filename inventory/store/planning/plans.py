"""Plans: saved whole, and read back as steps and needs."""

from __future__ import annotations

import json
from dataclasses import replace
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand, Measure
from inventory.core.planning.plan import Need, NeedKind, PartSize, Plan, Step, steps_in_order
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.planning import need as need_table
from inventory.store.tables.planning import part_size as size_table
from inventory.store.tables.planning import plan as plan_table
from inventory.store.tables.planning import step as step_table

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from sqlalchemy import ColumnElement, Connection


def save_plan(db: Connection, kit: int, slip: int, plan: Plan) -> int:
    """Save a plan with its steps and needs; the newest one counts. Return its number."""
    number = next_id(db, plan_table, kit)
    db.execute(
        insert(plan_table).values(
            kit=kit,
            id=number,
            slip=slip,
            source=plan.source,
            sha256=plan.sha256,
            notes=json.dumps(plan.notes, ensure_ascii=False),
        )
    )
    steps = [_step_row(kit, number, place, step) for place, step in enumerate(plan.steps, 1)]
    if steps:
        db.execute(insert(step_table), steps)
    names = [
        PartName(need.part, need.printed or need.part, need.description, need.measure)
        for need in plan.needs
    ]
    parts = part_ids(db, kit, names)
    ranks = {step.code: rank for rank, step in enumerate(steps_in_order(plan.steps), 1)}
    needs = [
        {
            "kit": kit,
            "plan": number,
            "id": place,
            "part": parts[need.part],
            "rank": ranks.get(need.step, 0),
            **_need_row(need),
        }
        for place, need in enumerate(plan.needs, 1)
    ]
    if needs:
        db.execute(insert(need_table), needs)
    _save_sizes(db, kit, number, plan)
    return number


def _save_sizes(db: Connection, kit: int, number: int, plan: Plan) -> None:
    parts = part_ids(db, kit, [PartName(size.part, size.part) for size in plan.sizes])
    rows = [
        {
            "kit": kit,
            "plan": number,
            "id": place,
            "part": parts[size.part],
            "hand": size.hand.value,
            "thickness": size.thickness,
            "width": size.width,
            "length": size.length,
            "holes": size.holes,
        }
        for place, size in enumerate(plan.sizes, 1)
    ]
    if rows:
        db.execute(insert(size_table), rows)


def _step_row(kit: int, plan: int, place: int, step: Step) -> dict[str, object]:
    return {
        "kit": kit,
        "plan": plan,
        "id": place,
        "code": step.code,
        "title": step.title,
        "section": step.section,
        "sub_assembly": step.sub_assembly,
        "after": json.dumps(step.after, ensure_ascii=False),
        "makes": step.makes,
        "makes_hand": step.makes_hand.value,
        "days": step.days,
        "row": step.row,
        "cell": step.where,
    }


def _need_row(need: Need) -> dict[str, object]:
    return {
        "step": need.step,
        "printed": need.printed,
        "description": need.description,
        "hand": need.hand.value,
        "quantity": need.quantity,
        "spare": need.spare,
        "measure": need.measure.value,
        "kind": need.kind.value,
        "length": need.length,
        "one_of": need.one_of,
        "as_required": int(need.as_required),
        "sheet": need.sheet,
        "find_number": need.find_number,
        "revision": need.revision,
        "prepared": need.prepared,
        "row": need.row,
        "cell": need.where,
        "tied": int(_tied(need)),
    }


def _tied(need: Need) -> bool:
    """Say whether more than the total of its own part decides if it is short."""
    alone = need.kind in {NeedKind.PART, NeedKind.HARDWARE, NeedKind.CONSUMABLE}
    return bool(not alone or need.as_required or need.one_of or need.prepared)


def current_plan_id(db: Connection, kit: int) -> int | None:
    """Return the number of the newest plan that isn't undone, or None."""
    undone = undone_slips(db, kit)
    c = plan_table.c
    rows = db.execute(select(c.id, c.slip).where(c.kit == kit).order_by(c.id.desc()))
    return next((number for number, slip in rows if slip not in undone), None)


def current_plan(db: Connection, kit: int) -> Plan:
    """Return the plan that counts; one without steps where none was read yet."""
    number = current_plan_id(db, kit)
    if number is None:
        return Plan()
    return replace(plan_without_needs(db, kit, number), needs=_needs(db, kit, number))


def plan_without_needs(db: Connection, kit: int, number: int) -> Plan:
    """Return a plan as it was read, all but its needs."""
    c = plan_table.c
    head = db.execute(select(c.source, c.sha256, c.notes).where(c.kit == kit, c.id == number)).one()
    return Plan(
        source=head.source,
        sha256=head.sha256,
        steps=_steps(db, kit, number),
        sizes=_sizes(db, kit, number),
        notes=tuple(json.loads(head.notes)),
    )


def step_codes(db: Connection, kit: int) -> tuple[str, ...]:
    """Return the codes of the steps of the plan that counts, in its order."""
    c = step_table.c
    plan = current_plan_id(db, kit)
    rows = db.execute(select(c.code).where(c.kit == kit, c.plan == plan).order_by(c.id))
    return tuple(rows.scalars())


def needs_of(db: Connection, kit: int, plan: int, step: str) -> tuple[Need, ...]:
    """Return what one step of a plan uses."""
    return _needs(db, kit, plan, of_step(kit, plan, step))


def of_step(kit: int, plan: int, step: str) -> ColumnElement[bool]:
    """Return the condition that a need is of a step.

    Asked straight out, SQLite without statistics reads all needs of the plan in the order of the
    key; the numbers alone it finds by the step's index.
    """
    c = need_table.alias("of_step").c
    return need_table.c.id.in_(select(c.id).where(c.kit == kit, c.plan == plan, c.step == step))


_AT_ONCE = 500
"""So many part numbers are asked for in one question."""


def needs_of_parts(db: Connection, kit: int, plan: int, parts: Sequence[int]) -> tuple[Need, ...]:
    """Return what the steps use of some parts, by their numbers, in the order of the sheet."""
    found = [
        need
        for first in range(0, len(parts), _AT_ONCE)
        for need in _numbered(db, kit, plan, need_table.c.part.in_(parts[first : first + _AT_ONCE]))
    ]
    return tuple(need for _, need in sorted(found, key=lambda pair: pair[0]))


def preparation_asked(db: Connection, kit: int) -> list[tuple[str, str, str]]:
    """Return step, part and words of each need that asks for a preparation."""
    c, p = need_table.c, part_table.c
    rows = db.execute(
        select(c.step, p.key, c.prepared)
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit, c.plan == current_plan_id(db, kit), c.prepared != "")
    )
    return [(step, part, words) for step, part, words in rows]


def _steps(db: Connection, kit: int, plan: int) -> tuple[Step, ...]:
    c = step_table.c
    rows = db.execute(
        select(step_table).where(c.kit == kit, c.plan == plan).order_by(c.id)
    ).mappings()
    return tuple(
        Step(
            code=row["code"],
            title=row["title"],
            section=row["section"],
            sub_assembly=row["sub_assembly"],
            after=tuple(json.loads(row["after"])),
            makes=row["makes"],
            makes_hand=Hand(row["makes_hand"]),
            days=row["days"],
            row=row["row"],
            where=row["cell"],
        )
        for row in rows
    )


def _needs(db: Connection, kit: int, plan: int, *where: ColumnElement[bool]) -> tuple[Need, ...]:
    return tuple(need for _, need in _numbered(db, kit, plan, *where))


def _numbered(
    db: Connection, kit: int, plan: int, *where: ColumnElement[bool]
) -> Iterator[tuple[int, Need]]:
    c, p = need_table.c, part_table.c
    rows = db.execute(
        select(need_table, p.key.label("part_key"))
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit, c.plan == plan, *where)
        .order_by(c.id)
    ).mappings()
    for row in rows:
        yield (
            row["id"],
            Need(
                step=row["step"],
                part=row["part_key"],
                printed=row["printed"],
                description=row["description"],
                hand=Hand(row["hand"]),
                quantity=row["quantity"],
                spare=row["spare"],
                measure=Measure(row["measure"]),
                kind=NeedKind(row["kind"]),
                length=row["length"],
                one_of=row["one_of"],
                as_required=bool(row["as_required"]),
                sheet=row["sheet"],
                find_number=row["find_number"],
                revision=row["revision"],
                prepared=row["prepared"],
                row=row["row"],
                where=row["cell"],
            ),
        )


def _sizes(db: Connection, kit: int, plan: int) -> tuple[PartSize, ...]:
    c, p = size_table.c, part_table.c
    rows = db.execute(
        select(p.key, c.hand, c.thickness, c.width, c.length, c.holes)
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit, c.plan == plan)
        .order_by(c.id)
    )
    return tuple(
        PartSize(
            part=key,
            hand=Hand(hand),
            thickness=thickness,
            width=width,
            length=length,
            holes=holes,
        )
        for key, hand, thickness, width, length, holes in rows
    )
