"""Parts that were listed or counted in another revision than a step's plans ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from inventory.core.planning.revisions import asked_revisions, other_revisions
from inventory.store.receiving.counts import all_counts
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.planning.plan import Need
    from inventory.jobs.acts import Bench


class OtherRevision(NamedTuple):
    """A part's revisions as the plans ask for them, and the others that came."""

    part: str
    asked: tuple[str, ...]
    other: tuple[str, ...]


def revisions_beside(bench: Bench, needs: Iterable[Need]) -> list[OtherRevision]:
    """Return the parts of these needs that were listed or counted in another revision."""
    asking: dict[str, list[Need]] = {}
    for need in needs:
        if need.revision:
            asking.setdefault(need.part, []).append(need)
    if not asking:
        return []
    with bench.store.reading() as db:
        came = [(line.part, line.revision) for line in current_lines(db, bench.kit.id)]
        came += [(one.count.part, one.count.revision) for one in all_counts(db, bench.kit.id)]
    found = []
    for part, of_part in asking.items():
        asked = tuple(asked_revisions(of_part))
        other = other_revisions(asked, (revision for each, revision in came if each == part))
        if other:
            found.append(OtherRevision(of_part[0].printed or part, asked, other))
    return found
