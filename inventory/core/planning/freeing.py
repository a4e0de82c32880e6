"""Which missing parts free most work: what to ask for first."""

from __future__ import annotations

from collections import Counter, defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping

    from inventory.core.planning.open_needs import Pool
    from inventory.core.planning.shortage import NetNeed, Netting

MOST_AT_ONCE = 5
"""So many parts are named together at most."""


@frozen
class Missing:
    """All that lacks of one part of one hand: less would leave some later step short."""

    pool: Pool
    quantity: int


@frozen
class Freeing:
    """Parts that, once they and those named before are there, let steps be done."""

    parts: tuple[Missing, ...]
    steps: tuple[str, ...]
    """Newly freed: nothing of them, nor of what comes before them, lacks any more."""


def freeing_parts(netting: Netting, done: frozenset[str], *, most: int = 10) -> tuple[Freeing, ...]:
    """Return which parts to get first, one entry after the other, the most steps a part first.

    "These three parts free eleven steps." Each entry is the best next one (a greedy choice; to
    find the best of all would take too long and change nothing at the bench).
    """
    blockers = blocked_by(netting, done)
    bits = {pool: 1 << number for number, pool in enumerate(_pools(blockers))}
    masks = {code: sum(bits[pool] for pool in pools) for code, pools in blockers.items() if pools}
    counts = Counter(masks.values())
    had = 0
    found: list[Freeing] = []
    while counts and len(found) < most:
        chosen = _best(counts, had)
        if chosen is None:
            break
        had |= chosen
        steps = [code for code, mask in masks.items() if not mask & ~had]
        found.append(_freeing(netting, [pool for pool in bits if bits[pool] & chosen], steps))
        masks = {code: mask for code, mask in masks.items() if mask & ~had}
        counts = Counter(masks.values())
    return tuple(found)


def blocked_by(netting: Netting, done: frozenset[str]) -> dict[str, frozenset[Pool]]:
    """Return for each step not done what lacks for it or for anything that comes before it."""
    own: defaultdict[str, set[Pool]] = defaultdict(set)
    makers: defaultdict[str, set[str]] = defaultdict(set)
    for need in netting.needs:
        if need.stops:
            own[need.need.step].add(need.pools[0])
        makers[need.need.step].update(maker for maker, _ in need.from_steps)
    every: dict[str, frozenset[Pool]] = {}
    for step in netting.steps:
        if step.code not in done:
            before = (every.get(code, frozenset()) for code in (*step.after, *makers[step.code]))
            every[step.code] = frozenset(own[step.code]).union(*before)
    return every


def _pools(blockers: Mapping[str, frozenset[Pool]]) -> list[Pool]:
    return sorted({pool for pools in blockers.values() for pool in pools})


def _best(counts: Mapping[int, int], had: int) -> int | None:
    """Return the parts that free the most steps for each part, few of them before many."""
    wanted = {mask & ~had for mask in counts}
    ranked = [
        (freed / mask.bit_count(), -mask.bit_count(), -mask, mask)
        for mask in wanted
        if mask.bit_count() <= MOST_AT_ONCE
        for freed in [_freed(counts, had | mask)]
    ]
    best = max(ranked, default=None)
    return best[3] if best else None


def _freed(counts: Mapping[int, int], had: int) -> int:
    return sum(count for mask, count in counts.items() if not mask & ~had)


def _freeing(netting: Netting, pools: Iterable[Pool], steps: Iterable[str]) -> Freeing:
    place = {step.code: number for number, step in enumerate(netting.steps)}
    return Freeing(
        tuple(Missing(pool, _lacking(netting.needs, pool)) for pool in pools),
        tuple(sorted(steps, key=place.__getitem__)),
    )


def _lacking(needs: Iterable[NetNeed], pool: Pool) -> int:
    """Return the pieces that lack; as-required parts that aren't there count as one."""
    return sum(
        max(need.short, int(need.absent)) for need in needs if need.pools[0] == pool and need.stops
    )
