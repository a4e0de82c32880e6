"""Which of a step's alternates is used, so that the earliest steps are filled first."""

from __future__ import annotations

from collections import defaultdict
from itertools import product
from math import prod
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.planning.filling import Filling
from inventory.core.planning.open_needs import takes_from_stock

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.planning.open_needs import OpenNeed, Pool

MOST_TRIED = 4096
"""Up to so many combinations of alternates that share stock are all tried; beyond, one by one."""


@frozen
class _Group:
    """The alternates of one step under one word, by their place among all needs."""

    lines: tuple[int, ...]


def chosen_needs(lines: Sequence[OpenNeed], supply: Mapping[Pool, int]) -> list[bool]:
    """Say of each need whether it is used: all are, but of alternates exactly one.

    Of the choices that leave the earliest needs least short, the one that takes the alternates
    as high up on the sheet as possible. An alternate of which pieces were issued stays chosen.
    """
    used = [not line.need.one_of for line in lines]
    groups = _groups(lines)
    for pools in _joined(_links(groups, lines)) if groups else ():
        sharing = [group for group in groups if lines[group.lines[0]].pools[0] in pools]
        if sharing:
            for place in _best(sharing, _firm(lines, pools), lines, supply):
                used[place] = True
    return used


def _firm(lines: Sequence[OpenNeed], pools: set[Pool]) -> list[int]:
    """Return the places of the needs without alternates that draw on these pools."""
    return [
        place for place, line in enumerate(lines) if not line.need.one_of and line.pools[0] in pools
    ]


def _groups(lines: Sequence[OpenNeed]) -> list[_Group]:
    by_word: defaultdict[tuple[str, str], list[int]] = defaultdict(list)
    for place, line in enumerate(lines):
        if line.need.one_of:
            by_word[line.need.step, line.need.one_of].append(place)
    groups = []
    for places in by_word.values():
        begun = max(places, key=lambda place: lines[place].issued)
        groups.append(_Group((begun,) if lines[begun].issued else tuple(places)))
    return groups


def _links(groups: Sequence[_Group], lines: Sequence[OpenNeed]) -> Iterator[set[Pool]]:
    """Yield the pools that some need, or the alternates of one group, may draw on."""
    for group in groups:
        yield {pool for place in group.lines for pool in lines[place].pools}
    for pools in {line.pools for line in lines if len(line.pools) > 1}:
        yield set(pools)


def _joined(links: Iterable[set[Pool]]) -> list[set[Pool]]:
    """Join the sets that have a pool in common."""
    joined: list[set[Pool]] = []
    for link in links:
        apart = [other for other in joined if link.isdisjoint(other)]
        touching = (other for other in joined if not link.isdisjoint(other))
        joined = [*apart, link.union(*touching)]
    return joined


def _best(
    groups: Sequence[_Group],
    firm: Sequence[int],
    lines: Sequence[OpenNeed],
    supply: Mapping[Pool, int],
) -> tuple[int, ...]:
    def shorts(choice: tuple[int, ...]) -> tuple[int, ...]:
        return _shorts(sorted((*firm, *choice)), lines, supply)

    if prod(len(group.lines) for group in groups) <= MOST_TRIED:
        return min(product(*(group.lines for group in groups)), key=shorts)
    best = tuple(group.lines[0] for group in groups)
    while True:
        better = min(_one_changed(best, groups), key=shorts, default=best)
        if shorts(better) >= shorts(best):
            return best
        best = better


def _one_changed(choice: tuple[int, ...], groups: Sequence[_Group]) -> Iterator[tuple[int, ...]]:
    for number, group in enumerate(groups):
        for place in group.lines:
            if place != choice[number]:
                yield (*choice[:number], place, *choice[number + 1 :])


def _shorts(
    places: Sequence[int], lines: Sequence[OpenNeed], supply: Mapping[Pool, int]
) -> tuple[int, ...]:
    filling = Filling(supply)
    short = []
    for place in places:
        line = lines[place]
        wanted = line.open
        if takes_from_stock(line.need):
            short.append(wanted - filling.take(line.pools, wanted))
        else:
            there = sum(supply.get(pool, 0) for pool in line.pools)
            short.append(max(0, (wanted or 1) - there))
    return tuple(short)
