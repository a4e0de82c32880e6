"""Events of crates and steps: opened, closed, started, done, reopened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.store.ledger.ids import next_id
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.counting import crate_event as crate_table
from inventory.store.tables.planning import step_event as step_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


def add_crate_event(db: Connection, kit: int, slip: int, crate: str, event: str) -> None:
    """Record that a crate was opened or closed."""
    number = next_id(db, crate_table, kit)
    db.execute(insert(crate_table).values(kit=kit, id=number, slip=slip, crate=crate, event=event))


def crate_states(db: Connection, kit: int) -> dict[str, str]:
    """Return the newest event of each crate that has one and isn't undone."""
    c = crate_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(select(c.crate, c.event, c.slip).where(c.kit == kit).order_by(c.id))
    return {crate: event for crate, event, slip in rows if slip not in undone}


def add_step_event(db: Connection, kit: int, slip: int, step: str, event: str) -> None:
    """Record that a step was started, done, done before the record began, or reopened."""
    number = next_id(db, step_table, kit)
    db.execute(insert(step_table).values(kit=kit, id=number, slip=slip, step=step, event=event))


def step_states(db: Connection, kit: int) -> dict[str, str]:
    """Return the newest event of each step that has one and isn't undone."""
    c = step_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(select(c.step, c.event, c.slip).where(c.kit == kit).order_by(c.id))
    return {step: event for step, event, slip in rows if slip not in undone}
