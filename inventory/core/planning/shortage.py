"""Shortages: what each step needs against what is there, earlier steps first."""

from __future__ import annotations

from collections import defaultdict
from itertools import groupby
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.alternates import chosen_needs
from inventory.core.planning.deliveries import from_due
from inventory.core.planning.open_needs import open_needs, supply_of, takes_from_stock
from inventory.core.planning.plan import steps_in_order
from inventory.core.planning.preparation import unprepared_pieces
from inventory.core.planning.sources import Makers, Taken, covered

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterator, Mapping, Sequence

    from inventory.core.planning.deliveries import DueShare
    from inventory.core.planning.filling import Share
    from inventory.core.planning.open_needs import OpenNeed, Pool
    from inventory.core.planning.plan import Need, Plan, Step
    from inventory.core.planning.workshop import Saw, Workshop


@frozen(kw_only=True)
class NetNeed:
    """One need netted; quantities in the part's measure."""

    need: Need
    issued: int
    open: int
    """Needed less issued."""
    pools: tuple[Pool, ...]
    """The usable pieces that may fill it, its own number and hand first."""
    on_hand: int
    """All usable pieces that fit, whoever is going to use them."""
    filled: tuple[Share[Pool], ...] = ()
    """What it gets in build order."""
    from_steps: tuple[Taken, ...] = ()
    """Sub-assemblies that earlier steps will make."""
    to_cut: tuple[Share[Pool], ...] = ()
    """Pieces still to be cut, and from which stock on hand."""
    short: int = 0
    """In build order: what stays open once earlier steps took theirs."""
    short_alone: int = 0
    """What would stay open if this step alone took from the stock."""
    due: tuple[DueShare, ...] = ()
    """What covers the shortage; earlier steps' shortages are covered first."""
    spare_short: int = 0
    """Spare allowance that isn't there once every need is filled; stops nothing."""
    unprepared: int = 0
    """Pieces that lie there, but lack the preparation the step asks for."""
    chosen: bool = True
    """False for an alternate that isn't used, because another of its group is."""

    @property
    def absent(self) -> bool:
        """As-required, and nothing of it is there."""
        return self.need.as_required and self.chosen and not (self.issued or self.on_hand)

    @property
    def stops(self) -> bool:
        """Whether the step can't be finished for this need, in build order."""
        return self.short > 0 or self.absent

    @property
    def stops_alone(self) -> bool:
        """Whether the step can't be finished for this need even if no other step takes any."""
        return self.short_alone > 0 or self.absent

    @property
    def short_beyond_due(self) -> int:
        """What nobody has promised: to be claimed, ordered or made."""
        return self.short - sum(share.quantity for share in self.due)

    @property
    def covered_on(self) -> dt.date | None:
        """The day on which promised deliveries reach the shortage; None where no day is known."""
        dates = [share.due.promised for share in self.due]
        known = [date for date in dates if date]
        if self.short_beyond_due or not known or len(known) < len(dates):
            return None
        return max(known)


@frozen
class Netting:
    """All needs of the steps not done, netted in build order."""

    steps: tuple[Step, ...]
    """All steps of the plan, in build order."""
    needs: tuple[NetNeed, ...]

    def of_step(self, code: str) -> tuple[NetNeed, ...]:
        """Return the needs of one step."""
        return tuple(net for net in self.needs if net.need.step == code)


def net(plan: Plan, workshop: Workshop) -> Netting:
    """Net the needs of all steps not done against the usable stock, earlier steps first.

    Gross to net: open = needed - issued; short = open - what earlier steps leave over. Left never
    fills right; a piece that fits both sides goes where it fills most, taking nothing from an
    earlier step. Worked, held and expired pieces and those in crates never count.
    Raises `ValueError` for steps in a circle and for needs of unknown steps.
    """
    order = tuple(steps_in_order(plan.steps))
    supply = supply_of(workshop)
    every = open_needs(plan, workshop, supply)
    used = chosen_needs(every, supply)
    lines = [line for line, use in zip(every, used, strict=True) if use]
    netted = iter([*_netted(lines, supply, Makers(order, workshop.done), workshop)])
    needs = [
        next(netted) if use else _left_out(line, supply)
        for line, use in zip(every, used, strict=True)
    ]
    return Netting(order, tuple(needs))


