"""Revision of a part that the plans ask for."""

from __future__ import annotations

from inventory.store.migrations.sql import create

revision = "0012"
down_revision = "0011"


def upgrade() -> None:
    """Add the column; a plan read before says of no part which revision it asks for."""
    create("ALTER TABLE need ADD COLUMN revision TEXT DEFAULT '' NOT NULL")
