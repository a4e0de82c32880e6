"""Why something is short, down to the movements and lines behind each number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import State, fits
from inventory.core.parts.supersession import replacements
from inventory.core.planning.lying_aside import lying_aside
from inventory.core.planning.shortage import steps_stopped, takers
from inventory.jobs.planning.planning import known_step
from inventory.jobs.planning.workshop_today import scarce_within
from inventory.jobs.receiving.own_hardware import own_hardware
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import all_slips, undone_slips
from inventory.store.planning.plans import step_codes
from inventory.store.receiving.packing_lists import listed_lines

if TYPE_CHECKING:
    from inventory.core.items import Item
    from inventory.core.parts.supersession import Replacement
    from inventory.core.places import Place
    from inventory.core.planning.lying_aside import LyingAside
    from inventory.core.planning.shortage import NetNeed
    from inventory.core.planning.sources import Taken
    from inventory.core.receiving.arrivals import ListedLine
    from inventory.jobs.acts import Bench
    from inventory.store.ledger.history import RecordedMovement
    from inventory.store.ledger.slips import RecordedSlip


@frozen
class Moved:
    """A movement with the act that recorded it."""

    movement: RecordedMovement
    act: RecordedSlip
    undone: bool


@frozen(kw_only=True)
class Because:
    """One need that something keeps from being filled, and everything behind it."""

    net: NetNeed
    taken_before: tuple[Taken, ...]
    """What earlier steps take of the pieces that it could have had."""
    stops: tuple[str, ...]
    """Steps that can't be done while this is short."""
    lying: tuple[tuple[Place, Item, int], ...]
    """The usable pieces that fit, bin by bin."""
    aside: tuple[LyingAside, ...]
    """What lies there and yet doesn't count."""
    lines: tuple[ListedLine, ...]
    """How the packing lists name the part of this hand."""
    moved: tuple[Moved, ...]
    """All movements of the part of this hand, oldest first."""
    replacements: tuple[Replacement, ...]
    """Numbers that replace it on paper: only a person may decide on one."""


def why_short(bench: Bench, code: str) -> list[Because]:
    """Return for each need of a step that is short, or not prepared, what is behind it."""
    with bench.store.reading() as db:
        step = known_step(step_codes(db, bench.kit.id), code)
        now = scarce_within(db, bench.kit, step)
        lines = listed_lines(db, bench.kit.id)
        acts = {each.id: each for each in all_slips(db, bench.kit.id)}
        undone = undone_slips(db, bench.kit.id)
        netting = now.netting
        lacking = [net for net in netting.of_step(step) if net.stops or net.unprepared]
        moved = {
            part: movements(db, bench.kit.id, part=part)
            for part in {net.need.part for net in lacking}
        }
    rules = own_hardware(bench.store.address).rules
    return [
        Because(
            net=net,
            taken_before=takers(netting, net),
            stops=steps_stopped(netting, net),
            lying=tuple(lies for lies in now.in_bins() if _fits(net, lies[1])),
            aside=lying_aside(net, now.workshop),
            lines=tuple(
                each
                for each in lines
                if each.line.part == net.need.part and fits(net.need.hand, each.line.hand)
            ),
            moved=tuple(
                Moved(each, acts[each.slip], each.slip in undone)
                for each in moved[net.need.part]
                if fits(net.need.hand, each.movement.item.hand)
            ),
            replacements=replacements(net.need.printed or net.need.part, rules),
        )
        for net in lacking
    ]


def _fits(net: NetNeed, item: Item) -> bool:
    pools = {(pool.part, pool.hand, pool.length) for pool in net.pools}
    return item.state is State.NEW and (item.part, item.hand, item.length) in pools
