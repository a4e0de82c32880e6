"""Several acts and questions as one transaction: all of it is stored, or nothing."""

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
