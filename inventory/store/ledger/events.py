"""Events of crates and steps: opened, closed, started, done, reopened."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.tables.counting import crate_event as crate_table
from inventory.store.tables.planning import step_event as step_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


def add_crate_event(db: Connection, kit: int, slip: int, crate: str, event: str) -> None:
    """Record that a crate was opened or closed."""
    add_row(db, crate_table, kit, slip, crate=crate, event=event)


def crate_states(db: Connection, kit: int) -> dict[str, str]:
    """Return the newest event of each crate that has one and isn't undone."""
    return {row["crate"]: row["event"] for row in rows_that_count(db, crate_table, kit)}


def add_step_event(db: Connection, kit: int, slip: int, step: str, event: str) -> None:
    """Record that a step was started, done, done before the record began, or reopened."""
    add_row(db, step_table, kit, slip, step=step, event=event)


def step_states(db: Connection, kit: int) -> dict[str, str]:
    """Return the newest event of each step that has one and isn't undone."""
    return {row["step"]: row["event"] for row in rows_that_count(db, step_table, kit)}
