"""A store whose questions and acts all join one transaction that somebody else ends."""

from __future__ import annotations

from contextlib import contextmanager
from dataclasses import field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.quick import all_or_nothing
from inventory.store.opening.database import Connection, Store

if TYPE_CHECKING:
    from collections.abc import Iterator


@frozen
class JoinedStore(Store):
    """A store as the jobs know it, inside a transaction that is open already."""

    db: Connection
    recorded: list[int] = field(default_factory=list)
    """Numbers of the acts that were recorded in it, for what is due once they are stored."""

    @contextmanager
    def reading(self) -> Iterator[Connection]:
        """Give the open transaction's connection."""
        with self._worded():
            yield self.db

    @contextmanager
    def writing(self, kit: int = 0) -> Iterator[Connection]:  # noqa: ARG002 - it holds the lock
        """Give the open transaction's connection; it holds the kit's lock already.

        An act that is refused leaves nothing behind, while the transaction goes on.
        """
        with self._worded(), all_or_nothing(self.db):
            yield self.db
