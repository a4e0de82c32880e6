"""Opening and beginning stores."""

from __future__ import annotations

from inventory.core.errors import NoStoreError
from inventory.store.database import Store, begin_store, open_store

__all__ = ["Store", "open_or_begin", "open_store"]


def open_or_begin(address: str) -> Store:
    """Open the store, or begin it where there is none yet."""
    try:
        return open_store(address)
    except NoStoreError:
        return begin_store(address)