def _netted(
    lines: Sequence[OpenNeed], supply: Mapping[Pool, int], makers: Makers, workshop: Workshop
) -> Iterator[NetNeed]:
    cover = covered(lines, supply, makers, workshop.saw)
    short = [line.open - covering.quantity for line, covering in zip(lines, cover, strict=True)]
    alone = _short_alone(lines, short, supply, makers, workshop.saw)
    due = from_due(lines, short, workshop.due, workshop.saw)
    unprepared = unprepared_pieces(lines, [each.filled for each in cover], workshop.prepared)
    for number, line in enumerate(lines):
        yield NetNeed(
            need=line.need,
            issued=line.issued,
            open=line.open,
            pools=line.pools,
            on_hand=_on_hand(line, supply),
            filled=cover[number].filled,
            from_steps=cover[number].from_steps,
            to_cut=cover[number].to_cut,
            short=short[number],
            short_alone=alone[number],
            due=due[number],
            spare_short=cover[number].spare_short,
            unprepared=unprepared[number],
        )


def _left_out(line: OpenNeed, supply: Mapping[Pool, int]) -> NetNeed:
    return NetNeed(
        need=line.need,
        issued=line.issued,
        open=line.open,
        pools=line.pools,
        on_hand=_on_hand(line, supply),
        chosen=False,
    )


def _on_hand(line: OpenNeed, supply: Mapping[Pool, int]) -> int:
    if len(line.pools) == 1:
        return supply.get(line.pools[0], 0)
    return sum(supply.get(pool, 0) for pool in line.pools)


def _short_alone(
    lines: Sequence[OpenNeed],
    short: Sequence[int],
    supply: Mapping[Pool, int],
    makers: Makers,
    saw: Saw,
) -> list[int]:
    """Net each step as if it alone took from the stock."""
    by_part: defaultdict[str, dict[Pool, int]] = defaultdict(dict)
    for pool, quantity in supply.items():
        by_part[pool.part][pool] = quantity
    alone: list[int] = []
    for _, group in groupby(zip(lines, short, strict=True), key=lambda pair: pair[0].need.step):
        of_step = list(group)
        if not any(missing for _, missing in of_step):
            alone += [0] * len(of_step)
            continue
        own = [line for line, _ in of_step]
        parts = dict.fromkeys(pool.part for line in own for pool in line.pools)
        there = {pool: held for part in parts for pool, held in by_part[part].items()}
        alone += [
            line.open - covering.quantity
            for line, covering in zip(own, covered(own, there, makers, saw), strict=True)
        ]
    return alone


def takers(netting: Netting, wanting: NetNeed) -> tuple[Taken, ...]:
    """Return which needs before this one take, in build order, pieces that it could have had."""
    pools = set(wanting.pools)
    taken: defaultdict[str, int] = defaultdict(int)
    for earlier in netting.needs:
        if earlier is wanting:
            break
        if not pools.isdisjoint(earlier.pools) and takes_from_stock(earlier.need):
            taken[earlier.need.step] += sum(
                share.quantity for share in earlier.filled if share.pool in pools
            )
    return tuple(Taken(step, quantity) for step, quantity in taken.items() if quantity)


def steps_stopped(netting: Netting, wanting: NetNeed) -> tuple[str, ...]:
    """Return the steps that can't be done while this part is short, in build order.

    Those that are short of it themselves, and all that come after one of them.
    """
    pools = set(wanting.pools)
    stopped = {
        each.need.step for each in netting.needs if each.stops and not pools.isdisjoint(each.pools)
    }
    made_before: defaultdict[str, set[str]] = defaultdict(set)
    for each in netting.needs:
        made_before[each.need.step].update(step for step, _ in each.from_steps)
    for step in netting.steps:
        if not stopped.isdisjoint({*step.after, *made_before[step.code]}):
            stopped.add(step.code)
    return tuple(step.code for step in netting.steps if step.code in stopped)
