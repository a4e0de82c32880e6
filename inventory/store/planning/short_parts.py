"""Who is short, how many, and which step first: of a plan of any size, reading few of its lines.

Totals first; then only the lines of parts that are short, in build order, up to the one where the
stock gives out. Parts that are tied to others go through the pure netting.
"""

from __future__ import annotations

from collections import Counter
from operator import attrgetter
from typing import TYPE_CHECKING, cast

from sqlalchemy import select

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.shortage import net
from inventory.store.planning.plans import of_step
from inventory.store.planning.scarce import akin, plan_of_parts, totals
from inventory.store.tables.planning import need as need_table

if TYPE_CHECKING:
    from collections.abc import Collection, Hashable, Iterable, Iterator, Mapping, Sequence

    from sqlalchemy import Connection

    from inventory.core.planning.shortage import NetNeed
    from inventory.store.planning.scarce import Moment, Total

_AT_ONCE = 500
"""So many part numbers are asked for in one question."""


@frozen
class ShortPart:
    """A part of one hand and length of which steps lack something."""

    part: str
    hand: Hand
    length: int
    short: int
    """In the part's measure; 0 where it is as-required and none is there."""
    first_step: str
    """The first in build order that lacks it."""


def short_parts(db: Connection, at: Moment) -> list[ShortPart]:
    """Return what is short of the plan, by part, hand and length."""
    alone, tied = _told_apart(totals(db, at), at)
    scarce = [total for total in alone if total.quantity > at.supply.get(total.pool, 0)]
    found = [
        ShortPart(
            *total.pool[:3],
            total.quantity - at.supply.get(total.pool, 0),
            at.plan.steps[rank - 1].code,
        )
        for total, rank in _first_ranks(db, at, scarce, Counter(total.part for total in alone))
    ]
    if tied:
        found += by_part(net(plan_of_parts(db, at, tied), at.workshop).needs)
    return sorted(found, key=attrgetter("part", "hand", "length"))


def short_of_step(db: Connection, at: Moment, step: str) -> list[ShortPart]:
    """Return what one step lacks once earlier steps took theirs, by part, hand and length."""
    c = need_table.c
    own: Counter[tuple[int, Pool]] = Counter()
    lines = select(c.part, c.hand, c.length, c.quantity).where(
        at.open_lines, of_step(at.kit, at.number, step)
    )
    for part, hand, length, quantity in db.execute(lines):
        own[part, Pool(at.parts[part], Hand(hand), length)] += quantity
    of_parts = c.part.in_({part for part, _ in own})
    alone, tied = _told_apart(totals(db, at, of_parts, before=at.rank(step)), at)
    found = [
        ShortPart(*total.pool[:3], short, step)
        for total in alone
        for left in [max(0, at.supply.get(total.pool, 0) - total.before)]
        for short in [own[total.part, total.pool] - left]
        if short > 0
    ]
    if tied:
        netting = net(plan_of_parts(db, at, akin(db, at, set(tied))), at.workshop)
        keys = {at.parts[part] for part in tied}
        found += by_part(each for each in netting.of_step(step) if each.need.part in keys)
    return sorted(found, key=attrgetter("part", "hand", "length"))


def by_part(needs: Iterable[NetNeed]) -> list[ShortPart]:
    """Return what needs lack that are netted one by one, by part, hand and length."""
    shorts: Counter[tuple[str, Hand, int]] = Counter()
    first: dict[tuple[str, Hand, int], str] = {}
    for each in needs:
        if each.stops:
            key = (each.need.part, each.need.hand, each.need.length)
            shorts[key] += each.short
            first.setdefault(key, each.need.step)
    return [ShortPart(*key, shorts[key], step) for key, step in first.items()]


def _told_apart(every: Iterable[Total], at: Moment) -> tuple[list[Total], list[int]]:
    """Return the totals that tell by themselves, and the parts to be netted line by line.

    Pieces for either side, set aside, or issued to a step not done aren't told by a total; a part
    of which one hand isn't is netted whole.
    """
    tied: dict[int, None] = {}
    alone: list[Total] = []
    for total in every:
        if total.tied or total.pool.hand is Hand.EITHER or total.pool.part in at.apart:
            tied[total.part] = None
        else:
            alone.append(total)
    return [total for total in alone if total.part not in tied], list(tied)


def _first_ranks(
    db: Connection, at: Moment, scarce: Sequence[Total], pools: Mapping[int, int]
) -> Iterator[tuple[Total, int]]:
    """Yield each total with the rank of the first step for which the stock doesn't suffice.

    `pools` says in how many hands and lengths a part is asked for: lines of a part of only one
    needn't say which.
    """
    for several in (False, True):
        asked = [total for total in scarce if (pools[total.part] > 1) is several]
        for first in range(0, len(asked), _AT_ONCE):
            some = asked[first : first + _AT_ONCE]
            named: dict[Hashable, Total] = {
                _key(total) if several else total.part: total for total in some
            }
            left = {key: at.supply.get(total.pool, 0) for key, total in named.items()}
            lines = _lines(db, at, {total.part for total in some}, several=several)
            yield from ((named[key], rank) for key, rank in _gives_out(lines, left))


_Whole = tuple[int, str, int, int, int]


def _key(total: Total) -> tuple[int, str, int]:
    return total.part, total.pool.hand.value, total.pool.length


def _lines(
    db: Connection, at: Moment, parts: Collection[int], *, several: bool
) -> Iterable[tuple[Hashable, int, int]]:
    """Return part, rank and quantity of each line in order; with hand and length in a part's place.

    Rows as the driver gives them: to wrap each takes longer than to read it.
    """
    c = need_table.c
    which = (c.part, c.hand, c.length)
    rows = db.execute(
        select(*(which if several else which[:1]), c.rank, c.quantity)
        .where(at.open_lines, c.part.in_(parts))
        .order_by(*which, c.rank)
    )
    if not several:
        return cast("Iterable[tuple[int, int, int]]", rows.cursor)
    return (
        ((part, hand, length), rank, quantity)
        for part, hand, length, rank, quantity in cast("Iterable[_Whole]", rows.cursor)
    )


def _gives_out(
    lines: Iterable[tuple[Hashable, int, int]], left: Mapping[Hashable, int]
) -> Iterator[tuple[Hashable, int]]:
    """Yield each key with the rank of the line at which `left` gives out.

    The lines come key by key, then in build order; those of others are passed over.
    """
    key: Hashable = None
    rest = -1
    for of_key, rank, quantity in lines:
        if of_key != key:
            key, rest = of_key, left.get(of_key, -1)
        if rest >= 0:
            rest -= quantity
            if rest < 0:
                yield key, rank
