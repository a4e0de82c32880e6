"""Build order and ties of each need, with an index that nets a large plan without its rows."""

from __future__ import annotations

from inventory.store.migrations.sql import create

revision = "0009"
down_revision = "0008"


def upgrade() -> None:
    """Add the columns and the index; needs saved before keep rank 0 and are netted one by one."""
    create("ALTER TABLE need ADD COLUMN rank INTEGER DEFAULT 0 NOT NULL")
    create("ALTER TABLE need ADD COLUMN tied INTEGER DEFAULT 0 NOT NULL")
    create(
        "CREATE INDEX ix_need_netting ON need "
        '(kit, "plan", part, hand, length, rank, quantity, spare, tied)'
    )
