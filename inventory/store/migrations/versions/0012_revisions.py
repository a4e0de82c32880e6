"""Revision of a part that the plans ask for, and one way less to look for a part's needs."""

from __future__ import annotations

from alembic import op

from inventory.store.migrations.choices import tell_choices
from inventory.store.migrations.sql import create

revision = "0012"
down_revision = "0011"


def upgrade() -> None:
    """Add the column; a plan read before says of no part which revision it asks for.

    The index that netting reads finds a part as well. Beside the one of parts alone SQLite took
    that one, and then each row by itself: three times as long for a large plan.
    """
    create("ALTER TABLE need ADD COLUMN revision TEXT DEFAULT '' NOT NULL")
    op.execute("DROP INDEX ix_need_kit_part")
    tell_choices()
