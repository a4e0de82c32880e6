"""Kits, parts, items, places and the ledger."""

from __future__ import annotations

from inventory.store.migrations.append_only import keep_columns, make_append_only
from inventory.store.migrations.balances import keep_balances
from inventory.store.migrations.sql import create

revision = "0001"
down_revision = None

_TABLES = (
    """
CREATE TABLE answer (
    kit INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    asked TEXT NOT NULL,
    status INTEGER NOT NULL,
    body TEXT NOT NULL,
    CONSTRAINT pk_answer PRIMARY KEY (kit, "key")
)
""",
    """
CREATE TABLE balance (
    kit INTEGER NOT NULL,
    place INTEGER NOT NULL,
    item INTEGER NOT NULL,
    quantity INTEGER NOT NULL,
    CONSTRAINT pk_balance PRIMARY KEY (kit, place, item)
)
""",
    """
CREATE TABLE kit (
    id INTEGER NOT NULL,
    code TEXT NOT NULL,
    name TEXT NOT NULL,
    created_at TEXT NOT NULL,
    CONSTRAINT pk_kit PRIMARY KEY (id)
)
""",
    """
CREATE TABLE part (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    printed TEXT NOT NULL,
    description TEXT DEFAULT '' NOT NULL,
    measure TEXT DEFAULT 'pieces' NOT NULL,
    minimum INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_part PRIMARY KEY (kit, id),
    CONSTRAINT uq_part_kit_key UNIQUE (kit, "key")
)
""",
    """
CREATE TABLE place (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    kind TEXT NOT NULL,
    code TEXT DEFAULT '' NOT NULL,
    shelf TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_place PRIMARY KEY (kit, id),
    CONSTRAINT uq_place_kit_kind_code UNIQUE (kit, kind, code)
)
""",
    """
CREATE TABLE setting (
    name TEXT NOT NULL,
    value TEXT NOT NULL,
    CONSTRAINT pk_setting PRIMARY KEY (name)
)
""",
    """
CREATE TABLE slip (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    "key" TEXT NOT NULL,
    act TEXT NOT NULL,
    person TEXT DEFAULT '' NOT NULL,
    device TEXT DEFAULT '' NOT NULL,
    happened_on TEXT NOT NULL,
    recorded_at TEXT NOT NULL,
    note TEXT DEFAULT '' NOT NULL,
    asked TEXT DEFAULT '' NOT NULL,
    undoes INTEGER,
    CONSTRAINT pk_slip PRIMARY KEY (kit, id),
    CONSTRAINT uq_slip_kit_key UNIQUE (kit, "key"),
    CONSTRAINT uq_slip_kit_undoes UNIQUE (kit, undoes),
    CONSTRAINT fk_slip_kit_undoes FOREIGN KEY(kit, undoes) REFERENCES slip (kit, id)
)
""",
    """
CREATE TABLE item (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    lot TEXT DEFAULT '' NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    state TEXT DEFAULT 'new' NOT NULL,
    CONSTRAINT pk_item PRIMARY KEY (kit, id),
    CONSTRAINT uq_item_kit_part_hand_lot_length_state UNIQUE (kit, part, hand, lot, length, state),
    CONSTRAINT ck_item_length CHECK (length >= 0),
    CONSTRAINT fk_item_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE movement (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    item INTEGER NOT NULL,
    quantity INTEGER NOT NULL,
    origin INTEGER NOT NULL,
    destination INTEGER NOT NULL,
    chain BLOB NOT NULL,
    CONSTRAINT pk_movement PRIMARY KEY (kit, id),
    CONSTRAINT ck_movement_quantity CHECK (quantity > 0 AND quantity <= 1000000000000000),
    CONSTRAINT ck_movement_two_places CHECK (origin <> destination),
    CONSTRAINT ck_movement_chain CHECK (length(chain) = 32),
    CONSTRAINT fk_movement_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_movement_kit_item FOREIGN KEY(kit, item) REFERENCES item (kit, id),
    CONSTRAINT fk_movement_kit_origin FOREIGN KEY(kit, origin) REFERENCES place (kit, id),
    CONSTRAINT fk_movement_kit_destination FOREIGN KEY(kit, destination) REFERENCES place (kit, id)
)
""",
    """
CREATE TABLE tag (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    code TEXT NOT NULL,
    subject TEXT NOT NULL,
    place INTEGER,
    item INTEGER,
    CONSTRAINT pk_tag PRIMARY KEY (kit, id),
    CONSTRAINT uq_tag_kit_code UNIQUE (kit, code),
    CONSTRAINT fk_tag_kit_place FOREIGN KEY(kit, place) REFERENCES place (kit, id),
    CONSTRAINT fk_tag_kit_item FOREIGN KEY(kit, item) REFERENCES item (kit, id)
)
""",
)
_INDEXES = (
    "CREATE INDEX ix_balance_kit_item ON balance (kit, item)",
    "CREATE INDEX ix_movement_kit_item ON movement (kit, item)",
    "CREATE INDEX ix_movement_kit_slip ON movement (kit, slip)",
)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    keep_columns("kit", "id code", "id")
    keep_columns("part", "kit id key", "kit id", "kit key")
    keep_columns("place", "kit id kind code", "kit id", "kit kind code")
    make_append_only("item", "kit id", "kit part hand lot length state")
    make_append_only("tag", "kit id", "kit code")
    make_append_only("slip", "kit id", "kit key", "kit undoes")
    make_append_only("movement", "kit id")
    keep_balances()
