"""Several acts as one transaction, all stored or none; several questions of one moment."""

from __future__ import annotations

from contextlib import contextmanager
from typing import TYPE_CHECKING

from inventory.jobs.acts import Bench, stored
from inventory.store.opening.joined import JoinedStore

if TYPE_CHECKING:
    from collections.abc import Iterator


@contextmanager
def together(bench: Bench) -> Iterator[Bench]:
    """Give a bench whose acts are stored at the end of the block, all or none."""
    store = bench.store
    with store.writing(bench.kit.id) as db:
        joined = JoinedStore(store.address, store.engine, db)
        yield Bench(joined, bench.kit)
    for number in joined.recorded:
        stored(bench, number)


@contextmanager
def at_one_moment(bench: Bench) -> Iterator[Bench]:
    """Give a bench whose questions all see one moment, so that what many ask for is read once.

    No act is done there, and nobody's act is stored before the block ends.
    """
    store = bench.store
    with store.reading() as db:
        yield Bench(JoinedStore(store.address, store.engine, db), bench.kit)
