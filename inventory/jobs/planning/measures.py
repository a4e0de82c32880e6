"""What is not counted in pieces: masses, volumes and lengths, as typed and as kept."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import part_key
from inventory.jobs.receiving.counting import amount_counted
from inventory.store.ledger.names import measured_parts

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.items import Measure
    from inventory.jobs.acts import Bench


def measures(bench: Bench) -> Mapping[str, Measure]:
    """Return how each part of the kit is measured that isn't counted in pieces."""
    with bench.store.reading() as db:
        return measured_parts(db, bench.kit.id)


def amount_typed(bench: Bench, part: str, text: str) -> int:
    """Return a typed amount in the part's own measure: `12`, or `30 ml` of a sealant."""
    with bench.store.reading() as db:
        return amount_counted(db, bench.kit, part_key(part), text)
