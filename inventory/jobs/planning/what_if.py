"""What using, spoiling or getting some pieces would change, and what no step takes."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.frozen import frozen
from inventory.core.items import State
from inventory.core.planning.shortage import net, steps_stopped
from inventory.core.planning.what_if import freed, left_over, shorter, with_more
from inventory.jobs.bench.finding_items import (
    SeveralKindsError,
    in_measure,
    item_from_outside,
    item_words,
    known_part,
)
from inventory.jobs.planning.workshop_today import today_within
from inventory.store.ledger.names import all_parts

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.items import Item
    from inventory.core.planning.open_needs import Pool
    from inventory.core.planning.shortage import Netting
    from inventory.core.planning.what_if import ShortChange
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.ledger.names import PartName
    from inventory.store.opening.database import Connection


@frozen
class Consequences:
    """What some pieces more or fewer would change."""

    item: Item
    pieces: int
    """More in the bins; fewer where it is negative."""
    short: tuple[ShortChange, ...]
    """Needs that would lack more or less than now, in build order."""
    freed: tuple[str, ...]
    """Steps that would be ready and aren't now."""
    stopped: tuple[str, ...]
    """Steps that are ready now and wouldn't be."""
    behind: tuple[str, ...]
    """Steps that can't be done while more is short than now, those after them too."""


def what_if(bench: Bench, asked: Asked, pieces: int) -> Consequences:
    """Return what so many pieces more in the bins would change; fewer where it is negative."""
    if not pieces:
        raise InventoryError("how many come, or are used?", remedy="Say --came 4 or --used 2.")
    with bench.store.reading() as db:
        now = today_within(db, bench.kit)
        item = _item(db, bench, now, asked, pieces)
        there = in_measure(db, bench.kit, item.part, now.workshop.usable.get(item, 0))
    if now.workshop.usable.get(item, 0) + pieces < 0:
        raise NotEnoughError(
            f"{there} of {item.part} {item_words(item)} lie in the bins",
            remedy="Ask for no more than that.",
        )
    changed = with_more(now.workshop, item, pieces)
    was, then = (now.netting, now.workshop), (net(now.plan, changed), changed)
    changes = shorter(was[0], then[0])
    return Consequences(
        item=item,
        pieces=pieces,
        short=changes,
        freed=freed(was, then),
        stopped=freed(then, was),
        behind=_behind(then[0], changes),
    )


def _behind(then: Netting, changes: Sequence[ShortChange]) -> tuple[str, ...]:
    worse = {each.need for each in changes if each.now > each.was}
    by_pools = {each.pools: each for each in then.needs if each.need in worse}
    found = {step for each in by_pools.values() for step in steps_stopped(then, each)}
    return tuple(step.code for step in then.steps if step.code in found)


def _item(db: Connection, bench: Bench, now: Today, asked: Asked, pieces: int) -> Item:
    """Return the one item that is meant: of what lies there, or of what may come in."""
    part = known_part(db, bench.kit, asked.part)
    there = [
        item
        for item in now.workshop.usable
        if item.part == part.key and item.state is State.NEW and asked.agrees(item)
    ]
    if len(there) == 1:
        return there[0]
    if there and pieces < 0:
        raise SeveralKindsError(
            f"several kinds of {part.printed} lie in the bins: "
            + "; ".join(item_words(item) for item in sorted(there)),
            remedy="Say which one with --hand, --lot or --length.",
        )
    return item_from_outside(db, bench.kit, asked)


@frozen
class LeftOver:
    """Pieces that no step takes: spare, or forgotten in the plan."""

    part: PartName
    pool: Pool
    quantity: int
    bins: tuple[tuple[str, int], ...]
    """Where pieces of the kind lie, whoever takes them."""
    planned: bool
    """Whether the plan uses the part at all."""


def left_overs(bench: Bench) -> list[LeftOver]:
    """Return what lies in the bins that no step takes, by part."""
    with bench.store.reading() as db:
        now = today_within(db, bench.kit)
        parts = all_parts(db, bench.kit.id)
    planned = {need.part for need in now.plan.needs}
    lying: dict[tuple[str, str, int], Counter[str]] = {}
    for place, item, quantity in now.in_bins():
        if item.state is State.NEW:
            kind = (item.part, item.hand.value, item.length)
            lying.setdefault(kind, Counter())[place.code] += quantity
    return [
        LeftOver(
            parts[pool.part],
            pool,
            quantity,
            tuple(sorted(lying[pool.part, pool.hand.value, pool.length].items())),
            pool.part in planned,
        )
        for pool, quantity in sorted(left_over(now.netting, now.workshop).items())
        if not pool.kept_for
    ]
