"""What to fetch for a step, and from which bins."""

from __future__ import annotations

from collections import defaultdict
from types import MappingProxyType
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Item, State
from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.open_needs import Pool, takes_from_stock

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.places import Place
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import NetNeed

NO_DATES: Mapping[tuple[str, str], dt.date] = MappingProxyType({})


@frozen
class Fetch:
    """Pieces of one item to take from one place for one need."""

    place: Place
    item: Item
    quantity: int
    need: Need


def fetches(
    needs: Sequence[NetNeed],
    lying: Iterable[tuple[Place, Item, int]],
    last_use: Mapping[tuple[str, str], dt.date] = NO_DATES,
) -> list[Fetch]:
    """Return what this step alone would take from which places, in the order of the places.

    New pieces only; of several lots the one whose `last_use` (by part and lot) comes first, and
    of several bins the fullest, so that few bins are opened.
    """
    by_pool: defaultdict[Pool, list[tuple[Place, Item, int]]] = defaultdict(list)
    for place, item, quantity in lying:
        if item.state is State.NEW and quantity > 0:
            by_pool[Pool(item.part, item.hand, item.length)].append((place, item, quantity))
    supply = {pool: sum(quantity for *_, quantity in rows) for pool, rows in by_pool.items()}
    open_needs = [net for net in needs if net.chosen and takes_from_stock(net.need)]
    shares = fill(supply, [Wanted(tuple(_unkept(net.pools)), net.open) for net in open_needs])
    taken: list[Fetch] = []
    for net, given in zip(open_needs, shares, strict=True):
        for share in given:
            rows = by_pool[share.pool]
            rows.sort(key=lambda row: (_day(row[1], last_use), -row[2], row[0]))
            taken += _from_bins(rows, share.quantity, net.need)
    return sorted(taken, key=lambda fetch: (fetch.place, fetch.item))


def missing_from(needs: Sequence[NetNeed], taken: Sequence[Fetch]) -> list[tuple[NetNeed, int]]:
    """Return the needs that the places don't fill, and how much of each is lacking."""
    missing = []
    for net in needs:
        if net.chosen and takes_from_stock(net.need):
            lacking = net.open - sum(each.quantity for each in taken if each.need is net.need)
            if lacking > 0:
                missing.append((net, lacking))
    return missing


def _unkept(pools: Iterable[Pool]) -> Iterable[Pool]:
    """Drop the step that pieces are kept for: they lie in the same bins."""
    return dict.fromkeys(pool._replace(kept_for="") for pool in pools)


def _day(item: Item, last_use: Mapping[tuple[str, str], dt.date]) -> str:
    """Return the last day of use as text; what doesn't expire comes after every day."""
    return str(last_use.get((item.part, item.lot), "~"))


def _from_bins(rows: list[tuple[Place, Item, int]], wanted: int, need: Need) -> list[Fetch]:
    taken: list[Fetch] = []
    for number, (place, item, quantity) in enumerate(rows):
        pieces = min(wanted, quantity)
        if pieces:
            taken.append(Fetch(place, item, pieces, need))
            rows[number] = (place, item, quantity - pieces)
            wanted -= pieces
    return taken
