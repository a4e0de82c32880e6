"""Paired devices, and invitations to pair one."""

from __future__ import annotations

from inventory.store.migrations.append_only import keep_columns, make_append_only
from inventory.store.migrations.sql import create

revision = "0005"
down_revision = "0004"

_TABLES = (
    """
CREATE TABLE device (
    id INTEGER NOT NULL,
    name TEXT NOT NULL,
    person TEXT DEFAULT '' NOT NULL,
    secret TEXT NOT NULL,
    paired_at TEXT NOT NULL,
    revoked_at TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_device PRIMARY KEY (id),
    CONSTRAINT uq_device_name UNIQUE (name),
    CONSTRAINT uq_device_secret UNIQUE (secret)
)
""",
    """
CREATE TABLE invitation (
    token TEXT NOT NULL,
    expires_at TEXT NOT NULL,
    used_at TEXT DEFAULT '' NOT NULL,
    CONSTRAINT pk_invitation PRIMARY KEY (token)
)
""",
)


def upgrade() -> None:
    """Make the tables; no device is ever forgotten, and no first answer changed."""
    for statement in _TABLES:
        create(statement)
    keep_columns("device", "id name secret paired_at", "id", "name", "secret")
    keep_columns("invitation", "token expires_at", "token")
    make_append_only("answer", "kit key")
