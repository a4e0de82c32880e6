"""Two persons' counts of one pile, and whether they agree."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.receiving.counts import all_counts, pile_key

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.receiving.counts import Count
    from inventory.jobs.acts import Bench
    from inventory.store.receiving.counts import RecordedCount


@frozen
class Round:
    """One person's numbers for a pile: a first count, or a recount, with what was added to it."""

    by: str
    good: int
    damaged: int
    wrong: int
    about: int = 0

    @property
    def numbers(self) -> tuple[int, int, int]:
        """What two rounds have to agree in."""
        return self.good, self.damaged, self.wrong


@frozen
class Pile:
    """One item in one crate and bag, with every round of counting it."""

    count: Count
    printed: str
    rounds: tuple[Round, ...]

    @property
    def agreed(self) -> bool:
        """Whether the newest round is the same as an earlier one."""
        newest = self.rounds[-1].numbers
        return any(earlier.numbers == newest for earlier in self.rounds[:-1])

    @property
    def differs(self) -> bool:
        """Whether it was counted more than once and no two rounds settle it."""
        return len(self.rounds) > 1 and not self.agreed

    @property
    def persons(self) -> frozenset[str]:
        """Who counted it."""
        return frozenset(each.by for each in self.rounds)


def piles_of(counts: Iterable[RecordedCount]) -> list[Pile]:
    """Return every pile with its rounds, in the order they were first counted."""
    piles: dict[tuple[object, ...], Pile] = {}
    for each in counts:
        key = pile_key(each.count)
        pile = piles.get(key)
        if pile is None:
            piles[key] = Pile(each.count, each.printed, (_round(each.count),))
        elif each.recount:
            piles[key] = replace(pile, rounds=(*pile.rounds, _round(each.count)))
        else:
            *before, last = pile.rounds
            piles[key] = replace(pile, rounds=(*before, _joined(last, each.count)))
    return list(piles.values())


def _round(count: Count) -> Round:
    return Round(count.by, count.pieces_good, count.pieces_damaged, count.pieces_wrong, count.about)


def _joined(earlier: Round, more: Count) -> Round:
    by = ", ".join(dict.fromkeys(name for name in (earlier.by, more.by) if name))
    return Round(
        by,
        earlier.good + more.pieces_good,
        earlier.damaged + more.pieces_damaged,
        earlier.wrong + more.pieces_wrong,
        earlier.about + more.about,
    )


def unsettled(bench: Bench, crate: str = "") -> list[Pile]:
    """Return the piles whose counts differ, of one crate where asked."""
    with bench.store.reading() as db:
        name = known_crate(db, bench.kit, crate) if crate else None
        counts = all_counts(db, bench.kit.id)
    return [pile for pile in piles_of(counts) if pile.differs and name in (None, pile.count.crate)]
