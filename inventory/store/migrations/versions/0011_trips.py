"""Movements by item and both ends, so that all balances are added up without sorting the ledger."""

from __future__ import annotations

from alembic import op

from inventory.store.migrations.choices import tell_choices
from inventory.store.migrations.sql import create

revision = "0011"
down_revision = "0010"


def upgrade() -> None:
    """Let the index by item carry all that a balance is added up from; no further one is kept."""
    op.execute("DROP INDEX ix_movement_kit_item")
    create(
        "CREATE INDEX ix_movement_kit_item_origin_destination_quantity "
        "ON movement (kit, item, origin, destination, quantity)"
    )
    tell_choices()
