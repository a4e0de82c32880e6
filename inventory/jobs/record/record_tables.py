"""The record as a few tables that people read: stock, movements, lines, needs."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import all_slips, undone_slips
from inventory.store.ledger.stock import lying
from inventory.store.planning.plans import current_plan
from inventory.store.receiving.packing_lists import current_lines

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date

    from inventory.core.items import Item
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

ITEM = ("part", "hand", "length (nm)", "lot", "state")


@frozen
class RecordTable:
    """One table of one kit."""

    kit: str
    name: str
    headings: tuple[str, ...]
    rows: tuple[tuple[str | int | date | None, ...], ...]


def record_tables(db: Connection, kit: Kit) -> Iterator[RecordTable]:
    """Return the tables of a kit."""
    yield _stock(db, kit)
    yield _movements(db, kit)
    yield _lines(db, kit)
    yield _needs(db, kit)


def _item(item: Item) -> tuple[str | int, ...]:
    return item.part, item.hand.value, item.length, item.lot, item.state.value


def _stock(db: Connection, kit: Kit) -> RecordTable:
    rows = [
        (lies.place.kind.value, lies.place.code, *_item(lies.item), lies.quantity)
        for lies in lying(db, kit.id)
    ]
    return RecordTable(kit.code, "stock", ("kind", "place", *ITEM, "quantity"), tuple(rows))


def _movements(db: Connection, kit: Kit) -> RecordTable:
    slips = {each.id: each for each in all_slips(db, kit.id)}
    undone = undone_slips(db, kit.id)
    rows = [
        (
            each.number,
            each.slip,
            slips[each.slip].act + (" (undone)" if each.slip in undone else ""),
            slips[each.slip].slip.happened_on,
            slips[each.slip].slip.person,
            *_item(each.movement.item),
            each.movement.quantity,
            str(each.movement.origin),
            str(each.movement.destination),
            slips[each.slip].slip.note,
            each.chain.hex(),
        )
        for each in movements(db, kit.id)
    ]
    head = (
        "movement",
        "act",
        "what",
        "day",
        "who",
        *ITEM,
        "quantity",
        "from",
        "to",
        "note",
        "seal",
    )
    return RecordTable(kit.code, "movements", head, tuple(rows))


def _lines(db: Connection, kit: Kit) -> RecordTable:
    rows = [
        (
            *(line.sheet, line.row, line.printed, line.description, line.hand.value),
            *(line.ordered, line.shipped, line.back_ordered, line.measure.value, line.unit),
            *(line.length, line.crate, line.bag, line.sub_kit, line.revision, line.remark),
        )
        for line in current_lines(db, kit.id)
    ]
    head = (
        *("sheet", "row", "part", "description", "hand", "ordered", "shipped", "back-ordered"),
        *("measure", "unit", "length (nm)", "crate", "bag", "sub-kit", "revision", "remark"),
    )
    return RecordTable(kit.code, "packing-list", head, tuple(rows))


def _needs(db: Connection, kit: Kit) -> RecordTable:
    rows = [
        (
            *(need.step, need.printed or need.part, need.description, need.hand.value),
            *(need.quantity, need.measure.value, need.length, need.sheet, need.find_number),
        )
        for need in current_plan(db, kit.id).needs
    ]
    head = (
        *("step", "part", "description", "hand", "quantity", "measure", "length (nm)"),
        *("sheet", "find number"),
    )
    return RecordTable(kit.code, "needs", head, tuple(rows))
