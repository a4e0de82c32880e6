"""The ledger's rows: appended in a chain, never changed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import bindparam, func, insert, select

from inventory.core.record.chain import START, link
from inventory.store.ledger.names import item_ids, number_of_part, place_ids
from inventory.store.ledger.quick import Quick
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.ledger import movement as movement_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection, ScalarSelect

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.core.record.ledger import Movement
    from inventory.store.ledger.slips import RecordedSlip


_i, _p, _w, _m = item_table.c, part_table.c, place_table.c, movement_table.c
_KIT = bindparam("kit", type_=_p.kit.type)


def _place_called(word: str) -> ScalarSelect[int]:
    return (
        select(_w.id)
        .where(_w.kit == _KIT)
        .where(_w.kind == bindparam(f"{word}_kind"), _w.code == bindparam(f"{word}_code"))
        .scalar_subquery()
    )


_KNOWN = Quick(
    select(
        select(_i.id)
        .where(_i.kit == _KIT, _i.part == number_of_part())
        .where(_i.hand == bindparam("hand"), _i.lot == bindparam("lot"))
        .where(_i.length == bindparam("length"), _i.state == bindparam("state"))
        .scalar_subquery(),
        _place_called("from"),
        _place_called("to"),
        select(func.max(_m.id)).where(_m.kit == _KIT).scalar_subquery(),
        select(_m.chain).where(_m.kit == _KIT).order_by(_m.id.desc()).limit(1).scalar_subquery(),
    )
)
_ROW = ("kit", "id", "slip", "item", "quantity", "origin", "destination", "chain")
_APPEND = Quick(insert(movement_table), _ROW)
_LAST = select(_m.id, _m.chain).where(_m.kit == bindparam("kit")).order_by(_m.id.desc()).limit(1)


def append_movements(
    db: Connection, kit: int, recorded: RecordedSlip, movements: Sequence[Movement]
) -> None:
    """Append the movements of one act; the database refuses what would go below zero."""
    if not movements:
        return
    items, places, (number, chain) = _numbers(db, kit, movements)
    rows = []
    for movement in movements:
        number += 1
        chain = link(chain, number, recorded.act, recorded.slip, movement)
        rows.append(
            {
                "kit": kit,
                "id": number,
                "slip": recorded.id,
                "item": items[movement.item],
                "quantity": movement.quantity,
                "origin": places[movement.origin],
                "destination": places[movement.destination],
                "chain": chain,
            }
        )
    if len(rows) == 1:
        _APPEND.add(db, rows[0])
    else:
        db.execute(_APPEND.statement, rows)


def _numbers(
    db: Connection, kit: int, movements: Sequence[Movement]
) -> tuple[dict[Item, int], dict[Place, int], tuple[int, bytes]]:
    """Return the numbers of all items and places, new ones are added; and the last link."""
    if len(movements) == 1:  # nearly every scan: all in one question
        move = movements[0]
        (known,) = _KNOWN.rows(db, {"kit": kit, **_named(move)})
        item, origin, destination, number, chain = known
        if None not in (item, origin, destination, number):
            places = {move.origin: origin, move.destination: destination}
            return {move.item: item}, places, (number, bytes(chain))
    items = item_ids(db, kit, (movement.item for movement in movements))
    places = place_ids(db, kit, (place for m in movements for place in (m.origin, m.destination)))
    return items, places, last_link(db, kit)


def _named(move: Movement) -> dict[str, object]:
    item = move.item
    return {
        "part": item.part,
        "hand": item.hand.value,
        "lot": item.lot,
        "length": item.length,
        "state": item.state.value,
        "from_kind": move.origin.kind.value,
        "from_code": move.origin.code,
        "to_kind": move.destination.kind.value,
        "to_code": move.destination.code,
    }


def last_link(db: Connection, kit: int) -> tuple[int, bytes]:
    """Return the number and the seal of the kit's newest movement."""
    row = db.execute(_LAST, {"kit": kit}).one_or_none()
    return (0, START) if row is None else (row.id, bytes(row.chain))
