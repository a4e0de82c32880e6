"""Choices kept for the whole store."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import delete, insert, select

from inventory.store.tables.kits import setting as setting_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

STORE_ID = "store id"
"""Name of the setting that tells this store from others; printed on every paper."""


def setting(db: Connection, name: str, otherwise: str = "") -> str:
    """Return a choice, or `otherwise` where nobody made it."""
    c = setting_table.c
    value = db.execute(select(c.value).where(c.name == name)).scalar()
    return otherwise if value is None else value


def set_setting(db: Connection, name: str, value: str) -> None:
    """Keep a choice."""
    db.execute(delete(setting_table).where(setting_table.c.name == name))
    db.execute(insert(setting_table).values(name=name, value=value))


def settings_like(db: Connection, prefix: str) -> dict[str, str]:
    """Return the choices whose names begin with a word."""
    c = setting_table.c
    rows = db.execute(select(c.name, c.value).where(c.name.startswith(prefix)).order_by(c.name))
    return dict(rows.all())
