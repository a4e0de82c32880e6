"""What people decide and prepare before a step, what is bought, and where a plan's rows stand."""

from __future__ import annotations

from alembic import op

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0008"
down_revision = "0007"

_COLUMNS = (
    """ALTER TABLE "plan" ADD COLUMN notes TEXT DEFAULT '[]' NOT NULL""",
    "ALTER TABLE step ADD COLUMN cell TEXT DEFAULT '' NOT NULL",
    "ALTER TABLE need ADD COLUMN cell TEXT DEFAULT '' NOT NULL",
)
_TABLES = (
    """
CREATE TABLE set_aside (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    step TEXT NOT NULL,
    item INTEGER NOT NULL,
    quantity INTEGER NOT NULL,
    CONSTRAINT pk_set_aside PRIMARY KEY (kit, id),
    CONSTRAINT ck_set_aside_quantity CHECK (quantity >= 0),
    CONSTRAINT fk_set_aside_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_set_aside_kit_item FOREIGN KEY(kit, item) REFERENCES item (kit, id)
)
""",
    """
CREATE TABLE stand_in (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    "instead" INTEGER NOT NULL,
    step TEXT DEFAULT '' NOT NULL,
    decided TEXT NOT NULL,
    allowed INTEGER DEFAULT 1 NOT NULL,
    CONSTRAINT pk_stand_in PRIMARY KEY (kit, id),
    CONSTRAINT fk_stand_in_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_stand_in_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id),
    CONSTRAINT fk_stand_in_kit_instead FOREIGN KEY(kit, "instead") REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE preparation (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    item INTEGER NOT NULL,
    word TEXT NOT NULL,
    pieces INTEGER NOT NULL,
    CONSTRAINT pk_preparation PRIMARY KEY (kit, id),
    CONSTRAINT ck_preparation_pieces CHECK (pieces <> 0),
    CONSTRAINT fk_preparation_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_preparation_kit_item FOREIGN KEY(kit, item) REFERENCES item (kit, id)
)
""",
    """
CREATE TABLE lay_out (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    section TEXT NOT NULL,
    CONSTRAINT pk_lay_out PRIMARY KEY (kit, id),
    CONSTRAINT fk_lay_out_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id)
)
""",
    """
CREATE TABLE laid (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    lay_out INTEGER NOT NULL,
    item INTEGER NOT NULL,
    pieces INTEGER NOT NULL,
    CONSTRAINT pk_laid PRIMARY KEY (kit, id),
    CONSTRAINT ck_laid_pieces CHECK (pieces > 0),
    CONSTRAINT fk_laid_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_laid_kit_lay_out FOREIGN KEY(kit, lay_out) REFERENCES lay_out (kit, id),
    CONSTRAINT fk_laid_kit_item FOREIGN KEY(kit, item) REFERENCES item (kit, id)
)
""",
    """
CREATE TABLE lay_out_end (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    lay_out INTEGER NOT NULL,
    missing TEXT NOT NULL,
    CONSTRAINT pk_lay_out_end PRIMARY KEY (kit, id),
    CONSTRAINT fk_lay_out_end_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_lay_out_end_kit_lay_out FOREIGN KEY(kit, lay_out) REFERENCES lay_out (kit, id)
)
""",
    """
CREATE TABLE offer (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    supplier TEXT NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    price INTEGER,
    currency TEXT DEFAULT '' NOT NULL,
    days INTEGER DEFAULT 0 NOT NULL,
    CONSTRAINT pk_offer PRIMARY KEY (kit, id),
    CONSTRAINT ck_offer_amounts CHECK (length >= 0 AND price >= 0 AND days >= 0),
    CONSTRAINT fk_offer_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_offer_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE purchase (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    part INTEGER NOT NULL,
    hand TEXT NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    pieces INTEGER NOT NULL,
    supplier TEXT DEFAULT '' NOT NULL,
    reference TEXT DEFAULT '' NOT NULL,
    price INTEGER,
    currency TEXT DEFAULT '' NOT NULL,
    promised TEXT DEFAULT '' NOT NULL,
    latest TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_purchase PRIMARY KEY (kit, id),
    CONSTRAINT ck_purchase_amounts CHECK (pieces > 0 AND length >= 0 AND price >= 0),
    CONSTRAINT fk_purchase_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_purchase_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE purchase_event (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    purchase INTEGER NOT NULL,
    event TEXT NOT NULL,
    pieces INTEGER DEFAULT 0 NOT NULL,
    promised TEXT DEFAULT '' NOT NULL,
    latest TEXT DEFAULT '' NOT NULL,
    words TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_purchase_event PRIMARY KEY (kit, id),
    CONSTRAINT ck_purchase_event_pieces CHECK (pieces >= 0),
    CONSTRAINT fk_purchase_event_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_purchase_event_kit_purchase FOREIGN KEY(kit, purchase) REFERENCES purchase (kit, id)
)
""",
)


def upgrade() -> None:
    """Add the columns, make the tables and their triggers."""
    for statement in _COLUMNS:
        op.execute(statement)
    for statement in _TABLES:
        create(statement)
    make_append_only("set_aside", "kit id")
    make_append_only("stand_in", "kit id")
    make_append_only("preparation", "kit id")
    make_append_only("lay_out", "kit id")
    make_append_only("laid", "kit id")
    make_append_only("lay_out_end", "kit id")
    make_append_only("offer", "kit id")
    make_append_only("purchase", "kit id")
    make_append_only("purchase_event", "kit id")
