"""Which bags of a crate are counted, by whom and when."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.jobs.receiving.receiving import known_crate, to_be_counted
from inventory.store.receiving.counts import all_counts
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    import datetime as dt

    from inventory.jobs.acts import Bench


@frozen
class BagCounted:
    """One bag of a crate, or what lies loose in it."""

    bag: str
    lines: int
    """Of the lists, that should lie there."""
    counted: int
    """Of these lines."""
    by: tuple[str, ...]
    """Everybody who counted something there, in the order they did."""
    last: dt.date | None
    """The day of the newest count."""


def bags_counted(bench: Bench, crate: str) -> list[BagCounted]:
    """Return how far each bag of a crate is counted, and by whom; what is loose comes first."""
    with bench.store.reading() as db:
        name = known_crate(db, bench.kit, crate)
        every_line = current_lines(db, bench.kit.id)
        every_count = [each.count for each in all_counts(db, bench.kit.id)]
    lines = [line for line in every_line if line.crate == name and to_be_counted(line)]
    counts = [one for one in every_count if one.crate == name]
    piles = {(one.bag, one.part, one.hand) for one in counts}
    found: list[BagCounted] = []
    for bag in sorted({line.bag for line in lines} | {one.bag for one in counts}):
        here = [line for line in lines if line.bag == bag]
        by_them = [one for one in counts if one.bag == bag]
        found.append(
            BagCounted(
                bag=bag,
                lines=len(here),
                counted=sum((bag, line.part, line.hand) in piles for line in here),
                by=tuple(dict.fromkeys(one.by for one in by_them if one.by)),
                last=max((one.on for one in by_them if one.on), default=None),
            )
        )
    return found
