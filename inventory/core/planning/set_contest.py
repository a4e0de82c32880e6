"""The steps of a netted plan as tasks that compete for scarce stock."""

from __future__ import annotations

from collections import defaultdict
from itertools import groupby
from typing import TYPE_CHECKING

from inventory.core.items import Hand, fits
from inventory.core.planning.open_needs import supply_of, takes_from_stock
from inventory.core.planning.plan import NeedKind
from inventory.core.planning.set_tasks import Claim, Contest, Source, Task

if TYPE_CHECKING:
    from collections.abc import Hashable, Iterable, Mapping, Sequence

    from inventory.core.planning.open_needs import Pool
    from inventory.core.planning.plan import Step
    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.core.planning.workshop import Workshop

NOTHING = Claim(1, ())
"""A claim that can't be met: the step can't be finished."""


def contest_of(netting: Netting, workshop: Workshop, worth: Mapping[str, int]) -> Contest:
    """Return the steps not done, with what each claims of the stock that isn't ample for all.

    What is to be cut claims length of all bars of its part together: whether the pieces come out
    of single bars is to be looked at afterwards.
    """
    making = _Making(netting.steps, workshop.done)
    supply = supply_of(workshop)
    ample = _ample(netting.needs, supply)
    by_step = {
        code: list(needs) for code, needs in groupby(netting.needs, lambda need: need.need.step)
    }
    tasks = tuple(
        Task(
            code=step.code,
            worth=worth.get(step.code, 1),
            after=tuple(code for code in step.after if code not in workshop.done),
            claims=tuple(_groups(by_step.get(step.code, ()), ample, making, workshop.saw.kerf)),
            makes=making.of(step),
        )
        for step in netting.steps
        if step.code not in workshop.done
    )
    stock: dict[Hashable, int] = {pool: quantity for pool, quantity in supply.items()}  # noqa: C416
    for pool, quantity in supply.items():
        if pool.length:
            room = max(0, pool.length - workshop.saw.trim + workshop.saw.kerf) * quantity
            stock[bars(pool.part)] = stock.get(bars(pool.part), 0) + room
    return Contest(tasks, stock)


def bars(part: str) -> Hashable:
    """Return the key of all bars of a part together."""
    return ("bars", part)


def _ample(needs: Iterable[NetNeed], supply: Mapping[Pool, int]) -> set[Pool]:
    asked: defaultdict[Pool, int] = defaultdict(int)
    for need in needs:
        if need.open and takes_from_stock(need.need):
            for pool in need.pools:
                asked[pool] += need.open
    return {pool for pool, quantity in asked.items() if quantity <= supply.get(pool, 0)}


class _Making:
    """Sub-assemblies that steps still to be done make."""

    def __init__(self, steps: Iterable[Step], done: frozenset[str]) -> None:
        self._hands: defaultdict[str, set[Hand]] = defaultdict(set)
        for step in steps:
            if step.makes and step.code not in done:
                self._hands[step.makes].add(step.makes_hand)

    def of(self, step: Step) -> tuple[Hashable, ...]:
        """Return the stock that a step adds to."""
        return (("made", step.makes, step.makes_hand),) if step.makes else ()

    def sources(self, need: NetNeed) -> list[Source]:
        """Return the made stock that a need may draw on."""
        hands = self._hands.get(need.need.part, set())
        return [
            Source(("made", need.need.part, hand))
            for hand in Hand
            if hand in hands and fits(need.need.hand, hand)
        ]


def _groups(
    needs: Sequence[NetNeed], ample: set[Pool], making: _Making, kerf: int
) -> Iterable[tuple[Claim, ...]]:
    alternates: defaultdict[str, list[NetNeed]] = defaultdict(list)
    for need in needs:
        if need.need.one_of:
            alternates[need.need.one_of].append(need)
        else:
            claim = _claim(need, ample, making, kerf)
            if claim is not None:
                yield (claim,)
    for group in alternates.values():
        begun = [need for need in group if need.issued and need.chosen]
        claims = [_claim(need, ample, making, kerf) for need in begun or group]
        if None not in claims:
            yield tuple(claim for claim in claims if claim is not None)


def _claim(need: NetNeed, ample: set[Pool], making: _Making, kerf: int) -> Claim | None:
    """Return what a need claims; None where there is enough of it for all."""
    if need.need.as_required:
        return None if need.issued or need.on_hand else NOTHING
    if not takes_from_stock(need.need):
        return None if need.on_hand >= need.open else NOTHING
    if not need.open or not ample.isdisjoint(need.pools):
        return None
    sources = [Source(pool) for pool in need.pools] + making.sources(need)
    if need.need.kind is NeedKind.CUT:
        sources.append(Source(bars(need.need.part), need.need.length + kerf))
    return Claim(need.open, tuple(sources))
