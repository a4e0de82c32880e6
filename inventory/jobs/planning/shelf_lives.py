"""Which lots are in date, soon out of it, or past it."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, datetime
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.places import PlaceKind
from inventory.core.planning.shelf_life import ShelfLife, film_overdue, freshness
from inventory.store.ledger.stock import lying
from inventory.store.opening.one_moment import read_once
from inventory.store.planning.lots import Lot, all_lots, films
from inventory.store.receiving.counts import all_counts

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.planning.shelf_life import Freshness
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection
    from inventory.store.planning.lots import Film

_STILL_HERE = (PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD)


@frozen
class LotToday:
    """A lot as it stands on a day, with what lies of it."""

    lot: Lot
    state: Freshness
    lying: tuple[Lying, ...]


@frozen
class FilmToday:
    """Protective film that is still on."""

    film: Film
    overdue: bool


def this_day() -> date:
    """Return today's date where this computer stands."""
    return datetime.now().astimezone().date()


@read_once
def lots_within(db: Connection, kit: Kit) -> dict[tuple[str, str], Lot]:
    """Return every lot with a date or a paper, by part and lot.

    A date that was only noted with a count stands for the lot until the lot itself is recorded.
    """
    lots: dict[tuple[str, str], Lot] = {}
    for each in all_counts(db, kit.id):
        count = each.count
        if count.expires and count.lot:
            key = (count.part, count.lot)
            known = lots.get(key, Lot(part=count.part, lot=count.lot))
            earlier = min(filter(None, (known.shelf.expires, count.expires)))
            lots[key] = replace(known, shelf=ShelfLife(expires=earlier))
    return lots | all_lots(db, kit.id)


@read_once
def last_days(db: Connection, kit: Kit) -> dict[tuple[str, str], date]:
    """Return the last day of use by part and lot, of all that has one."""
    days = {key: lot.shelf.last_use for key, lot in lots_within(db, kit).items()}
    return {key: day for key, day in days.items() if day}


def expired_within(db: Connection, kit: Kit, on: date) -> frozenset[tuple[str, str]]:
    """Return part and lot of all that is past its date: it may be used on its last day."""
    return frozenset(key for key, day in last_days(db, kit).items() if day < on)


def is_expired(item: Item, expired: frozenset[tuple[str, str]]) -> bool:
    """Say whether an item is of a lot that is past its date."""
    return (item.part, item.lot) in expired


def lots(bench: Bench, on: date) -> list[LotToday]:
    """Return every lot as it stands on a day, what expires first at the top."""
    with bench.store.reading() as db:
        known = lots_within(db, bench.kit)
        there = lying(db, bench.kit.id, kinds=_STILL_HERE)
    for lies in there:
        key = (lies.item.part, lies.item.lot)
        if lies.item.lot and key not in known:
            known[key] = Lot(part=key[0], lot=key[1])
    found = [
        LotToday(
            lot,
            freshness(lot.shelf, on),
            tuple(lies for lies in there if (lies.item.part, lies.item.lot) == key),
        )
        for key, lot in known.items()
    ]
    return sorted(
        found, key=lambda one: (str(one.lot.shelf.last_use or "~"), one.lot.part, one.lot.lot)
    )


def films_on(bench: Bench, on: date) -> list[FilmToday]:
    """Return the protective film that is still on, the longest first."""
    with bench.store.reading() as db:
        return [FilmToday(each, film_overdue(each.since, on)) for each in films(db, bench.kit.id)]
