"""What can be wrong inside a store, looked for one thing after another."""

from __future__ import annotations

from collections import Counter
from itertools import pairwise
from typing import TYPE_CHECKING

from sqlalchemy import func, literal, select, union_all
from sqlalchemy.exc import DBAPIError

from inventory.core.errors import InventoryError, Problem
from inventory.core.places import OUTSIDE
from inventory.core.record.chain import Link, first_broken
from inventory.core.record.ledger import reversal
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import all_slips
from inventory.store.receiving.photos import read_photo
from inventory.store.tables.deliveries import photo as photo_table
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.ledger import balance as balance_table
from inventory.store.tables.ledger import movement as movement_table

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence
    from pathlib import Path

    from sqlalchemy import Connection, Select

    from inventory.core.record.ledger import Movement
    from inventory.store.kits import Kit
    from inventory.store.ledger.history import RecordedMovement
    from inventory.store.ledger.slips import RecordedSlip

RESTORE = "Do not write to it. Restore the newest backup that verifies: kitwright restore"
CHANGED = "The record was changed by other means than Kitwright. Compare with a backup."
_MOST = 20


def looked(db: Connection, look: Callable[[], list[Problem]]) -> list[Problem]:
    """Return what a look finds; where the file can't be read, that is what is wrong."""
    try:
        with db.begin_nested():  # on the server, a failed question ends the whole transaction
            return look()
    except DBAPIError as error:
        return [Problem(f"the file is damaged: {error.orig}", "file", RESTORE)]
    except (ValueError, KeyError) as error:
        return [Problem(f"this can't be understood: {error}", "store", CHANGED)]


def damaged_pages(db: Connection) -> list[Problem]:
    """Return what SQLite finds damaged in the file; the server looks after its own."""
    if db.dialect.name != "sqlite":
        return []
    said = db.exec_driver_sql(f"PRAGMA integrity_check({_MOST})").scalars().all()
    faults = [
        line.strip()
        for each in said
        for line in each.splitlines()
        if line.strip() != "ok" and not line.startswith("***")
    ]
    if not faults:
        return []
    more = f" (and {len(faults) - 1} more)" if len(faults) > 1 else ""
    return [Problem(f"the file is damaged: {faults[0]}{more}", "file", RESTORE)]


def stray_rows(db: Connection) -> list[Problem]:
    """Return rows that refer to rows which aren't there; the server forbids them by itself."""
    if db.dialect.name != "sqlite":
        return []
    found = Counter(row[0] for row in db.exec_driver_sql("PRAGMA foreign_key_check"))
    return [
        Problem(f"{number} rows refer to something that isn't there", f"table {table}", CHANGED)
        for table, number in found.items()
    ]


def wrong_balances(db: Connection, kit: Kit) -> list[Problem]:
    """Return where the balances aren't the sums of the movements, or stand below zero."""
    where = f"kit {kit.code}"
    wrong, below = [], []
    for kind, code, part, summed, kept in db.execute(_balances_and_sums(kit.id)):
        place = f"{kind or 'a place that is missing'} {code or ''}".strip()
        moved, by_balance = int(summed), int(kept)
        if moved != by_balance:
            words = f"{place} holds {moved} x {part} by the movements, {by_balance} by the balance"
            wrong.append(Problem(words, where, CHANGED))
        if moved < 0 and kind not in OUTSIDE:
            below.append(Problem(f"{place} holds {moved} x {part}", where, CHANGED))
    return wrong + below


def _balances_and_sums(kit: int) -> Select[str, str, str, int, int]:
    """Return what to ask: place and part wherever sum and balance differ, or are below zero.

    The database adds up: a million movements in Python take a hundred times as long.
    """
    m, b = movement_table.c, balance_table.c
    trips = (  # in the order of the index that carries all of it: nothing is sorted
        select(m.item, m.origin, m.destination, func.sum(m.quantity).label("quantity"))
        .where(m.kit == kit)
        .group_by(m.item, m.origin, m.destination)
        .cte("trips")
    )
    t, none = trips.c, literal(0)
    each = union_all(
        select(t.origin.label("place"), t.item, (-t.quantity).label("moved"), none.label("kept")),
        select(t.destination, t.item, t.quantity, none),
        select(b.place, b.item, none, b.quantity).where(b.kit == kit),
    ).subquery()
    moved, kept = func.sum(each.c.moved), func.sum(each.c.kept)
    differing = (
        select(each.c.place, each.c.item, moved.label("moved"), kept.label("kept"))
        .group_by(each.c.place, each.c.item)
        .having((moved != kept) | (moved < 0))
        .subquery()
    )
    d, w, i, p = differing.c, place_table.c, item_table.c, part_table.c
    return (
        select(w.kind, w.code, p.key, d.moved, d.kept)
        .select_from(differing)
        .outerjoin(place_table, (w.kit == kit) & (w.id == d.place))
        .outerjoin(item_table, (i.kit == kit) & (i.id == d.item))
        .outerjoin(part_table, (p.kit == kit) & (p.id == i.part))
        .order_by(w.kind, w.code, p.key, d.item)
    )


