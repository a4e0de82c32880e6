"""What each step still needs, and which pieces may fill it."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.items import Hand, State, fits
from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.plan import NeedKind, steps_in_order

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.items import Item
    from inventory.core.planning.plan import Need, Plan
    from inventory.core.planning.workshop import StandIn, Workshop


class Pool(NamedTuple):
    """Pieces that are as good as each other for netting: lots apart are one pool."""

    part: str
    hand: Hand
    length: int
    kept_for: str = ""
    """The step these pieces are set aside for; empty where any step may take them."""


class OpenNeed(NamedTuple):
    """A need of a step that isn't done, with what was issued for it already."""

    need: Need
    issued: int
    open: int
    """What is still to be fetched; the full quantity would count issued pieces twice."""
    spare_open: int
    """What is still to be fetched of the spare allowance."""
    pools: tuple[Pool, ...]


def open_needs(plan: Plan, workshop: Workshop, supply: Mapping[Pool, int]) -> list[OpenNeed]:
    """Return the needs of all steps not done, in build order, within a step as on the sheet.

    `supply` is the usable stock by pool.
    """
    by_step: defaultdict[str, list[Need]] = defaultdict(list)
    for need in plan.needs:
        by_step[need.step].append(need)
    issued: defaultdict[str, dict[Item, int]] = defaultdict(dict)
    for (step, item), quantity in workshop.issued.items():
        issued[step][item] = quantity
    accepted = _Accepted(workshop.stand_ins, supply)
    found: list[OpenNeed] = []
    for code in (step.code for step in steps_in_order(plan.steps)):
        needs = by_step.pop(code, [])
        if code not in workshop.done:
            amounts = _issued_for(needs, issued[code], accepted)
            found += [
                _open_need(need, amount, accepted.pools(need))
                for need, amount in zip(needs, amounts, strict=True)
            ]
    if by_step:
        raise ValueError(f"needs of steps that aren't in the plan: {', '.join(sorted(by_step))}")
    return found


def _open_need(need: Need, issued: int, pools: tuple[Pool, ...]) -> OpenNeed:
    unissued = max(0, need.quantity - issued)
    spare = max(0, need.quantity + need.spare - issued) - unissued
    return OpenNeed(need, issued, unissued, spare, pools)


def supply_of(workshop: Workshop) -> dict[Pool, int]:
    """Return the usable new pieces by pool; what is set aside stands in pools of its own."""
    supply: defaultdict[Pool, int] = defaultdict(int)
    for item, quantity in workshop.usable.items():
        if item.state is State.NEW:
            supply[Pool(item.part, item.hand, item.length)] += quantity
    for kept in workshop.set_aside:
        pool = Pool(kept.item.part, kept.item.hand, kept.item.length)
        quantity = min(kept.quantity, supply.get(pool, 0))
        if quantity and kept.item.state is State.NEW:
            supply[pool] -= quantity
            supply[pool._replace(kept_for=kept.step)] += quantity
    return dict(supply)


def fitting_hands(need: Hand) -> tuple[Hand, ...]:
    """Return the hands of piece that may fill this need, its own first, EITHER last."""
    order = (need, *(hand for hand in Hand if hand not in {need, Hand.EITHER}), Hand.EITHER)
    return tuple(dict.fromkeys(hand for hand in order if fits(need, hand)))


_FITTING: Mapping[Hand, tuple[Hand, ...]] = {hand: fitting_hands(hand) for hand in Hand}


class _Accepted:
    """Which pools a need accepts: own number first, then recorded stand-ins."""

    def __init__(self, stand_ins: Iterable[StandIn], supply: Mapping[Pool, int]) -> None:
        self._supply = supply
        self._kept = {(pool.kept_for, pool.part) for pool in supply if pool.kept_for}
        self._known: dict[tuple[object, ...], tuple[Pool, ...]] = {}
        self._instead: defaultdict[tuple[str, str], list[str]] = defaultdict(list)
        for stand_in in stand_ins:
            self._instead[stand_in.part, stand_in.step].append(stand_in.instead)

    def parts(self, need: Need) -> tuple[str, ...]:
        """Return the part numbers that may fill this need, its own first."""
        decided = self._instead.get((need.part, need.step), []) if self._instead else []
        always = self._instead.get((need.part, ""), []) if self._instead else []
        return tuple(dict.fromkeys((need.part, *decided, *always)))

    def pools(self, need: Need) -> tuple[Pool, ...]:
        """Return the pools that hold something for this need; its own pool in any case."""
        parts = self.parts(need)
        keepers = tuple(need.step for part in parts if (need.step, part) in self._kept)[:1]
        key = (parts, need.hand, need.length, keepers)
        pools = self._known.get(key)
        if pools is None:
            pools = self._known[key] = tuple(self._holding(need, parts, (*keepers, "")))
        return pools

    def _holding(self, need: Need, parts: Iterable[str], keepers: Iterable[str]) -> Iterator[Pool]:
        own = Pool(need.part, need.hand, need.length)
        for part in parts:
            for hand in _FITTING[need.hand]:
                for keeper in keepers:
                    pool = Pool(part, hand, need.length, keeper)
                    if pool in self._supply or pool == own:
                        yield pool


def _issued_for(
    needs: Sequence[Need], issued: Mapping[Item, int], accepted: _Accepted
) -> list[int]:
    """Deal the pieces that lie in the step to its needs; worked ones were fitted there: count."""
    if not issued:
        return [0] * len(needs)
    lying: defaultdict[Pool, int] = defaultdict(int)
    for item, quantity in issued.items():
        lying[Pool(item.part, item.hand, item.length)] += quantity
    wanted = [
        Wanted(
            tuple(
                Pool(part, hand, need.length)
                for part in accepted.parts(need)
                for hand in _FITTING[need.hand]
            ),
            need.quantity + need.spare + need.as_required,
        )
        for need in needs
    ]
    return [sum(share.quantity for share in shares) for shares in fill(lying, wanted)]


def takes_from_stock(need: Need) -> bool:
    """Say whether pieces leave the stock for good: tools come back, as-required has no number."""
    return need.kind is not NeedKind.TOOL and not need.as_required
