"""Packing lists: the list, every source row, the lines."""

from __future__ import annotations

from inventory.store.migrations.append_only import make_append_only
from inventory.store.migrations.sql import create

revision = "0002"
down_revision = "0001"

_TABLES = (
    """
CREATE TABLE packing_list (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    slip INTEGER NOT NULL,
    source TEXT NOT NULL,
    sha256 TEXT NOT NULL,
    supplier TEXT DEFAULT '' NOT NULL,
    order_number TEXT DEFAULT '' NOT NULL,
    revision TEXT DEFAULT '' NOT NULL,
    replaces INTEGER,
    CONSTRAINT pk_packing_list PRIMARY KEY (kit, id),
    CONSTRAINT fk_packing_list_kit_slip FOREIGN KEY(kit, slip) REFERENCES slip (kit, id),
    CONSTRAINT fk_packing_list_kit_replaces FOREIGN KEY(kit, replaces) REFERENCES packing_list (kit, id)
)
""",
    """
CREATE TABLE line (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    packing_list INTEGER NOT NULL,
    sheet TEXT NOT NULL,
    "row" INTEGER NOT NULL,
    part INTEGER NOT NULL,
    printed TEXT NOT NULL,
    description TEXT DEFAULT '' NOT NULL,
    hand TEXT NOT NULL,
    ordered INTEGER NOT NULL,
    shipped INTEGER NOT NULL,
    back_ordered INTEGER DEFAULT 0 NOT NULL,
    measure TEXT DEFAULT 'pieces' NOT NULL,
    unit TEXT DEFAULT 'EA' NOT NULL,
    length INTEGER DEFAULT 0 NOT NULL,
    count_rule TEXT DEFAULT 'counted' NOT NULL,
    crate TEXT DEFAULT '' NOT NULL,
    bag TEXT DEFAULT '' NOT NULL,
    sub_kit TEXT DEFAULT '' NOT NULL,
    revision TEXT DEFAULT '' NOT NULL,
    remark TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_line PRIMARY KEY (kit, id),
    CONSTRAINT ck_line_quantities CHECK (ordered >= 0 AND shipped >= 0 AND back_ordered >= 0),
    CONSTRAINT fk_line_kit_packing_list FOREIGN KEY(kit, packing_list) REFERENCES packing_list (kit, id),
    CONSTRAINT fk_line_kit_part FOREIGN KEY(kit, part) REFERENCES part (kit, id)
)
""",
    """
CREATE TABLE source_row (
    kit INTEGER NOT NULL,
    id INTEGER NOT NULL,
    packing_list INTEGER NOT NULL,
    sheet TEXT NOT NULL,
    "row" INTEGER NOT NULL,
    row_class TEXT NOT NULL,
    why TEXT DEFAULT '' NOT NULL,
    cells TEXT NOT NULL,
    CONSTRAINT pk_source_row PRIMARY KEY (kit, id),
    CONSTRAINT fk_source_row_kit_packing_list FOREIGN KEY(kit, packing_list) REFERENCES packing_list (kit, id)
)
""",
)
_INDEXES = (
    "CREATE INDEX ix_line_kit_packing_list ON line (kit, packing_list)",
    "CREATE INDEX ix_line_kit_part ON line (kit, part)",
    "CREATE INDEX ix_source_row_kit_packing_list ON source_row (kit, packing_list)",
)


def upgrade() -> None:
    """Make the tables, their indexes and their triggers."""
    for statement in (*_TABLES, *_INDEXES):
        create(statement)
    make_append_only("packing_list", "kit id")
    make_append_only("source_row", "kit id")
    make_append_only("line", "kit id")
