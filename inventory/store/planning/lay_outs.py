"""Lay-outs of a section: which parts were laid down and identified, and what was missing."""

from __future__ import annotations

import json
from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand, Item, State
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import item_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table
from inventory.store.tables.preparing import laid as laid_table
from inventory.store.tables.preparing import lay_out as lay_out_table
from inventory.store.tables.preparing import lay_out_end as end_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class LayOut:
    """One lay-out as it stands in the record."""

    id: int
    section: str
    person: str
    on: date
    laid: tuple[tuple[Item, int], ...] = ()
    """What was laid down, in the order it was."""
    ended: date | None = None
    missing: tuple[dict[str, str], ...] = field(default=())
    """What was missing at its end, in words."""


def begin_lay_out(db: Connection, kit: int, slip: int, section: str) -> int:
    """Record that a lay-out begins; return its number."""
    number = next_id(db, lay_out_table, kit)
    db.execute(insert(lay_out_table).values(kit=kit, id=number, slip=slip, section=section))
    return number


def add_laid(
    db: Connection, kit: int, slip: int, lay_out: int, laid: Sequence[tuple[Item, int]]
) -> None:
    """Record pieces as laid down and identified."""
    items = item_ids(db, kit, [item for item, _ in laid])
    first = next_id(db, laid_table, kit)
    rows = [
        {
            "kit": kit,
            "id": first + place,
            "slip": slip,
            "lay_out": lay_out,
            "item": items[item],
            "pieces": pieces,
        }
        for place, (item, pieces) in enumerate(laid)
    ]
    db.execute(insert(laid_table), rows)


def end_lay_out(
    db: Connection, kit: int, slip: int, lay_out: int, missing: Sequence[dict[str, str]]
) -> None:
    """Record the end of a lay-out with what is missing."""
    db.execute(
        insert(end_table).values(
            kit=kit,
            id=next_id(db, end_table, kit),
            slip=slip,
            lay_out=lay_out,
            missing=json.dumps(list(missing), ensure_ascii=False),
        )
    )


def all_lay_outs(db: Connection, kit: int) -> list[LayOut]:
    """Return the lay-outs that aren't undone, oldest first."""
    undone = undone_slips(db, kit)
    laid = _laid(db, kit, undone)
    ends = _ends(db, kit, undone)
    c, s = lay_out_table.c, slip_table.c
    rows = db.execute(
        select(c.id, c.slip, c.section, s.person, s.happened_on)
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [
        LayOut(
            id=number,
            section=section,
            person=person,
            on=date.fromisoformat(day),
            laid=tuple((item, pieces) for of, item, pieces in laid if of == number),
            ended=ends[number][0] if number in ends else None,
            missing=ends[number][1] if number in ends else (),
        )
        for number, slip, section, person, day in rows
        if slip not in undone
    ]


def _laid(db: Connection, kit: int, undone: frozenset[int]) -> list[tuple[int, Item, int]]:
    c, i, p = laid_table.c, item_table.c, part_table.c
    rows = db.execute(
        select(c.slip, c.lay_out, c.pieces, p.key, i.hand, i.lot, i.length, i.state)
        .join(item_table, (i.kit == c.kit) & (i.id == c.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [
        (lay_out, Item(key, Hand(hand), lot, length, State(state)), pieces)
        for slip, lay_out, pieces, key, hand, lot, length, state in rows
        if slip not in undone
    ]


def _ends(
    db: Connection, kit: int, undone: frozenset[int]
) -> dict[int, tuple[date, tuple[dict[str, str], ...]]]:
    c, s = end_table.c, slip_table.c
    rows = db.execute(
        select(c.slip, c.lay_out, c.missing, s.happened_on)
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return {
        lay_out: (date.fromisoformat(day), tuple(json.loads(missing)))
        for slip, lay_out, missing, day in rows
        if slip not in undone
    }
