"""What stands on every paper: the store's own number and the seal of the ledger."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.movements import last_link
from inventory.store.settings import STORE_ID, setting

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


@frozen
class PageFacts:
    """What ties a printed paper to the record it was made from."""

    store_id: str
    movements: int
    seal: str
    """First 16 hexadecimal digits of the newest link of the kit's chain."""


def page_facts(bench: Bench) -> PageFacts:
    """Return the store's number and the seal of the kit's ledger as it stands."""
    with bench.store.reading() as db:
        number, chain = last_link(db, bench.kit.id)
        return PageFacts(setting(db, STORE_ID), number, chain.hex()[:16])
