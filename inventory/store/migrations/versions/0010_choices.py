"""What SQLite should know of a large kit before it chooses an index."""

from __future__ import annotations

from inventory.store.migrations.choices import tell_choices

revision = "0010"
down_revision = "0009"


def upgrade() -> None:
    """Tell it."""
    tell_choices()
