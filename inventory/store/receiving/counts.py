"""Counts of crates and bags: added, never overwritten."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING, Any

from sqlalchemy import insert, select

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.receiving.counts import Count, Method, Remark
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.opening.one_moment import read_once
from inventory.store.receiving.weighings import add_weighing, weighings
from inventory.store.tables.counting import count as count_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from inventory.core.receiving.weighing import Weighing


@frozen
class RecordedCount:
    """A count as it stands in the record."""

    id: int
    slip: int
    count: Count
    printed: str
    recount: bool
    """Takes the place of all earlier counts of the same item, crate and bag."""
    note: str = ""
    weighing: Weighing | None = None
    """What was on the scale, where it was weighed."""


def add_counts(db: Connection, kit: int, slip: int, counts: Sequence[RecordedCount]) -> None:
    """Record counts of one act; their `id` and `slip` are given here."""
    if not counts:
        return
    parts = part_ids(db, kit, [PartName(each.count.part, each.printed) for each in counts])
    first = next_id(db, count_table, kit)
    rows = [
        {
            "kit": kit,
            "id": first + place,
            "slip": slip,
            "part": parts[each.count.part],
            "printed": each.printed,
            "recount": int(each.recount),
            "note": each.note,
            **_columns(each.count),
        }
        for place, each in enumerate(counts)
    ]
    db.execute(insert(count_table), rows)
    for place, each in enumerate(counts):
        if each.weighing is not None:
            add_weighing(db, kit, slip, first + place, each.weighing)


def _columns(count: Count) -> dict[str, object]:
    return {
        "crate": count.crate,
        "bag": count.bag,
        "hand": count.hand.value,
        "lot": count.lot,
        "length": count.length,
        "good": count.pieces_good,
        "damaged": count.pieces_damaged,
        "wrong": count.pieces_wrong,
        "about": count.about,
        "method": count.method.value,
        "remarks": json.dumps(sorted(count.remarks)),
        "revision": count.revision,
        "expires": count.expires.isoformat() if count.expires else "",
        "instead_of": count.instead_of,
        "person": count.by,
    }


@read_once
def all_counts(db: Connection, kit: int, *, undone_too: bool = False) -> list[RecordedCount]:
    """Return all counts that aren't undone, oldest first, those since recounted too."""
    c, p, s = count_table.c, part_table.c, slip_table.c
    undone = frozenset() if undone_too else undone_slips(db, kit)
    weighed = weighings(db, kit)
    said = (
        c.id, c.slip, c.printed, c.recount, c.note,
        p.key, c.hand, c.length, c.crate, c.bag, c.good, c.damaged, c.wrong, c.about,
        c.method, c.remarks, c.revision, c.lot, c.expires, c.instead_of, c.person, s.happened_on,
    )  # fmt: skip
    rows = db.execute(
        select(*said)
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [_recorded(row, weighed.get(row[0])) for row in rows if row[1] not in undone]


def holds_counts(db: Connection, kit: int, slip: int) -> bool:
    """Say whether an act recorded counts."""
    c = count_table.c
    found = db.execute(select(c.id).where(c.kit == kit, c.slip == slip).limit(1))
    return found.first() is not None


def _recorded(row: Sequence[Any], weighing: Weighing | None) -> RecordedCount:
    number, slip, printed, recount, note, *counted = row
    part, hand, length, crate, bag, good, damaged, wrong, about, *more = counted
    method, remarks, revision, lot, expires, instead_of, person, day = more
    count = Count(
        part=part,
        hand=Hand(hand),
        length=length,
        crate=crate,
        bag=bag,
        pieces_good=good,
        pieces_damaged=damaged,
        pieces_wrong=wrong,
        about=about,
        method=Method(method),
        remarks=frozenset(map(Remark, json.loads(remarks))) if remarks != "[]" else frozenset(),
        revision=revision,
        lot=lot,
        expires=date.fromisoformat(expires) if expires else None,
        instead_of=instead_of,
        by=person,
        on=date.fromisoformat(day),
    )
    return RecordedCount(number, slip, count, printed, recount == 1, note, weighing)


def pile_key(count: Count) -> tuple[object, ...]:
    """Return what tells one pile from others: the item, and the crate and bag it lies in."""
    return (count.crate, count.bag, count.part, count.hand, count.length, count.lot)


def same_pile(one: Count, other: Count) -> bool:
    """Say whether two counts are of the same item in the same crate and bag."""
    return pile_key(one) == pile_key(other)


def counts_that_stand(counts: Sequence[RecordedCount]) -> list[RecordedCount]:
    """Return the counts that no later recount replaced, oldest first."""
    standing: list[RecordedCount] = []
    for each in counts:
        if each.recount:
            standing = [old for old in standing if not same_pile(old.count, each.count)]
        standing.append(each)
    return standing
