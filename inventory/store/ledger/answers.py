"""First answers to slips that came over the network, said again word for word."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import bindparam, insert, select

from inventory.core.frozen import frozen
from inventory.store.ledger.quick import Quick
from inventory.store.tables.ledger import answer as answer_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

_c = answer_table.c
_FIND = Quick(
    select(_c.asked, _c.status, _c.body).where(
        _c.kit == bindparam("kit"), _c.key == bindparam("key")
    )
)
_ADD = Quick(insert(answer_table), _c.keys())


@frozen
class StoredAnswer:
    """What was answered, and a digest of what had been asked."""

    asked: str
    status: int
    body: str


def find_answer(db: Connection, kit: int, key: str) -> StoredAnswer | None:
    """Return the first answer to a slip, or None where it never came."""
    found = _FIND.rows(db, {"kit": kit, "key": key})
    return StoredAnswer(*found[0]) if found else None


def add_answer(db: Connection, kit: int, key: str, answer: StoredAnswer) -> None:
    """Keep the first answer to a slip."""
    row = {"asked": answer.asked, "status": answer.status, "body": answer.body}
    _ADD.add(db, {"kit": kit, "key": key, **row})
