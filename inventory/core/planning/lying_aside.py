"""Pieces of a short part that lie there, yet don't count, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

from inventory.core.items import State, fits
from inventory.core.planning.plan import NeedKind
from inventory.core.planning.workshop import Aside

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.planning.workshop import Workshop


class LyingAside(NamedTuple):
    """Some pieces that could be mistaken for what a step needs."""

    why: Aside
    item: Item
    quantity: int
    step: str = ""
    """For which step they are set aside, if that is why."""


def lying_aside(net: NetNeed, workshop: Workshop) -> tuple[LyingAside, ...]:
    """Return what lies there of the parts that fill this need, but doesn't count for it.

    A piece that has several things against it is told by the first of: worked, of the other
    hand, of another length.
    """
    parts = {pool.part for pool in net.pools}
    found = [
        LyingAside(why, item, quantity)
        for item, quantity in workshop.usable.items()
        if item.part in parts
        for why in [_against(net, item)]
        if why
    ]
    found += [
        LyingAside(Aside.KEPT, kept.item, kept.quantity, kept.step)
        for kept in workshop.set_aside
        if kept.item.part in parts and kept.step != net.need.step and not _against(net, kept.item)
    ]
    found += [
        LyingAside(why, item, quantity)
        for why, items in workshop.aside.items()
        for item, quantity in items.items()
        if item.part in parts and not _against(net, item)
    ]
    return tuple(found)


def _against(net: NetNeed, item: Item) -> Aside | None:
    if item.state is State.WORKED:
        return Aside.WORKED
    if not fits(net.need.hand, item.hand):
        return Aside.OTHER_HAND
    stock = net.need.kind is NeedKind.CUT and item.length > net.need.length
    if item.length != net.need.length and not stock:
        return Aside.OTHER_LENGTH
    return None