def disordered_slips(db: Connection, kit: Kit) -> list[Problem]:
    """Return acts whose numbers have gaps, and undoings that don't take back what they undo."""
    slips = all_slips(db, kit.id)
    moved: dict[int, list[Movement]] = {each.id: [] for each in slips}
    for each in movements(db, kit.id):
        moved.setdefault(each.slip, []).append(each.movement)
    where = f"kit {kit.code}"
    return [
        *(
            Problem(f"act {number} is missing", where, CHANGED)
            for number in sorted({*range(1, len(slips) + 1)} - {each.id for each in slips})
        ),
        *(
            Problem(f"act {each.id} doesn't take back what act {each.undoes} moved", where, CHANGED)
            for each in slips
            if each.undoes is not None and not _takes_back(each, moved)
        ),
    ]


def _takes_back(undoing: RecordedSlip, moved: dict[int, list[Movement]]) -> bool:
    undone = moved.get(undoing.undoes or 0, [])
    return Counter(moved[undoing.id]) == Counter(map(reversal, undone))


def broken_chain(db: Connection, kit: Kit) -> list[Problem]:
    """Return the first movement that no longer fits its seal."""
    slips = {each.id: each for each in all_slips(db, kit.id)}
    kept = movements(db, kit.id)
    total = select(func.count()).where(movement_table.c.kit == kit.id)
    number = first_broken(_links(kept, slips))
    if number is None and db.execute(total).scalar_one() != len(kept):
        number = len(kept) + 1
    if number is None:
        return []
    act = next((each.slip for each in kept if each.number >= number), None)
    return [
        Problem(
            f"movement {number} isn't as it was sealed" + (f" (act {act})" if act else ""),
            f"kit {kit.code}",
            f"It or its act was changed, put in or taken out. {CHANGED}",
        )
    ]


def _links(kept: Sequence[RecordedMovement], slips: dict[int, RecordedSlip]) -> Iterator[Link]:
    for each in kept:
        recorded = slips[each.slip]
        yield Link(each.number, recorded.act, recorded.slip, each.movement, each.chain)


def wrong_seal(db: Connection, kit: Kit, number: int, digits: str) -> list[Problem]:
    """Return how the record differs from a seal that was printed earlier."""
    c = movement_table.c
    chain = db.execute(select(c.chain).where(c.kit == kit.id, c.id == number)).scalar()
    where = f"kit {kit.code}"
    if chain is None:
        return [Problem(f"there is no movement {number}: the end was cut off", where, CHANGED)]
    if not bytes(chain).hex().startswith(digits):
        return [Problem(f"movement {number} bears another seal than printed", where, CHANGED)]
    return []


def clock_went_back(db: Connection, kit: Kit) -> list[int]:
    """Return the acts recorded at an earlier time than the act before them."""
    slips = all_slips(db, kit.id)
    return [
        later.id
        for earlier, later in pairwise(slips)
        if later.slip.recorded_at < earlier.slip.recorded_at
    ]


def wrong_photos(db: Connection, folder: Path) -> list[Problem]:
    """Return photographs that are missing from their folder, or were changed there."""
    c = photo_table.c
    wrong = []
    for digest, kind, name in db.execute(
        select(c.sha256, c.kind, c.name).distinct().order_by(c.sha256)
    ):
        try:
            read_photo(folder, digest, kind)
        except InventoryError as error:
            wrong.append(Problem(f"{error.what}: {name}", error.where, error.remedy))
    return wrong
