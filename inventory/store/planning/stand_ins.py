"""Decisions that another part may be used: who decided, by what source; the newest counts."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.planning.workshop import StandIn
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table
from inventory.store.tables.preparing import stand_in as stand_in_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class Decision:
    """A decision on a stand-in, with who recorded it and when."""

    act: int
    stand_in: StandIn
    allowed: bool
    person: str
    on: date


def save_decision(db: Connection, kit: int, slip: int, stand_in: StandIn, *, allowed: bool) -> None:
    """Record that a part may be used instead of another from now on, or may no longer."""
    names = [PartName(key, key) for key in (stand_in.part, stand_in.instead)]
    parts = part_ids(db, kit, names)
    db.execute(
        insert(stand_in_table).values(
            kit=kit,
            id=next_id(db, stand_in_table, kit),
            slip=slip,
            part=parts[stand_in.part],
            instead=parts[stand_in.instead],
            step=stand_in.step,
            decided=stand_in.decided,
            allowed=int(allowed),
        )
    )


def all_decisions(db: Connection, kit: int) -> list[Decision]:
    """Return every decision that isn't undone, oldest first."""
    c, s = stand_in_table.c, slip_table.c
    part, instead = part_table.alias("part"), part_table.alias("other")
    rows = db.execute(
        select(
            c.slip, c.step, c.decided, c.allowed, s.person, s.happened_on,
            part.c.key.label("part_key"), instead.c.key.label("instead_key"),
        )
        .join(part, (part.c.kit == c.kit) & (part.c.id == c.part))
        .join(instead, (instead.c.kit == c.kit) & (instead.c.id == c.instead))
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    ).mappings().all()  # fmt: skip
    undone = undone_slips(db, kit) if rows else frozenset()
    return [
        Decision(
            act=row["slip"],
            stand_in=StandIn(row["part_key"], row["instead_key"], row["step"], row["decided"]),
            allowed=bool(row["allowed"]),
            person=row["person"],
            on=date.fromisoformat(row["happened_on"]),
        )
        for row in rows
        if row["slip"] not in undone
    ]


def stand_ins_that_count(db: Connection, kit: int) -> list[StandIn]:
    """Return what may be used instead of what, as the newest decisions say."""
    newest = {
        (each.stand_in.part, each.stand_in.instead, each.stand_in.step): each
        for each in all_decisions(db, kit)
    }
    return [each.stand_in for each in newest.values() if each.allowed]
