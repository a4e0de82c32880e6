"""Which parts and bins have exactly a name: one question for all readings of a scan."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import bindparam, literal, select, union_all

from inventory.core.frozen import frozen
from inventory.core.places import PlaceKind
from inventory.store.ledger.quick import Quick
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

_p, _w = part_table.c, place_table.c
_KIT = bindparam("kit", type_=_p.kit.type)
_NAMES = [bindparam("name", type_=_p.key.type), bindparam("other", type_=_p.key.type)]
_CALLED = Quick(
    union_all(
        select(literal("part"), _p.key).where(_p.kit == _KIT, _p.key.in_(_NAMES)),
        select(literal("bin"), _w.code).where(
            _w.kit == _KIT, _w.kind == PlaceKind.BIN.value, _w.code.in_(_NAMES)
        ),
    )
)


@frozen
class Called:
    """What has one of the names asked for."""

    parts: frozenset[str] = frozenset()
    bins: frozenset[str] = frozenset()


def called(db: Connection, kit: int, name: str, other: str = "") -> Called:
    """Return the parts and bins that have one of two names, written as `part_key` makes them."""
    rows = _CALLED.rows(db, {"kit": kit, "name": name, "other": other or name})
    return Called(
        frozenset(key for kind, key in rows if kind == "part"),
        frozenset(key for kind, key in rows if kind == "bin"),
    )
