"""What of a crate is left to count, line by line: a count goes on where it was left."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.amounts import amount_words
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.receiving.counting import TypedCount, count_typed, settled_count
from inventory.jobs.receiving.receiving import known_crate, to_be_counted
from inventory.jobs.receiving.second_counts import piles_of
from inventory.store.receiving.counts import all_counts, same_pile
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.counts import Count
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.second_counts import Pile


@frozen
class Left:
    """The lines of a crate that wait for a count, and how many it has in all."""

    crate: str
    lines: tuple[PackingLine, ...]
    all_lines: int


@frozen(kw_only=True)
class Said:
    """What a person says of one line."""

    pieces: str
    damaged: str = "0"
    wrong: str = "0"


def left_to_count(bench: Bench, crate: str, bag: str = "") -> Left:
    """Return the lines of a crate, or of a bag in it, that nobody counted yet, bag by bag."""
    return _left(bench, crate, bag, lambda piles: not piles)


def left_to_recount(bench: Bench, crate: str, person: str, bag: str = "") -> Left:
    """Return the lines that another person counted once, and those whose counts differ."""

    def waits(piles: Sequence[Pile]) -> bool:
        return any(
            (pile.differs or len(pile.rounds) == 1) and person not in pile.rounds[-1].by.split(", ")
            for pile in piles
        )

    return _left(bench, crate, bag, waits)


def _left(bench: Bench, crate: str, bag: str, waits: Callable[[Sequence[Pile]], bool]) -> Left:
    with bench.store.reading() as db:
        name = known_crate(db, bench.kit, crate)
        lines = current_lines(db, bench.kit.id)
        piles = piles_of(all_counts(db, bench.kit.id))
    wanted = " ".join(bag.upper().split())
    here = [
        line
        for line in lines
        if line.crate == name and wanted in ("", line.bag) and to_be_counted(line)
    ]
    counted: defaultdict[tuple[object, ...], list[Pile]] = defaultdict(list)
    for pile in piles:
        counted[pile.count.crate, pile.count.bag, pile.count.part, pile.count.hand].append(pile)
    left = [line for line in here if waits(counted[line.crate, line.bag, line.part, line.hand])]
    return Left(name, tuple(sorted(left, key=lambda line: line.bag)), len(here))


def count_line(
    bench: Bench, line: PackingLine, said: Said, slip: Slip, *, recount: bool = False
) -> Count:
    """Record what a person found of one line of the list."""
    typed = TypedCount(
        crate=line.crate,
        bag=line.bag,
        asked=Asked(part=line.part, hand=line.hand, length=line.length or None),
        pieces=said.pieces,
        damaged=said.damaged,
        wrong=said.wrong,
    )
    return count_typed(bench, typed, slip, recount=recount)


def count_second(bench: Bench, typed: TypedCount, slip: Slip) -> Count:
    """Record what a second person found of one pile that another counted before."""
    settled = settled_count(bench, typed, slip)
    with bench.store.reading() as db:
        piles = piles_of(all_counts(db, bench.kit.id))
    pile = next((each for each in piles if same_pile(each.count, settled)), None)
    if pile is None:
        raise InventoryError("nobody counted it before", remedy="Leave --second out.")
    if not slip.person or slip.person in pile.rounds[-1].by.split(", "):
        raise InventoryError(
            f"{pile.rounds[-1].by or 'nobody with a name'} counted it last; another person is to",
            remedy="That person says --by with their own name; to correct a count say --recount.",
        )
    return count_typed(bench, typed, slip, recount=True)


@frozen
class Beside:
    """What the list says beside a count, and the count in the list's own unit."""

    good: str
    damaged: str
    wrong: str
    listed: str | None
    """What was shipped where it was counted; None where the list has nothing of it there."""


def beside(bench: Bench, counted: Count) -> Beside:
    """Return a count in words, and what the list says beside it."""
    with bench.store.reading() as db:
        lines = [line for line in current_lines(db, bench.kit.id) if line.part == counted.part]
    here = [
        line.shipped
        for line in lines
        if (line.crate, line.bag, line.hand) == (counted.crate, counted.bag, counted.hand)
        and counted.length in (0, line.length)
    ]
    said = (counted.pieces_good, counted.pieces_damaged, counted.pieces_wrong, sum(here))
    good, damaged, wrong, listed = (
        amount_words(lines[0], quantity) if lines else str(quantity) for quantity in said
    )
    return Beside(good, damaged, wrong, listed if here else None)
