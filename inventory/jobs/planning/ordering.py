"""What is to be ordered or claimed, from whom, by when, and what was ordered already."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Item, mirror
from inventory.core.places import PlaceKind
from inventory.core.planning.forecast import Outlook, forecast
from inventory.core.planning.order_list import OrderFacts, OrderReason, PartOfHand, order_list
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Workshop
from inventory.core.receiving.findings import Comparison, FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.cutting.sticks import cut_plans
from inventory.jobs.planning.buying import Ordering
from inventory.jobs.planning.workshop_today import today_within
from inventory.jobs.receiving.findings_today import placed_findings
from inventory.store.ledger.names import all_parts
from inventory.store.ledger.stock import lying
from inventory.store.planning.minimums import minimums
from inventory.store.planning.offers import offers_that_count
from inventory.store.planning.purchases import all_purchases
from inventory.store.receiving.packing_lists import suppliers_of_parts

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from inventory.core.items import Measure
    from inventory.core.planning.order_list import OrderLine
    from inventory.core.planning.plan import Plan
    from inventory.core.planning.shortage import Netting
    from inventory.core.receiving.findings import Finding
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.workshop_today import Today
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection
    from inventory.store.planning.offers import Offer
    from inventory.store.planning.purchases import Purchase

_OWED = frozenset(
    {
        FindingKind.SHORT,
        FindingKind.DAMAGED,
        FindingKind.DEFECTIVE,
        FindingKind.EXPIRED,
        FindingKind.WRONG_HAND,
        FindingKind.PACKAGE_MISSING,
    }
)


@frozen
class ToOrder:
    """One line of the order list, with what a person needs to act on it."""

    line: OrderLine
    order_by: date | None
    """Needed-by less the supplier's days; None where either isn't known."""
    sticks: tuple[tuple[int, int], ...] = ()
    """Of pieces to cut: length and number of the sticks to buy, by the cutting plan."""

    @property
    def claimed(self) -> bool:
        """Whether it is claimed from the supplier, not bought."""
        return self.line.reason is OrderReason.CLAIM


def to_order(bench: Bench, day: date, supplier: str = "") -> list[ToOrder]:
    """Return everything to order or claim, by supplier, the earliest needed first.

    What is ordered already and still to come is taken off.
    """
    with bench.store.reading() as db:
        now = today_within(db, bench.kit, day)
        offers = offers_that_count(db, bench.kit.id)
        facts = _facts(db, bench.kit, now, offers, day)
        parts = all_parts(db, bench.kit.id)
    netting = now.netting
    lines = _without_spares_due(order_list(netting, now.workshop, facts), netting, now.workshop)
    sticks = _sticks(bench, lines)
    days = {offer.part: offer.days for offer in offers if offer.days}
    return [
        ToOrder(
            replace(
                line,
                printed=line.printed or parts[line.part].printed,
                description=line.description or parts[line.part].description,
            ),
            line.needed_by - timedelta(days[line.part])
            if line.needed_by and line.part in days and line.reason is not OrderReason.CLAIM
            else None,
            sticks.get(line.part, ()) if line.to_cut else (),
        )
        for line in lines
        if supplier.casefold() in line.supplier.casefold()
    ]


def _without_spares_due(
    lines: Iterable[OrderLine], netting: Netting, workshop: Workshop
) -> list[OrderLine]:
    """Take off the spare allowance what is due beyond all shortages."""
    due = Counter[PartOfHand]()
    for each in workshop.due:
        due[PartOfHand(each.part, each.hand)] += each.quantity
    for need in netting.needs:
        for share in need.due:
            due[PartOfHand(share.due.part, share.due.hand)] -= share.quantity
    kept: list[OrderLine] = []
    for line in lines:
        part = PartOfHand(line.part, line.hand)
        spare = line.reason is OrderReason.SPARE and not line.to_cut
        coming = min(line.quantity, max(0, due[part])) if spare else 0
        due[part] -= coming
        if line.quantity > coming:
            kept.append(replace(line, quantity=line.quantity - coming))
    return kept


def _facts(db: Connection, kit: Kit, now: Today, offers: Iterable[Offer], day: date) -> OrderFacts:
    suppliers = suppliers_of_parts(db, kit.id)
    spelled = {name.casefold(): name for name in suppliers.values()}
    scrapped: Counter[PartOfHand] = Counter()
    for lies in lying(db, kit.id, kinds=[PlaceKind.SCRAP]):
        scrapped[PartOfHand(lies.item.part, lies.item.hand)] += lies.quantity
    owed: Counter[PartOfHand] = Counter()
    for placed in placed_findings(db, kit):
        one = placed.finding
        if one.kind in _OWED and one.claimed and one.comparison is not Comparison.LIST_PLAN:
            owed[_lacking(one)] += one.pieces - one.elsewhere
    return OrderFacts(
        owed=owed,
        scrapped=scrapped,
        minimums=minimums(db, kit.id),
        suppliers=suppliers
        | {each.part: spelled.get(each.supplier.casefold(), each.supplier) for each in offers},
        prices={offer.part: offer.price for offer in offers if offer.price and not offer.length},
        wanted_on=_wanted_on(now.plan, now.workshop, day),
    )


def _lacking(one: Finding) -> PartOfHand:
    """Return what a finding leaves open: where one hand came for the other, the other."""
    came = Item(one.part, one.hand)
    lacks = mirror(came) if one.kind is FindingKind.WRONG_HAND else came
    return PartOfHand(lacks.part, lacks.hand)


def _wanted_on(plan: Plan, workshop: Workshop, day: date) -> Mapping[str, date]:
    """Return the day on which each step could begin if nothing lacked."""
    plenty: Counter[Item] = Counter()
    for need in plan.needs:
        plenty[Item(need.part, need.hand, "", need.length)] += need.quantity + need.spare + 1
    lacking_nothing = Workshop(usable=plenty, done=workshop.done)
    found = forecast(net(plan, lacking_nothing), lacking_nothing, Outlook(today=day))
    return {each.step.code: each.start for each in found if each.start}


def _sticks(bench: Bench, lines: Iterable[OrderLine]) -> dict[str, tuple[tuple[int, int], ...]]:
    """Return which sticks the cutting plan would buy of each part that is to be cut."""
    if not any(line.to_cut for line in lines):
        return {}
    found: dict[str, tuple[tuple[int, int], ...]] = {}
    for profile in cut_plans(bench, (), {}):
        bought = Counter(each.stick.stock.length for each in profile.sticks if each.place is None)
        found[profile.part] = (*found.get(profile.part, ()), *sorted(bought.items()))
    return found


def all_of(bench: Bench, day: date, supplier: str, reference: str) -> list[Ordering]:
    """Return what the list wants of one supplier as orders; what is owed is claimed, not bought."""
    lines = [
        each
        for each in to_order(bench, day)
        if not each.claimed and each.line.supplier.casefold() == supplier.strip().casefold()
    ]
    if not lines:
        raise NotFoundError(
            f"nothing is to be ordered from {supplier or 'a supplier without a name'}",
            remedy="Look: kitwright to-order",
        )
    return [
        Ordering(
            asked=Asked(part=each.line.part, hand=each.line.hand, length=length or None, new=True),
            pieces=pieces,
            supplier=each.line.supplier,
            reference=reference,
            price=each.line.price,
        )
        for each in lines
        for length, pieces in each.sticks or ((each.line.length, each.line.quantity),)
    ]


@frozen
class Placed:
    """An order as it stands today."""

    purchase: Purchase
    printed: str
    description: str
    measure: Measure
    overdue: bool


def placed(bench: Bench, day: date) -> list[Placed]:
    """Return all orders, those still open first, the earliest promised first."""
    with bench.store.reading() as db:
        every = all_purchases(db, bench.kit.id)
        parts = all_parts(db, bench.kit.id)
    ordered = sorted(
        every,
        key=lambda one: (not one.pieces_open, one.promised is None, str(one.promised), one.id),
    )
    return [
        Placed(
            each,
            parts[each.part].printed,
            parts[each.part].description,
            parts[each.part].measure,
            bool(each.pieces_open) and _is_past(each, day),
        )
        for each in ordered
    ]


def _is_past(purchase: Purchase, day: date) -> bool:
    end = purchase.latest or purchase.promised
    return end is not None and end < day
