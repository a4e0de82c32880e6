"""Filling needs from pools of pieces: the earliest first, each as far as is possible at all."""

from __future__ import annotations

from collections import defaultdict, deque
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from inventory.core.planning.preferring import prefer

if TYPE_CHECKING:
    from collections.abc import Collection, Hashable, Mapping, Sequence

P = TypeVar("P", bound="Hashable")


class Wanted(NamedTuple, Generic[P]):
    """A quantity, and the pools that may give it, the one preferred first."""

    pools: tuple[P, ...]
    quantity: int


class Share(NamedTuple, Generic[P]):
    """What one need gets from one pool."""

    pool: P
    quantity: int


def fill(supply: Mapping[P, int], wanted: Sequence[Wanted[P]]) -> list[tuple[Share[P], ...]]:
    """Return for each need, in the order given, what it gets from which pools.

    A later need may send an earlier one to another of its pools, but never takes anything from
    it. What can be filled together forms a matroid (transversal matroid, Edmonds and Fulkerson
    1965), so that this is the most for every beginning of the order at once: first come without
    re-routing isn't.
    """
    filling = Filling(supply)
    amounts = [filling.take(want.pools, want.quantity) for want in wanted]
    return filling.shared_out([want.pools for want in wanted], amounts)


class Filling(Generic[P]):
    """Pools being drawn on; needs that accept the same pools are kept together."""

    def __init__(self, supply: Mapping[P, int]) -> None:
        self.free: dict[P, int] = dict(supply)
        self._held: defaultdict[P, dict[tuple[P, ...], int]] = defaultdict(dict)
        self._spent: set[P] = set()

    def take(self, pools: tuple[P, ...], quantity: int) -> int:
        """Take up to the quantity from these pools, re-routing earlier needs; return how much."""
        rest = quantity
        for pool in pools:
            part = min(rest, self.free.get(pool, 0))
            if part:
                self._give(pool, pools, part)
                rest -= part
        while rest and not self._spent.issuperset(pools):
            rest -= self._reroute(pools, rest)
        return quantity - rest

    def prefer(self, pools: Collection[P]) -> None:
        """Let what is taken from these pools come from those preferred, as far as possible."""
        prefer(self._held, self.free, pools)

    def shared_out(
        self, wanted: Sequence[tuple[P, ...]], amounts: Sequence[int]
    ) -> list[tuple[Share[P], ...]]:
        """Deal out what is held to the single needs: earlier needs get the pool preferred."""
        # Of needs with one pool nothing need be dealt out: what they took is theirs.
        left: defaultdict[tuple[P, ...], dict[P, int]] = defaultdict(dict)
        for pool, holders in self._held.items():
            for pools, quantity in holders.items():
                left[pools][pool] = quantity
        return [
            _dealt(left, pools, amount) if amount else ()
            for pools, amount in zip(wanted, amounts, strict=True)
        ]

    def _give(self, pool: P, pools: tuple[P, ...], quantity: int) -> None:
        self.free[pool] -= quantity
        holders = self._held[pool]
        holders[pools] = holders.get(pools, 0) + quantity

    def _reroute(self, pools: tuple[P, ...], most: int) -> int:
        """Free pieces in one of these pools by sending earlier needs elsewhere; take them."""
        came_from: dict[P, tuple[P, tuple[P, ...]] | None] = dict.fromkeys(pools)
        waiting = deque(pools)
        while waiting:
            pool = waiting.popleft()
            if self.free.get(pool, 0):
                return self._shift(self._way(came_from, pool), pools, min(most, self.free[pool]))
            for holder in self._held[pool]:
                for other in holder:
                    if other not in came_from:
                        came_from[other] = (pool, holder)
                        waiting.append(other)
        # None of these pools, nor any that they could be relieved by, has a piece left: pools
        # only ever empty, and no way leads out of this set, so it need not be searched again.
        self._spent.update(came_from)
        return 0

    def _way(
        self, came_from: Mapping[P, tuple[P, tuple[P, ...]] | None], end: P
    ) -> list[tuple[P, P, tuple[P, ...]]]:
        """Return the moves (from pool, to pool, of which holder), the last one first."""
        moves = []
        to = end
        while (before := came_from[to]) is not None:
            pool, holder = before
            moves.append((pool, to, holder))
            to = pool
        return moves

    def _shift(
        self, moves: list[tuple[P, P, tuple[P, ...]]], pools: tuple[P, ...], most: int
    ) -> int:
        quantity = min([most, *(self._held[pool][holder] for pool, _, holder in moves)])
        for pool, to, holder in moves:
            self._give(to, holder, quantity)
            self.free[pool] += quantity
            holders = self._held[pool]
            holders[holder] -= quantity
            if not holders[holder]:
                del holders[holder]
        self._give(moves[-1][0], pools, quantity)
        return quantity


def _dealt(
    left: Mapping[tuple[P, ...], dict[P, int]], pools: tuple[P, ...], amount: int
) -> tuple[Share[P], ...]:
    if len(pools) == 1:
        return (Share(pools[0], amount),)
    held = left[pools]
    shares = []
    for pool in pools:
        part = min(amount, held.get(pool, 0))
        if part:
            held[pool] -= part
            amount -= part
            shares.append(Share(pool, part))
    return tuple(shares)
