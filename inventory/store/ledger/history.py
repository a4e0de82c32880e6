"""The ledger read backwards: which act moved what, from where to where."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import select

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.kept_pieces import MovedAtStep
from inventory.core.record.ledger import Movement
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.ledger import movement as movement_table

if TYPE_CHECKING:
    from collections.abc import Iterable

    from sqlalchemy import ColumnElement, Connection


@frozen
class RecordedMovement:
    """A movement with its number in the ledger and the act it belongs to."""

    number: int
    slip: int
    movement: Movement
    chain: bytes


def movements(
    db: Connection, kit: int, *, slip: int | None = None, part: str = "", span: range | None = None
) -> list[RecordedMovement]:
    """Return movements oldest first; where asked of one act, of one part, or of a span of acts."""
    m, i, p = movement_table.c, item_table.c, part_table.c
    origin, destination = place_table.alias("origin"), place_table.alias("destination")
    where: list[ColumnElement[bool]] = [m.kit == kit]
    if slip is not None:
        where.append(m.slip == slip)
    if part:
        where.append(p.key == part)
    if span is not None:
        where.append(m.slip.between(span.start, span.stop - 1))
    rows = db.execute(
        select(
            m.id, m.slip, m.quantity, m.chain, p.key, i.hand, i.lot, i.length, i.state,
            origin.c.kind, origin.c.code, destination.c.kind, destination.c.code,
        )
        .select_from(movement_table)
        .join(item_table, (i.kit == m.kit) & (i.id == m.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .join(origin, (origin.c.kit == m.kit) & (origin.c.id == m.origin))
        .join(destination, (destination.c.kit == m.kit) & (destination.c.id == m.destination))
        .where(*where)
        .order_by(m.id)
    )  # fmt: skip
    return [
        RecordedMovement(
            row[0],
            row[1],
            Movement(
                Item(row[4], Hand(row[5]), row[6], row[7], State(row[8])),
                row[2],
                Place(PlaceKind(row[9]), row[10]),
                Place(PlaceKind(row[11]), row[12]),
            ),
            bytes(row[3]),
        )
        for row in rows
    ]


def items_out_of(db: Connection, kit: int, place: Place) -> set[Item]:
    """Return the items that ever left a place: remnants left the saw, bars didn't."""
    m, i, p, w = movement_table.c, item_table.c, part_table.c, place_table.c
    rows = db.execute(
        select(p.key, i.hand, i.lot, i.length, i.state)
        .select_from(movement_table)
        .join(place_table, (w.kit == m.kit) & (w.id == m.origin))
        .join(item_table, (i.kit == m.kit) & (i.id == m.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(m.kit == kit, w.kind == place.kind.value, w.code == place.code)
        .distinct()
    )
    return {
        Item(key, Hand(hand), lot, length, State(state)) for key, hand, lot, length, state in rows
    }


def moved_at_steps(db: Connection, kit: int, parts: Iterable[str]) -> list[MovedAtStep]:
    """Return what moved into steps and out of them of these parts, oldest first."""
    return [
        MovedAtStep(each.slip, place.code, each.movement.item, pieces)
        for part in dict.fromkeys(parts)
        for each in movements(db, kit, part=part)
        for place, pieces in (
            (each.movement.destination, each.movement.quantity),
            (each.movement.origin, -each.movement.quantity),
        )
        if place.kind is PlaceKind.STEP
    ]
