"""A packing list sent again: which earlier one it is an issue of, and what it changes."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.frozen import frozen
from inventory.store.receiving.packing_lists import lines_of, saved_lists

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.lists.list_revision import Conflict, ListChanges
    from inventory.core.lists.packing import PackingLine, PackingList
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.packing_lists import SavedList

ALIKE = 0.5
"""Share of the lines that two lists must have in common to be taken for issues of one."""


@frozen
class Revision:
    """What a list changes in an earlier one, and where that goes against what was counted."""

    replaces: int
    changes: ListChanges
    conflicts: tuple[Conflict, ...]


def earlier_issue(bench: Bench, packing_list: PackingList) -> SavedList | None:
    """Return the list of the same supplier and order that this one largely repeats."""
    with bench.store.reading() as db:
        lists = saved_lists(db, bench.kit.id)
        replaced = {saved.replaces for saved in lists}
        for saved in reversed(lists):
            same = (saved.supplier, saved.order_number) == (
                packing_list.supplier,
                packing_list.order,
            )
            if saved.id in replaced or not same or saved.sha256 == packing_list.sha256:
                continue
            if _alike(lines_of(db, bench.kit.id, saved.id), packing_list.lines):
                return saved
    return None


def _alike(one: Iterable[PackingLine], other: Iterable[PackingLine]) -> bool:
    shipped, again = ({(x.part, x.hand) for x in lines if x.shipped} for lines in (one, other))
    return len(shipped & again) > ALIKE * max(len(shipped), len(again), 1)


def revision(bench: Bench, packing_list: PackingList, replaces: int) -> Revision:
    """Return what a list would change in the one it replaces; stores nothing."""
    from inventory.core.lists.list_revision import conflicts, list_changes
    from inventory.store.receiving.counts import all_counts, counts_that_stand

    with bench.store.reading() as db:
        if replaces not in {saved.id for saved in saved_lists(db, bench.kit.id)}:
            raise NotFoundError(
                f"there is no packing list {replaces}", remedy="Look: kitwright packing-list show"
            )
        before = lines_of(db, bench.kit.id, replaces)
        counts = [each.count for each in counts_that_stand(all_counts(db, bench.kit.id))]
    changes = list_changes(before, packing_list.lines)
    return Revision(replaces, changes, tuple(conflicts(changes, counts)))
