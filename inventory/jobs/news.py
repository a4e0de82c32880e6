"""Whether anything was recorded since somebody looked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.store.ledger.slips import newest_slip

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench


def newest_act(bench: Bench) -> int:
    """Return the number of the newest act, whoever recorded it."""
    with bench.store.reading() as db:
        return newest_slip(db, bench.kit.id)
