"""Numbers printed on labels of ours, and what each stands for."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.scanning.codes import next_number, own_id
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import item_ids, place_ids
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.kits import tag as tag_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection

    from inventory.store.kits import Kit

Subject = Place | Item
"""What a label of ours stands for; a step's label carries the step's place."""


@frozen
class Tag:
    """A number of ours, its check character included, and its subject."""

    code: str
    subject: Subject


def tags_for(db: Connection, kit: Kit, subjects: Sequence[Subject]) -> dict[Subject, str]:
    """Return the number of each subject; a subject without one is given the next."""
    known = {tag.subject: tag.code for tag in all_tags(db, kit.id)}
    new = [subject for subject in dict.fromkeys(subjects) if subject not in known]
    if new:
        known |= _give(db, kit, new)
    return {subject: known[subject] for subject in subjects}


def _give(db: Connection, kit: Kit, subjects: Sequence[Subject]) -> dict[Subject, str]:
    places = place_ids(db, kit.id, [s for s in subjects if isinstance(s, Place)])
    items = item_ids(db, kit.id, [s for s in subjects if isinstance(s, Item)])
    given: dict[Subject, str] = {}
    taken = next_id(db, tag_table, kit.id) - 1
    for subject in subjects:
        taken = next_number(kit.code, taken)
        place = places[subject] if isinstance(subject, Place) else None
        item = items[subject] if isinstance(subject, Item) else None
        row = {"place": place, "item": item, "subject": "item" if place is None else "place"}
        given[subject] = own_id(kit.code, taken)
        db.execute(insert(tag_table).values(kit=kit.id, id=taken, code=given[subject], **row))
    return given


def all_tags(db: Connection, kit: int) -> list[Tag]:
    """Return all numbers of a kit in the order they were given."""
    return _places(db, kit) + _items(db, kit)


def find_tag(db: Connection, kit: int, code: str) -> Subject | None:
    """Return what a number stands for, or None where the kit has no such number."""
    found = _places(db, kit, code) + _items(db, kit, code)
    return found[0].subject if found else None


def _places(db: Connection, kit: int, code: str = "") -> list[Tag]:
    t, w = tag_table.c, place_table.c
    only = [t.code == code] if code else []
    rows = db.execute(
        select(t.code, w.kind, w.code)
        .join(place_table, (w.kit == t.kit) & (w.id == t.place))
        .where(t.kit == kit, *only)
        .order_by(t.id)
    )
    return [Tag(text, Place(PlaceKind(kind), name)) for text, kind, name in rows]


def _items(db: Connection, kit: int, code: str = "") -> list[Tag]:
    t, i, p = tag_table.c, item_table.c, part_table.c
    only = [t.code == code] if code else []
    rows = db.execute(
        select(t.code, p.key, i.hand, i.lot, i.length, i.state)
        .join(item_table, (i.kit == t.kit) & (i.id == t.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(t.kit == kit, *only)
        .order_by(t.id)
    )
    return [
        Tag(text, Item(key, Hand(hand), lot, length, State(state)))
        for text, key, hand, lot, length, state in rows
    ]
