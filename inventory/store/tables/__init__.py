"""Typed tables of the store, a module for each subject."""

from inventory.store.tables import (
    claiming,
    counting,
    deliveries,
    devices,
    identity,
    kits,
    ledger,
    packing,
    planning,
)
from inventory.store.tables.base import metadata

__all__ = [
    "claiming",
    "counting",
    "deliveries",
    "devices",
    "identity",
    "kits",
    "ledger",
    "metadata",
    "packing",
    "planning",
]
