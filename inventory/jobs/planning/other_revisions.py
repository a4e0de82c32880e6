"""Parts that were listed or counted in another revision than a step's plans ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.planning.revisions import parts_in_other_revisions
from inventory.store.receiving.counts import all_counts
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.planning.plan import Need
    from inventory.core.planning.revisions import OtherRevision
    from inventory.jobs.acts import Bench


def revisions_beside(bench: Bench, needs: Iterable[Need]) -> list[OtherRevision]:
    """Return the parts of these needs that were listed or counted in another revision."""
    asking = [need for need in needs if need.revision]
    if not asking:
        return []
    with bench.store.reading() as db:
        came = [(line.part, line.revision) for line in current_lines(db, bench.kit.id)]
        came += [(one.count.part, one.count.revision) for one in all_counts(db, bench.kit.id)]
    return list(parts_in_other_revisions(asking, came))
