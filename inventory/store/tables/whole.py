"""All tables of the store together, for whatever goes over the whole record.

A command loads only the tables it asks: describing all of them takes longer than most questions.
"""

from __future__ import annotations

from importlib import import_module
from pkgutil import iter_modules

from inventory.store import tables
from inventory.store.tables.base import describe_rules, metadata

__all__ = ["metadata"]

for _found in iter_modules(tables.__path__, f"{tables.__name__}."):
    if _found.name != __name__:
        import_module(_found.name)
describe_rules()
