"""At the crate: open it, count it, see what is missing, close it."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Item
from inventory.core.lists.packing import CountRule
from inventory.core.natural_order import natural
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.findings_today import placed_findings
from inventory.store.ledger.events import add_crate_event, crate_states
from inventory.store.receiving.counts import (
    RecordedCount,
    add_counts,
    all_counts,
    counts_that_stand,
    same_pile,
)
from inventory.store.receiving.packing_lists import current_lines, listed_crates

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.items import Hand
    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.findings import Finding
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

    _Pile = tuple[str, str, str, Hand]

SUPPLIER = Place(PlaceKind.SUPPLIER)
HOLD = Place(PlaceKind.HOLD, "HOLD")


class CountedBeforeError(InventoryError):
    """The pile was counted before; a person says whether this number takes its place."""


@frozen
class CrateState:
    """How far a crate is counted."""

    crate: str
    state: str
    """opened, closed, being counted where nobody said that it was opened, or not opened yet."""
    lines: int
    counted: int
    """Lines of the list that were counted at least once."""
    counted_twice: int
    open_lines: tuple[PackingLine, ...]


def open_crate(bench: Bench, crate: str, slip: Slip) -> str:
    """Record that a crate was opened; return its name as the list writes it."""
    return _set_state(bench, crate, "opened", slip)


def close_crate(bench: Bench, crate: str, slip: Slip) -> str:
    """Record that a crate is counted to the end; counts are still taken after that."""
    return _set_state(bench, crate, "closed", slip)


@tried_again
def _set_state(bench: Bench, crate: str, event: str, slip: Slip) -> str:
    with acting(bench, f"crate {event}", slip) as act:
        name = known_crate(act.db, bench.kit, crate)
        if crate_states(act.db, bench.kit.id).get(name) == event:
            raise InventoryError(f"crate {crate_code(name)} is {event} already")
        add_crate_event(act.db, bench.kit.id, act.recorded.id, name, event)
        return name


def known_crate(db: Connection, kit: Kit, crate: str) -> str:
    """Return the crate's name as the list writes it; `2` finds `2 OF 3` if no other fits.

    `?` stands for all that the lists put in no crate, as slips of later parcels do.
    """
    crates = listed_crates(db, kit.id)
    wanted = " ".join(crate.upper().split())
    if wanted == crate_code("") and _unnamed(current_lines(db, kit.id)):
        return ""
    found = [name for name in crates if name.upper() == wanted] or [
        name for name in crates if name.upper().split()[0] == wanted
    ]
    if len(found) == 1:
        return found[0]
    if not crates:
        return wanted
    raise NotFoundError(
        f"no crate {crate!r} is on the lists", remedy=f"There are: {', '.join(crates)}."
    )


@tried_again
def count(bench: Bench, counts: Sequence[RecordedCount], slip: Slip, *, more: bool = False) -> None:
    """Record what was counted; good pieces then lie in the crate or bag, others on hold.

    A pile that was counted before needs `recount` (the new number holds) or `more` (it adds up).
    """
    with acting(bench, "crate count", slip) as act:
        count_within(act, counts, more=more)


def count_within(act: Act, counts: Sequence[RecordedCount], *, more: bool = False) -> None:
    """Record what was counted as part of an act."""
    before = counts_that_stand(all_counts(act.db, act.kit.id))
    if not more:
        _refuse_twice(before, counts)
    add_counts(act.db, act.kit.id, act.recorded.id, counts)
    act.move([move for each in counts for move in _arrival(each, before)])


def _refuse_twice(before: Iterable[RecordedCount], counts: Iterable[RecordedCount]) -> None:
    for each in counts:
        earlier = next(
            (old for old in before if same_pile(old.count, each.count) and not each.recount), None
        )
        if earlier is not None:
            who = f" by {earlier.count.by}" if earlier.count.by else ""
            raise CountedBeforeError(
                f"{each.printed} in crate {crate_code(each.count.crate, each.count.bag)} was "
                f"counted before{who}: {earlier.count.pieces_counted}",
                where=f"crate {each.count.crate}",
                remedy="Say --recount if this number takes its place, --more if it adds to it.",
            )


def _arrival(each: RecordedCount, before: Iterable[RecordedCount]) -> list[Movement]:
    """Return what a count moves: in from the supplier, or back out where a recount found fewer."""
    old = [one.count for one in before if same_pile(one.count, each.count)] if each.recount else []
    good = each.count.pieces_good - sum(one.pieces_good for one in old)
    bad = each.count.pieces_damaged - sum(one.pieces_damaged for one in old)
    item = Item(each.count.part, each.count.hand, each.count.lot, each.count.length)
    crate = Place(PlaceKind.CRATE, crate_code(each.count.crate, each.count.bag))
    return [
        Movement(item, pieces, SUPPLIER, place)
        if pieces > 0
        else Movement(item, -pieces, place, SUPPLIER)
        for pieces, place in ((good, crate), (bad, HOLD))
        if pieces
    ]


def crates(bench: Bench, crate: str = "") -> list[CrateState]:
    """Return how far each crate is counted; one of them where asked."""
    with bench.store.reading() as db:
        only = known_crate(db, bench.kit, crate) if crate else None
        lines = current_lines(db, bench.kit.id)
        counts = [each.count for each in all_counts(db, bench.kit.id)]
        states = crate_states(db, bench.kit.id)
    times = Counter((one.crate, one.bag, one.part, one.hand) for one in counts)
    names = dict.fromkeys([*(line.crate for line in lines), *(one.crate for one in counts)])
    states = {**{one.crate: "being counted" for one in counts}, **states}
    return [
        _crate_state(name, lines, times, states.get(name, "not opened yet"))
        for name in sorted(names, key=natural)
        if only in (None, name) and (name or _unnamed(lines))
    ]


def _unnamed(lines: Iterable[PackingLine]) -> bool:
    """Say whether something is to be counted that the lists put in no crate."""
    return any(not line.crate and to_be_counted(line) for line in lines)


def to_be_counted(line: PackingLine) -> bool:
    """Say whether something of the line should lie there: as-required ones are there or not."""
    match line.count_rule:
        case CountRule.COUNTED:
            return line.shipped > 0
        case CountRule.AS_REQUIRED:
            return True
        case CountRule.REFERENCE:
            return False


def _crate_state(
    crate: str, lines: Iterable[PackingLine], counted: Mapping[_Pile, int], state: str
) -> CrateState:
    here = [line for line in lines if line.crate == crate and to_be_counted(line)]
    times = [counted.get((line.crate, line.bag, line.part, line.hand), 0) for line in here]
    return CrateState(
        crate=crate,
        state=state,
        lines=len(here),
        counted=sum(number > 0 for number in times),
        counted_twice=sum(number > 1 for number in times),
        open_lines=tuple(line for line, number in zip(here, times, strict=True) if not number),
    )


def found(bench: Bench, crate: str = "") -> list[Finding]:
    """Return what differs between list and count; of one crate where asked.

    In a crate that isn't closed, a part nobody counted yet isn't missed.
    """
    with bench.store.reading() as db:
        name = known_crate(db, bench.kit, crate) if crate else None
        differences = [each.finding for each in placed_findings(db, bench.kit)]
    return [one for one in differences if name in (None, one.crate)]
