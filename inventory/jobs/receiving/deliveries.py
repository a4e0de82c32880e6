"""Deliveries: recorded before signing, mended later, tied to the lists that came with them."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.receiving.claims import running
from inventory.core.receiving.delivery import (
    Delivery,
    DeliveryFacts,
    check_exception,
    check_facts,
    clock_of,
)
from inventory.core.receiving.holiday_calendars import holidays_of
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.receiving.deliveries import (
    add_delivery,
    add_exception,
    all_deliveries,
    save_facts,
    tie_lists,
)
from inventory.store.receiving.packing_lists import listed_lines, saved_lists

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence
    from datetime import date

    from inventory.core.receiving.claims import Clock
    from inventory.core.receiving.delivery import PackageException
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection
    from inventory.store.receiving.packing_lists import SavedList

    Change = Callable[[DeliveryFacts], DeliveryFacts]


@tried_again
def record_delivery(
    bench: Bench, change: Change, slip: Slip, number: int = 0, lists: Sequence[int] = ()
) -> Delivery:
    """Record a new delivery (number 0), or what is known better of one; return it whole."""
    with acting(bench, "delivery record", slip) as act:
        kit, recorded = bench.kit, act.recorded.id
        before = _delivery(act.db, kit, number).facts if number else DeliveryFacts()
        facts = _with_codes(change(before))
        check_facts(facts, max(slip.recorded_at.date(), slip.happened_on))
        if facts.country:
            holidays_of(facts.country, facts.region, facts.delivered_on or slip.happened_on)
        elif facts.region:
            raise InventoryError("a region needs its country", remedy="Say --country as well.")
        number = number or add_delivery(act.db, kit.id, recorded)
        save_facts(act.db, kit.id, recorded, number, facts)
        tie_lists(act.db, kit.id, recorded, number, _known_lists(act.db, kit, lists))
        return _delivery(act.db, kit, number)


def _with_codes(facts: DeliveryFacts) -> DeliveryFacts:
    """Return the facts with country and region as the standard's codes are written."""
    return replace(
        facts, country=facts.country.strip().upper(), region=facts.region.strip().upper()
    )


@tried_again
def add_lists(bench: Bench, number: int, lists: Sequence[int], slip: Slip) -> Delivery:
    """Record that packing lists came with a delivery; the newest word on a list counts."""
    with acting(bench, "delivery lists", slip) as act:
        found = _delivery(act.db, bench.kit, number)
        known = _known_lists(act.db, bench.kit, lists)
        tie_lists(act.db, bench.kit.id, act.recorded.id, found.number, known)
        return _delivery(act.db, bench.kit, found.number)


@tried_again
def except_package(
    bench: Bench, number: int, exception: PackageException, slip: Slip
) -> PackageException:
    """Record in words what is wrong with a package."""
    check_exception(exception)
    with acting(bench, "delivery exception", slip) as act:
        found = _delivery(act.db, bench.kit, number)
        crate = known_crate(act.db, bench.kit, exception.crate) if exception.crate else ""
        named = replace(exception, crate=crate, words=" ".join(exception.words.split()))
        add_exception(act.db, bench.kit.id, act.recorded.id, found.number, named)
        return named


def deliveries(bench: Bench) -> list[Delivery]:
    """Return the deliveries in the order of their numbers."""
    with bench.store.reading() as db:
        return all_deliveries(db, bench.kit.id)


def delivery_named(bench: Bench, number: int = 0) -> Delivery:
    """Return one delivery; the only one where no number is said."""
    with bench.store.reading() as db:
        return _delivery(db, bench.kit, number)


def untied_lists(bench: Bench) -> list[SavedList]:
    """Return the packing lists of which nobody said with which delivery they came."""
    with bench.store.reading() as db:
        lists = saved_lists(db, bench.kit.id)
        tied = {each for one in all_deliveries(db, bench.kit.id) for each in one.lists}
    replaced = {saved.replaces for saved in lists}
    return [saved for saved in lists if saved.id not in tied | replaced]


def _delivery(db: Connection, kit: Kit, number: int) -> Delivery:
    known = all_deliveries(db, kit.id)
    found = [each for each in known if number in (0, each.number)]
    if len(found) == 1:
        return found[0]
    if found:
        numbers = ", ".join(str(each.number) for each in found)
        raise InventoryError(f"there are deliveries {numbers}", remedy="Say which one.")
    raise NotFoundError(
        f"there is no delivery {number}" if number else "no delivery is recorded yet",
        remedy="Look: kitwright delivery show" if known else "Record it: kitwright delivery record",
    )


def _known_lists(db: Connection, kit: Kit, lists: Sequence[int]) -> list[int]:
    known = {saved.id for saved in saved_lists(db, kit.id)}
    for each in lists:
        if each not in known:
            raise NotFoundError(
                f"there is no packing list {each}", remedy="Look: kitwright packing-list show"
            )
    return list(dict.fromkeys(lists))


def crates_of(bench: Bench, delivery: Delivery | None) -> tuple[str, ...]:
    """Return the crates on the lists of a delivery; on all lists where none is tied to it."""
    lists = delivery.lists if delivery else ()
    with bench.store.reading() as db:
        lines = listed_lines(db, bench.kit.id)
    crates = {
        each.line.crate
        for each in lines
        if each.line.crate and (not lists or each.packing_list in lists)
    }
    return tuple(sorted(crates))


def clock_for(facts: DeliveryFacts) -> Clock:
    """Return what the periods of a delivery run by, with the holidays of its place."""
    holidays = None
    if facts.country and facts.delivered_on:
        holidays = holidays_of(facts.country, facts.region, facts.delivered_on)
    return clock_of(facts, holidays)


def first_notice_by(facts: DeliveryFacts) -> date | None:
    """Return the day to send the first notice by; None where nothing dates it.

    What has to be said at once, on the driver's paper, is no notice that is sent later.
    """
    clock = clock_for(facts)
    days = [
        each.send_by
        for to in ("carrier", "supplier")
        for each in running(clock, to)
        if each.send_by and each.last and each.last > each.start
    ]
    return min(days, default=None)
