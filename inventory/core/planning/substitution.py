"""Which recorded stand-ins the netting uses: to be shown, since a person decided on each."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from inventory.core.planning.plan import Need
    from inventory.core.planning.shortage import Netting
    from inventory.core.planning.workshop import StandIn, Workshop


@frozen
class StandingIn:
    """A step uses another part than the plan says."""

    need: Need
    instead: str
    quantity: int
    decision: StandIn


def standing_in(netting: Netting, workshop: Workshop) -> tuple[StandingIn, ...]:
    """Return where a stand-in is used instead of the own number, in build order.

    "11-02 uses B instead of A, since 11-03 takes the only A."
    """
    decisions = {(each.part, each.instead, each.step): each for each in workshop.stand_ins}
    found = []
    for net in netting.needs:
        need = net.need
        for pool, quantity in net.filled:
            if pool.part != need.part:
                for_step = decisions.get((need.part, pool.part, need.step))
                decision = for_step or decisions[need.part, pool.part, ""]
                found.append(StandingIn(need, pool.part, quantity, decision))
    return tuple(found)
