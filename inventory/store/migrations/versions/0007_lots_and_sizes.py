"""Weighings, lots, protective film, parts known by their measures."""

from __future__ import annotations

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0007"
down_revision = "0006"

_TABLES = (
    """
CREATE TABLE weighing (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    count INTEGER NOT NULL,
    readings TEXT NOT NULL,
    pieces_each INTEGER NOT NULL,
    spread INTEGER DEFAULT 0 NOT NULL,
    gross INTEGER NOT NULL,
    tare INTEGER DEFAULT 0 NOT NULL,
    step INTEGER NOT NULL,
    inside INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_weighing PRIMARY KEY (kit, id),
    CONSTRAINT ck_weighing_masses CHECK (gross > 0 AND tare >= 0 AND step > 0),
    CONSTRAINT fk_weighing_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_weighing_kit_count FOREIGN KEY(kit, count) REFERENCES count (kit, id)
)
""",
    """
CREATE TABLE lot (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    lot TEXT NOT NULL,
    certificate TEXT DEFAULT '' NOT NULL,
    life TEXT DEFAULT 'not marked' NOT NULL,
    made TEXT DEFAULT '' NOT NULL,
    months INTEGER DEFAULT 0 NOT NULL,
    expires TEXT DEFAULT '' NOT NULL,
    opened TEXT DEFAULT '' NOT NULL,
    open_days INTEGER DEFAULT 0 NOT NULL,
    failed_test INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_lot PRIMARY KEY (kit, id),
    CONSTRAINT fk_lot_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_lot_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE film (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    event TEXT NOT NULL,
    day TEXT NOT NULL,
    CONSTRAINT pk_film PRIMARY KEY (kit, id),
    CONSTRAINT fk_film_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_film_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE identification (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    crate TEXT NOT NULL,
    bag TEXT DEFAULT '' NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    pieces INTEGER NOT NULL,
    measured TEXT NOT NULL,
    tail INTEGER NOT NULL,
    CONSTRAINT pk_identification PRIMARY KEY (kit, id),
    CONSTRAINT ck_identification_pieces CHECK (pieces > 0),
    CONSTRAINT fk_identification_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_identification_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE identification_event (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    identification INTEGER NOT NULL,
    event TEXT NOT NULL,
    CONSTRAINT pk_identification_event PRIMARY KEY (kit, id),
    CONSTRAINT fk_identification_event_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_identification_event_kit_identification FOREIGN KEY(kit, identification) REFERENCES identification (kit, id)
)
""",
    """
CREATE TABLE part_size (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    "plan" INTEGER NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    thickness INTEGER DEFAULT 0 NOT NULL,
    width INTEGER DEFAULT 0 NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    holes INTEGER,
    CONSTRAINT pk_part_size PRIMARY KEY (kit, "plan", id),
    CONSTRAINT ck_part_size_sizes CHECK (thickness >= 0 AND width >= 0 AND length >= 0),
    CONSTRAINT fk_part_size_kit_plan FOREIGN KEY(kit, "plan") REFERENCES "plan" (kit, id),
    CONSTRAINT fk_part_size_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
)
_INDEXES = ("CREATE INDEX ix_lot_kit_part ON lot (kit, part)",)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    make_append_only("weighing", "kit id")
    make_append_only("lot", "kit id")
    make_append_only("film", "kit id")
    make_append_only("identification", "kit id")
    make_append_only("identification_event", "kit id")
    make_append_only("part_size", "kit plan id")
