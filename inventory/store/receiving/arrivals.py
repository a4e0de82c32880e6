"""What is expected, promised and came later."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from inventory.core.items import Hand
from inventory.core.receiving.arrivals import Arrival, Expected, Promise, Wanted
from inventory.core.receiving.findings import FindingKind
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.days import day_of, day_text
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.claiming import arrival as arrival_table
from inventory.store.tables.claiming import expected as expected_table
from inventory.store.tables.claiming import promise as promise_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.packing import line as line_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection


def add_expected(db: Connection, kit: int, slip: int, expected: Sequence[Expected]) -> None:
    """Record what the other side said it would send; each number is given here."""
    parts = part_ids(db, kit, [PartName(each.wanted.part, each.printed) for each in expected])
    for each in expected:
        add_row(
            db,
            expected_table,
            kit,
            slip,
            report=each.report,
            kind=each.kind.value,
            part=parts[each.wanted.part],
            printed=each.printed,
            hand=each.wanted.hand.value,
            length=each.wanted.length,
            pieces=each.pieces,
            packing_list=each.packing_list,
            sheet=each.sheet,
            row=each.row,
            crate=each.crate,
            bag=each.bag,
        )


def all_expected(db: Connection, kit: int) -> list[Expected]:
    """Return what was expected at any time and isn't undone, oldest first."""
    return [
        Expected(
            id=row["id"],
            report=row["report"],
            kind=FindingKind(row["kind"]),
            wanted=Wanted(row["part_key"], Hand(row["hand"]), row["length"]),
            printed=row["printed"],
            pieces=row["pieces"],
            packing_list=row["packing_list"],
            sheet=row["sheet"],
            row=row["row"],
            crate=row["crate"],
            bag=row["bag"],
        )
        for row in rows_that_count(db, expected_table, kit)
    ]


def add_promises(db: Connection, kit: int, slip: int, promises: Sequence[Promise]) -> None:
    """Record by when pieces are promised: all that holds for an item from now on."""
    parts = part_ids(db, kit, [PartName(each.wanted.part, each.wanted.part) for each in promises])
    for each in promises:
        add_row(
            db,
            promise_table,
            kit,
            slip,
            part=parts[each.wanted.part],
            hand=each.wanted.hand.value,
            length=each.wanted.length,
            pieces=each.pieces,
            promised=day_text(each.promised),
            latest=day_text(each.latest),
            words=each.words,
            report=each.report,
        )


def all_promises(db: Connection, kit: int) -> list[Promise]:
    """Return all promises that aren't undone, oldest first."""
    return [
        Promise(
            slip=row["slip"],
            wanted=Wanted(row["part_key"], Hand(row["hand"]), row["length"]),
            pieces=row["pieces"],
            promised=day_of(row["promised"]),
            latest=day_of(row["latest"]),
            words=row["words"],
            report=row["report"],
        )
        for row in rows_that_count(db, promise_table, kit)
    ]


def add_arrivals(db: Connection, kit: int, slip: int, arrivals: Sequence[Arrival]) -> None:
    """Record which open matters the pieces of later lines close."""
    for each in arrivals:
        add_row(
            db,
            arrival_table,
            kit,
            slip,
            line=each.line,
            closes=each.closes,
            expected=each.expected,
            pieces=each.pieces,
        )


def all_arrivals(db: Connection, kit: int) -> list[Arrival]:
    """Return all arrivals that aren't undone, oldest first."""
    c, n, p = arrival_table.c, line_table.c, part_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(
        select(c.slip, c.line, c.closes, c.expected, c.pieces, p.key, n.hand, n.length)
        .join(line_table, (n.kit == c.kit) & (n.id == c.line))
        .join(part_table, (p.kit == n.kit) & (p.id == n.part))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [
        Arrival(
            slip=slip,
            line=line,
            closes=closes,
            expected=expected,
            pieces=pieces,
            wanted=Wanted(key, Hand(hand), length),
        )
        for slip, line, closes, expected, pieces, key, hand, length in rows
        if slip not in undone
    ]
