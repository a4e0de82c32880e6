"""Typed tables of the store, a module for each subject."""

from inventory.store.tables import counting, devices, kits, ledger, packing, planning
from inventory.store.tables.base import metadata

__all__ = ["counting", "devices", "kits", "ledger", "metadata", "packing", "planning"]
