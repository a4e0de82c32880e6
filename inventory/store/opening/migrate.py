"""Brings a store to the schema of this program, whole or not at all."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.opening.engine import APPLICATION_ID

if TYPE_CHECKING:
    from sqlalchemy import Connection


def upgrade(connection: Connection, schema: int) -> None:
    """Run the numbered changes that the store lacks, in the caller's transaction."""
    # Alembic costs a third of a second to import: only a store that needs it pays.
    from alembic import command  # noqa: PLC0415
    from alembic.config import Config  # noqa: PLC0415

    config = Config()
    config.set_main_option("script_location", "inventory.store:migrations")
    config.set_main_option("path_separator", "os")
    config.attributes["connection"] = connection
    command.upgrade(config, f"{schema:04}")
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql(f"PRAGMA application_id={APPLICATION_ID}")
        connection.exec_driver_sql(f"PRAGMA user_version={schema}")
