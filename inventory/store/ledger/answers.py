"""First answers to slips that came over the network, said again word for word."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.store.tables.ledger import answer as answer_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True)
class StoredAnswer:
    """What was answered, and a digest of what had been asked."""

    asked: str
    status: int
    body: str


def find_answer(db: Connection, kit: int, key: str) -> StoredAnswer | None:
    """Return the first answer to a slip, or None where it never came."""
    c = answer_table.c
    found = db.execute(
        select(c.asked, c.status, c.body).where(c.kit == kit, c.key == key)
    ).one_or_none()
    return None if found is None else StoredAnswer(*found)


def add_answer(db: Connection, kit: int, key: str, answer: StoredAnswer) -> None:
    """Keep the first answer to a slip."""
    db.execute(
        insert(answer_table).values(
            kit=kit, key=key, asked=answer.asked, status=answer.status, body=answer.body
        )
    )
