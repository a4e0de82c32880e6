"""Counts of crates and bags."""

from __future__ import annotations

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0003"
down_revision = "0002"

_TABLES = (
    """
CREATE TABLE count (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    crate TEXT NOT NULL,
    bag TEXT DEFAULT '' NOT NULL,
    part INTEGER NOT NULL,
    printed TEXT NOT NULL,
    hand TEXT NOT NULL,
    lot TEXT DEFAULT '' NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    good INTEGER DEFAULT 0 NOT NULL,
    damaged INTEGER DEFAULT 0 NOT NULL,
    wrong INTEGER DEFAULT 0 NOT NULL,
    about INTEGER DEFAULT 0 NOT NULL,
    method TEXT DEFAULT 'counted' NOT NULL,
    remarks TEXT DEFAULT '[]' NOT NULL,
    revision TEXT DEFAULT '' NOT NULL,
    expires TEXT DEFAULT '' NOT NULL,
    instead_of TEXT DEFAULT '' NOT NULL,
    person TEXT DEFAULT '' NOT NULL,
    recount INTEGER DEFAULT 0 NOT NULL,
    note TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_count PRIMARY KEY (kit, id),
    CONSTRAINT ck_count_pieces CHECK (good >= 0 AND damaged >= 0 AND wrong >= 0),
    CONSTRAINT fk_count_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_count_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE crate_event (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    crate TEXT NOT NULL,
    event TEXT NOT NULL,
    CONSTRAINT pk_crate_event PRIMARY KEY (kit, id),
    CONSTRAINT fk_crate_event_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id)
)
""",
)
_INDEXES = (
    "CREATE INDEX ix_count_kit_crate ON count (kit, crate)",
    "CREATE INDEX ix_count_kit_slip ON count (kit, slip)",
)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    make_append_only("count", "kit id")
    make_append_only("crate_event", "kit id")
