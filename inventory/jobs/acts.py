"""What every act has in common: one transaction, one slip, some movements.

The ledger is loaded with the first act: who only looks, or begins to serve, doesn't wait for it.
"""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.opening.joined import JoinedStore

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip
    from inventory.store.kits import Kit
    from inventory.store.ledger.slips import RecordedSlip
    from inventory.store.opening.database import Connection, Store

EVERY_IS_MULTIPLE_OF = 25
"""Backups by themselves come after a multiple of so many acts: others needn't look it up."""


@frozen
class Bench:
    """Where acts are done: one kit of an open store."""

    store: Store
    kit: Kit


@frozen
class Act:
    """An act that is being recorded; it is stored when its block ends without an error."""

    db: Connection
    kit: Kit
    recorded: RecordedSlip

    def move(self, movements: Sequence[Movement]) -> None:
        """Append movements to the ledger under this act's slip."""
        from inventory.store.ledger.movements import append_movements

        append_movements(self.db, self.kit.id, self.recorded, movements)


@contextmanager
def acting(bench: Bench, name: str, slip: Slip, undoes: int | None = None) -> Iterator[Act]:
    """Begin an act; the same slip a second time is refused as done already."""
    from inventory.store.ledger.slips import add_slip

    with bench.store.writing(bench.kit.id) as db:
        recorded = add_slip(db, bench.kit.id, name, slip, undoes)
        yield Act(db, bench.kit, recorded)
    if isinstance(bench.store, JoinedStore):
        bench.store.recorded.append(recorded.id)
    else:
        stored(bench, recorded.id)


def stored(bench: Bench, number: int) -> None:
    """Do what is due after act `number` was stored."""
    if number % EVERY_IS_MULTIPLE_OF == 0:
        from inventory.jobs.record.backup_by_itself import after_act

        after_act(bench.store, number)
