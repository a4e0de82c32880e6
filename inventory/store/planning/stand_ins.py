"""Decisions that another part may be used: who decided, by what source; the newest counts."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.workshop import StandIn
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.tables.preparing import stand_in as stand_in_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@frozen(kw_only=True)
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
    add_row(
        db,
        stand_in_table,
        kit,
        slip,
        part=parts[stand_in.part],
        instead=parts[stand_in.instead],
        step=stand_in.step,
        decided=stand_in.decided,
        allowed=int(allowed),
    )


def all_decisions(db: Connection, kit: int) -> list[Decision]:
    """Return every decision that isn't undone, oldest first."""
    return [
        Decision(
            act=row["slip"],
            stand_in=StandIn(row["part_key"], row["instead_key"], row["step"], row["decided"]),
            allowed=bool(row["allowed"]),
            person=row["acted_by"],
            on=date.fromisoformat(row["acted_on"]),
        )
        for row in rows_that_count(db, stand_in_table, kit)
    ]


def stand_ins_that_count(db: Connection, kit: int) -> list[StandIn]:
    """Return what may be used instead of what, as the newest decisions say."""
    newest = {
        (each.stand_in.part, each.stand_in.instead, each.stand_in.step): each
        for each in all_decisions(db, kit)
    }
    return [each.stand_in for each in newest.values() if each.allowed]
