"""What is to be ordered or claimed, from whom, and by when."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure
from inventory.core.planning.open_needs import Pool, supply_of
from inventory.core.planning.plan import NeedKind

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.measures.money import Price
    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Workshop


class OrderReason(StrEnum):
    """Why pieces are on the list, the most pressing first."""

    CLAIM = "owed by the supplier"
    """Missing or bad on delivery: claimed, not bought."""
    SCRAP = "replaces scrap"
    SHORT = "short for steps"
    MINIMUM = "below the minimum"
    SPARE = "spare allowance"


class PartOfHand(NamedTuple):
    """A part number of one hand."""

    part: str
    hand: Hand = Hand.NONE


@frozen(kw_only=True)
class OrderFacts:
    """What is known about getting parts."""

    owed: Mapping[PartOfHand, int] = field(default_factory=dict)
    """Missing or bad on delivery, and not settled."""
    scrapped: Mapping[PartOfHand, int] = field(default_factory=dict)
    minimums: Mapping[str, int] = field(default_factory=dict)
    """By part number: what should be left when all steps are done."""
    suppliers: Mapping[str, str] = field(default_factory=dict)
    prices: Mapping[str, Price] = field(default_factory=dict)
    wanted_on: Mapping[str, dt.date] = field(default_factory=dict)
    """By step: the day it could begin if nothing lacked."""


@frozen(kw_only=True)
class OrderLine:
    """Pieces of one part of one hand to be got for one reason."""

    supplier: str
    part: str
    hand: Hand
    length: int
    """Nanometres of each piece; 0 where length says nothing."""
    to_cut: bool
    """Pieces that are cut: stock for so many of them is to be got."""
    measure: Measure
    quantity: int
    reason: OrderReason
    steps: tuple[str, ...] = ()
    """Which wait for it, in build order."""
    needed_by: dt.date | None = None
    price: Price | None = None
    """As the person gave it, of one piece or one unit."""
    printed: str = ""
    description: str = ""


def order_list(netting: Netting, workshop: Workshop, facts: OrderFacts) -> tuple[OrderLine, ...]:
    """Return everything to order or claim, by supplier, the earliest needed first.

    Deliveries that are promised are taken off first. What the supplier owes is claimed before
    anything is bought; of the rest as much as was scrapped is told as its replacement.
    """
    gathered: defaultdict[tuple[Pool, bool], list[NetNeed]] = defaultdict(list)
    for need in netting.needs:
        if need.chosen and (need.short_beyond_due or need.spare_short or need.absent):
            gathered[need.pools[0], need.need.kind is NeedKind.CUT].append(need)
    lines = [
        line
        for (pool, to_cut), needs in gathered.items()
        for line in _for_steps(pool, needs, facts, to_cut=to_cut)
    ]
    lines += _minimums(netting.needs, workshop, facts)
    reasons = list(OrderReason)
    return tuple(
        sorted(
            lines,
            key=lambda line: (
                line.supplier,
                line.needed_by is None,
                str(line.needed_by),
                line.part,
                line.hand,
                line.length,
                reasons.index(line.reason),
            ),
        )
    )


def _for_steps(
    pool: Pool, needs: Sequence[NetNeed], facts: OrderFacts, *, to_cut: bool
) -> Iterator[OrderLine]:
    part = PartOfHand(pool.part, pool.hand)
    missing = sum(max(need.short_beyond_due, int(need.absent)) for need in needs)
    claimed = 0 if to_cut else min(missing, facts.owed.get(part, 0))
    replaced = 0 if to_cut else min(missing - claimed, facts.scrapped.get(part, 0))
    amounts = {
        OrderReason.CLAIM: claimed,
        OrderReason.SCRAP: replaced,
        OrderReason.SHORT: missing - claimed - replaced,
        OrderReason.SPARE: sum(need.spare_short for need in needs),
    }
    waiting = [need for need in needs if need.stops]
    for reason, quantity in amounts.items():
        if quantity:
            of = needs if reason is OrderReason.SPARE else waiting
            yield _line(pool, of, quantity, reason, facts)


def _line(
    pool: Pool, needs: Sequence[NetNeed], quantity: int, reason: OrderReason, facts: OrderFacts
) -> OrderLine:
    steps = tuple(dict.fromkeys(need.need.step for need in needs))
    days = [facts.wanted_on[step] for step in steps if step in facts.wanted_on]
    first = needs[0].need
    return OrderLine(
        supplier=facts.suppliers.get(pool.part, ""),
        part=pool.part,
        hand=pool.hand,
        length=pool.length,
        to_cut=first.kind is NeedKind.CUT,
        measure=first.measure,
        quantity=quantity,
        reason=reason,
        steps=() if reason is OrderReason.SPARE else steps,
        needed_by=min(days, default=None) if reason is not OrderReason.SPARE else None,
        price=facts.prices.get(pool.part),
        printed=first.printed,
        description=first.description,
    )


def _minimums(
    needs: Iterable[NetNeed], workshop: Workshop, facts: OrderFacts
) -> Iterator[OrderLine]:
    """Yield what lacks to the minimum once the steps have taken theirs and deliveries came."""
    left: defaultdict[str, int] = defaultdict(int)
    for pool, quantity in supply_of(workshop).items():
        left[pool.part] += quantity
    for due in workshop.due:
        left[due.part] += due.quantity
    said: dict[str, NetNeed] = {}
    for need in needs:
        said.setdefault(need.need.part, need)
        for pool, quantity in need.filled:
            left[pool.part] -= quantity
        for share in need.due:
            left[share.due.part] -= share.quantity
    for part, minimum in facts.minimums.items():
        if minimum > left[part]:
            known = said.get(part)
            yield OrderLine(
                supplier=facts.suppliers.get(part, ""),
                part=part,
                hand=known.need.hand if known else Hand.NONE,
                length=0,
                to_cut=False,
                measure=known.need.measure if known else Measure.PIECES,
                quantity=minimum - left[part],
                reason=OrderReason.MINIMUM,
                price=facts.prices.get(part),
                printed=known.need.printed if known else "",
                description=known.need.description if known else "",
            )
