"""What would change if some pieces came, were used elsewhere, or were spoilt."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.open_needs import supply_of
from inventory.core.planning.ready import Readiness, steps_ready

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.planning.open_needs import Pool
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import Netting
    from inventory.core.planning.workshop import Workshop


def with_more(workshop: Workshop, item: Item, quantity: int) -> Workshop:
    """Return the workshop with so many pieces more in its bins; fewer where it is negative.

    Raises `ValueError` where more are taken than lie there.
    """
    there = workshop.usable.get(item, 0) + quantity
    if there < 0:
        raise ValueError(f"{-quantity} taken of {workshop.usable.get(item, 0)} of {item}")
    return replace(workshop, usable={**workshop.usable, item: there})


@frozen
class ShortChange:
    """A need whose shortage differs between two nettings."""

    need: Need
    was: int
    now: int


def shorter(was: Netting, now: Netting) -> tuple[ShortChange, ...]:
    """Return the needs that are more or less short than before, in build order.

    "If you use two here, 14-02 will lack two."
    """
    before = _by_need(was)
    after = _by_need(now)
    return tuple(
        ShortChange(key[0], before.get(key, 0), short)
        for key, short in after.items()
        if before.get(key, 0) != short
    )


def _by_need(netting: Netting) -> dict[tuple[Need, int], int]:
    """Return what each need lacks; needs that are alike are told apart by their number."""
    seen: defaultdict[Need, int] = defaultdict(int)
    shorts: dict[tuple[Need, int], int] = {}
    for each in netting.needs:
        shorts[each.need, seen[each.need]] = max(each.short, int(each.absent))
        seen[each.need] += 1
    return shorts


def freed(was: tuple[Netting, Workshop], now: tuple[Netting, Workshop]) -> tuple[str, ...]:
    """Return the steps that are ready now and weren't before: what a parcel frees."""
    ready_before = {
        each.step.code for each in steps_ready(*was) if each.readiness is Readiness.READY
    }
    return tuple(
        each.step.code
        for each in steps_ready(*now)
        if each.readiness is Readiness.READY and each.step.code not in ready_before
    )


def left_over(netting: Netting, workshop: Workshop) -> dict[Pool, int]:
    """Return what lies there that no step takes: spare, or forgotten in the plan.

    Stock to be cut from counts as taken whole.
    """
    left = supply_of(workshop)
    for need in netting.needs:
        for pool, quantity in need.filled:
            left[pool] -= quantity
        for pool, _ in need.to_cut:
            left[pool] = 0
    return {pool: quantity for pool, quantity in left.items() if quantity > 0}
