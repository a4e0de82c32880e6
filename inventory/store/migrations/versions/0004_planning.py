"""The plan, its steps and needs, and how far each step has come."""

from __future__ import annotations

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0004"
down_revision = "0003"

_TABLES = (
    """
CREATE TABLE "plan" (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    source TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    replaces INTEGER,
    CONSTRAINT pk_plan PRIMARY KEY (kit, id),
    CONSTRAINT fk_plan_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_plan_kit_replaces FOREIGN KEY(kit, replaces) REFERENCES "plan" (kit, id)
)
""",
    """
CREATE TABLE step_event (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    step TEXT NOT NULL,
    event TEXT NOT NULL,
    CONSTRAINT pk_step_event PRIMARY KEY (kit, id),
    CONSTRAINT fk_step_event_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id)
)
""",
    """
CREATE TABLE need (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    "plan" INTEGER NOT NULL,
    step TEXT NOT NULL,
    part INTEGER NOT NULL,
    printed TEXT DEFAULT '' NOT NULL,
    description TEXT DEFAULT '' NOT NULL,
    hand TEXT NOT NULL,
    quantity INTEGER NOT NULL,
    spare INTEGER DEFAULT 0 NOT NULL,
    measure TEXT DEFAULT 'pieces' NOT NULL,
    kind TEXT DEFAULT 'part' NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    one_of TEXT DEFAULT '' NOT NULL,
    as_required INTEGER DEFAULT 0 NOT NULL,
    sheet TEXT DEFAULT '' NOT NULL,
    find_number TEXT DEFAULT '' NOT NULL,
    prepared TEXT DEFAULT '' NOT NULL,
    "row" INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_need PRIMARY KEY (kit, "plan", id),
    CONSTRAINT ck_need_quantities CHECK (quantity >= 0 AND spare >= 0 AND length >= 0),
    CONSTRAINT fk_need_kit_plan FOREIGN KEY(kit, "plan") REFERENCES "plan" (kit, id),
    CONSTRAINT fk_need_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE step (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    "plan" INTEGER NOT NULL,
    code TEXT NOT NULL,
    title TEXT DEFAULT '' NOT NULL,
    section TEXT DEFAULT '' NOT NULL,
    sub_assembly TEXT DEFAULT '' NOT NULL,
    "after" TEXT DEFAULT '[]' NOT NULL,
    makes TEXT DEFAULT '' NOT NULL,
    makes_hand TEXT DEFAULT 'none' NOT NULL,
    days INTEGER DEFAULT 0 NOT NULL,
    "row" INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_step PRIMARY KEY (kit, "plan", id),
    CONSTRAINT fk_step_kit_plan FOREIGN KEY(kit, "plan") REFERENCES "plan" (kit, id)
)
""",
)
_INDEXES = (
    "CREATE INDEX ix_step_event_kit_step ON step_event (kit, step)",
    "CREATE INDEX ix_need_kit_part ON need (kit, part)",
    'CREATE INDEX ix_need_kit_plan_step ON need (kit, "plan", step)',
)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    make_append_only("plan", "kit id")
    make_append_only("step", "kit plan id")
    make_append_only("need", "kit plan id")
    make_append_only("step_event", "kit id")
