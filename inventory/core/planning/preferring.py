"""Sending needs to pools they would rather have, without taking anything from anyone."""

from __future__ import annotations

from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

if TYPE_CHECKING:
    from collections.abc import Collection, Hashable, Iterator, MutableMapping, Sequence

P = TypeVar("P", bound="Hashable")


class _Move(NamedTuple, Generic[P]):
    """A quantity goes from pool to pool; None stands for what is free in all pools together."""

    origin: P | None
    destination: P | None
    holder: tuple[P, ...]
    """The pools that the needs which move accept, the one preferred first; empty if none does."""
    cost: int
    """How far they go down in their own order, or up, below zero."""
    most: float


def prefer(
    held: MutableMapping[P, dict[tuple[P, ...], int]],
    free: MutableMapping[P, int],
    pools: Collection[P],
) -> None:
    """Move what is held of these pools so that needs stand as high in their order as possible.

    Every need keeps its quantity. As long as there is a round of moves that goes up more than
    down it is made (cancelling negative cycles, Klein 1967): in the end nothing better is left.
    """
    while cycle := _better_round([*_moves(held, free, pools)]):
        quantity = int(min(move.most for move in cycle))
        for move in cycle:
            for pool, more in ((move.origin, -quantity), (move.destination, quantity)):
                if pool is not None and move.holder:
                    _add(held.setdefault(pool, {}), move.holder, more)
                elif pool is not None:
                    free[pool] += more


def _moves(
    held: MutableMapping[P, dict[tuple[P, ...], int]],
    free: MutableMapping[P, int],
    pools: Collection[P],
) -> Iterator[_Move[P]]:
    for pool in pools:
        for holder, quantity in held.get(pool, {}).items():
            place = holder.index(pool)
            for other_place, other in enumerate(holder):
                if other_place != place:
                    yield _Move(pool, other, holder, other_place - place, quantity)
        if free.get(pool, 0):
            yield _Move(pool, None, (), 0, free[pool])
        yield _Move(None, pool, (), 0, float("inf"))


def _better_round(moves: Sequence[_Move[P]]) -> list[_Move[P]]:
    """Return moves that lead back to where they began and cost less than nothing together.

    Found by Bellman and Ford's rounds: a way that still gets shorter in the last runs in a circle.
    """
    distance: dict[P | None, int] = dict.fromkeys((move.destination for move in moves), 0)
    came_by: dict[P | None, _Move[P]] = {}
    at: P | None = None
    for _ in range(len(distance) + 1):
        shorter = False
        for move in moves:
            further = distance.get(move.origin, 0) + move.cost
            if further < distance[move.destination]:
                distance[move.destination] = further
                came_by[move.destination] = move
                at = move.origin
                shorter = True
        if not shorter:
            return []
    for _ in came_by:
        at = came_by[at].origin
    cycle = [came_by[at]]
    while cycle[-1].origin != at:
        cycle.append(came_by[cycle[-1].origin])
    return cycle


def _add(of_pool: dict[tuple[P, ...], int], holder: tuple[P, ...], quantity: int) -> None:
    of_pool[holder] = of_pool.get(holder, 0) + quantity
    if not of_pool[holder]:
        del of_pool[holder]
