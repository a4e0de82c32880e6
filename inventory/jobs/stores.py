"""Opening and beginning stores."""

from __future__ import annotations

from inventory.core.errors import NoStoreError
from inventory.store.opening import database
from inventory.store.opening.database import Store, begin_store

__all__ = ["Store", "open_or_begin", "open_store"]


def open_store(address: str) -> Store:
    """Open the store; an older one is backed up and brought up to date first."""
    return database.open_store(address, _before_upgrade)


def _before_upgrade(store: Store, schema: int) -> None:
    from inventory.jobs.record.backup_by_itself import before_upgrade

    before_upgrade(store, schema)


def open_or_begin(address: str) -> Store:
    """Open the store, or begin it where there is none yet."""
    try:
        return open_store(address)
    except NoStoreError:
        return begin_store(address)
