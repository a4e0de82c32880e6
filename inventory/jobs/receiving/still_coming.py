"""What is still to come, put together from lists, claims, promises and what came since."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.places import crate_code
from inventory.core.planning.workshop import Due
from inventory.core.receiving.arrivals import settled_lines
from inventory.core.receiving.still_to_come import still_coming
from inventory.core.receiving.tally import tally
from inventory.store.ledger.events import crate_states
from inventory.store.opening.one_moment import read_once
from inventory.store.receiving.arrivals import all_arrivals, all_expected, all_promises
from inventory.store.receiving.counts import all_counts, counts_that_stand
from inventory.store.receiving.deliveries import all_deliveries
from inventory.store.receiving.packing_lists import listed_lines

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from inventory.core.lists.packing import PackingLine
    from inventory.core.receiving.arrivals import ListedLine
    from inventory.core.receiving.receipt import Packages
    from inventory.core.receiving.still_to_come import Coming
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection
    from inventory.store.receiving.counts import RecordedCount


@frozen
class Receipt:
    """All that came and was counted, and what is still open, of one moment."""

    lines: tuple[ListedLine, ...]
    """Of the lists that count, less what came later for their back-orders."""
    counts: tuple[RecordedCount, ...]
    """The counts that stand."""
    packages: Packages
    coming: tuple[Coming, ...]


@read_once
def receipt_within(db: Connection, kit: Kit) -> Receipt:
    """Return what came and what is still to come, inside a transaction."""
    from inventory.core.receiving.delivery import packages_of

    listed = listed_lines(db, kit.id)
    arrivals = all_arrivals(db, kit.id)
    lines = settled_lines(listed, arrivals)
    counts = counts_that_stand(all_counts(db, kit.id))
    closed = closed_crates(lines, crate_states(db, kit.id), counted=bool(counts))
    return Receipt(
        lines=tuple(lines),
        counts=tuple(counts),
        packages=packages_of(all_deliveries(db, kit.id), closed),
        coming=tuple(
            still_coming(listed, all_expected(db, kit.id), arrivals, all_promises(db, kit.id))
        ),
    )


def closed_crates(
    lines: Iterable[ListedLine], states: Mapping[str, str], *, counted: bool
) -> frozenset[str]:
    """Return the crates counted to the end.

    What a list puts in no crate is judged once its crates are all closed; a list that names no
    crate at all, as slips of later parcels do, once somebody closes `?`.
    """
    closed = {crate for crate, event in states.items() if event == "closed"}
    by_list: defaultdict[int, set[str]] = defaultdict(set)
    for each in lines:
        by_list[each.packing_list].add(each.line.crate)
    named = {crate for crates in by_list.values() for crate in crates if crate}
    if counted and named <= closed and all(crates != {""} for crates in by_list.values()):
        closed.add("")
    return frozenset(closed)


def due_within(db: Connection, kit: Kit) -> list[Due]:
    """Return what steps may wait for: what is to come, and what nobody counted yet."""
    receipt = receipt_within(db, kit)
    due = [
        Due(
            part=each.wanted.part,
            hand=each.wanted.hand,
            length=each.wanted.length,
            quantity=each.pieces,
            source=each.source,
            promised=each.promised,
            latest=each.latest,
        )
        for each in receipt.coming
    ]
    return due + _uncounted(receipt)


def _uncounted(receipt: Receipt) -> list[Due]:
    lines = [each.line for each in receipt.lines]
    found: list[Due] = []
    for one in tally(lines, [each.count for each in receipt.counts]).lines:
        line = one.line
        uncounted = line.shipped - one.pieces_received
        if uncounted > 0 and not receipt.packages.judged(line) and _came(line, receipt.packages):
            found.append(
                Due(
                    part=line.part,
                    hand=line.hand,
                    length=line.length,
                    quantity=uncounted,
                    source=f"crate {crate_code(line.crate, line.bag)}, not counted yet",
                )
            )
    return found


def _came(line: PackingLine, packages: Packages) -> bool:
    return line.crate not in packages.missing


def coming(bench: Bench) -> list[Coming]:
    """Return what is still to come: the earliest promise first, undated last."""
    with bench.store.reading() as db:
        found = receipt_within(db, bench.kit).coming
    return sorted(found, key=lambda each: (each.promised is None, str(each.promised), each.printed))


def overdue(bench: Bench, today: date) -> list[Coming]:
    """Return what should have come by now: the late end of its promise is past."""
    return [each for each in coming(bench) if each.overdue(today)]
