"""Numbers of parts, items and places: found, or added where they are new."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import bindparam, insert, select, tuple_, update

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Item, Measure, State
from inventory.core.natural_order import natural
from inventory.core.places import Place, PlaceKind
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.many_rows import insert_rows
from inventory.store.ledger.quick import Quick
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.packing import line as line_table

if TYPE_CHECKING:
    from collections.abc import Collection, Container, Iterable, Mapping, Sequence

    from sqlalchemy import Connection, ScalarSelect

_FEW = 200
"""Up to so many are asked for by name; beyond, the kit's whole table is read."""


_p, _i, _w = part_table.c, item_table.c, place_table.c
_PART = Quick(
    select(_p.key, _p.printed, _p.description, _p.measure).where(
        _p.kit == bindparam("kit"), _p.key == bindparam("key")
    )
)
_ITEMS = (
    select(_p.key, _i.hand, _i.lot, _i.length, _i.state, _i.id)
    .join(part_table, (_p.kit == _i.kit) & (_p.id == _i.part))
    .where(_i.kit == bindparam("kit"))
)
_ITEMS_OF = _ITEMS.where(_p.kit == bindparam("kit"), _p.key.in_(bindparam("parts", expanding=True)))
_PLACES = select(_w.kind, _w.code, _w.id).where(_w.kit == bindparam("kit"))
_PLACES_OF = _PLACES.where(tuple_(_w.kind, _w.code).in_(bindparam("places", expanding=True)))
_PLACE = select(_w.id).where(
    _w.kit == bindparam("kit"), _w.kind == bindparam("kind"), _w.code == bindparam("code")
)
"""Questions that every scan asks, put together once: that takes longer than asking them."""
_WORDS = {measure: measure.value for measure in Measure}
_NAME = ("kit", "id", "key", "printed", "description", "measure")


@frozen
class PartName:
    """A part number with the words that stand beside it."""

    key: str
    printed: str
    description: str = ""
    measure: Measure = Measure.PIECES


def number_of_part() -> ScalarSelect[int]:
    """Return the number of the part `:part` in the kit `:kit`, to stand in another question.

    A join instead may be begun at the items, which are many of one hand and length.
    """
    named = part_table.alias("named").c
    called = select(named.id).where(
        named.kit == bindparam("kit", type_=named.kit.type), named.key == bindparam("part")
    )
    return called.scalar_subquery()


def part_ids(db: Connection, kit: int, parts: Iterable[PartName]) -> dict[str, int]:
    """Return each part's number by its key; new ones are added."""
    wanted = {part.key: part for part in parts}
    c = part_table.c
    few = [c.key.in_(list(wanted))] if len(wanted) <= _FEW else []
    known = db.execute(select(c.key, c.id, c.description).where(c.kit == kit, *few)).all()
    found = {key: number for key, number, _ in known}
    _describe(db, kit, wanted, {key for key, _, description in known if not description})
    new = [part for key, part in wanted.items() if key not in found]
    if new:
        first = next_id(db, part_table, kit)
        rows = (
            (kit, first + place, part.key, part.printed, part.description, _WORDS[part.measure])
            for place, part in enumerate(new)
        )
        insert_rows(db, part_table, _NAME, rows)
        found |= {part.key: first + number for number, part in enumerate(new)}
    return found


def _describe(
    db: Connection, kit: int, parts: Mapping[str, PartName], without: Container[str]
) -> None:
    """Give parts that had no description the first one that comes along."""
    c = part_table.c
    new = [
        {"of_kit": kit, "of_key": part.key, "words": part.description}
        for part in parts.values()
        if part.description and part.key in without
    ]
    if new:
        one = (c.kit == bindparam("of_kit")) & (c.key == bindparam("of_key"))
        db.execute(update(part_table).where(one).values(description=bindparam("words")), new)


def find_part(db: Connection, kit: int, key: str) -> PartName | None:
    """Return the part with this key, or None where the kit knows no such number."""
    found = _PART.rows(db, {"kit": kit, "key": key})
    if not found:
        return None
    number, printed, description, measure = found[0]
    return PartName(number, printed, description, Measure(measure))


def all_parts(db: Connection, kit: int) -> dict[str, PartName]:
    """Return all parts of a kit by key."""
    c = part_table.c
    rows = db.execute(
        select(c.key, c.printed, c.description, c.measure).where(c.kit == kit).order_by(c.key)
    )
    return {
        key: PartName(key, printed, description, Measure(measure))
        for key, printed, description, measure in rows
    }


def measured_parts(db: Connection, kit: int) -> dict[str, Measure]:
    """Return by key how the parts are measured that aren't counted in pieces."""
    c = part_table.c
    rows = db.execute(
        select(c.key, c.measure).where(c.kit == kit, c.measure != Measure.PIECES.value)
    )
    return {key: Measure(measure) for key, measure in rows}


def known_hands(db: Connection, kit: int, key: str) -> set[Hand]:
    """Return the hands in which a part was ever listed, needed, counted or moved."""
    from inventory.store.tables.counting import count as count_table  # noqa: PLC0415 - rarely asked
    from inventory.store.tables.planning import need as need_table  # noqa: PLC0415

    p = part_table.c
    hands: set[str] = set()
    for table in (item_table, line_table, need_table, count_table):
        c = table.c
        hands |= set(
            db.execute(
                select(c.hand)
                .join(part_table, (p.kit == c.kit) & (p.id == c.part))
                .where(c.kit == kit, p.key == key)
                .distinct()
            ).scalars()
        )
    return {Hand(hand) for hand in hands}


def known_lengths(db: Connection, kit: int, key: str) -> set[int]:
    """Return the lengths in which stock of this number was ever listed, in nanometres."""
    c, p = line_table.c, part_table.c
    return set(
        db.execute(
            select(c.length)
            .join(part_table, (p.kit == c.kit) & (p.id == c.part))
            .where(c.kit == kit, p.key == key, c.length > 0)
            .distinct()
        ).scalars()
    )


def item_ids(db: Connection, kit: int, items: Iterable[Item]) -> dict[Item, int]:
    """Return each item's number; new ones are added, their parts too."""
    wanted = list(dict.fromkeys(items))
    found = _items(db, kit, {item.part for item in wanted})
    new = [item for item in wanted if item not in found]
    return found | _add_items(db, kit, new) if new else found


def _add_items(db: Connection, kit: int, new: Sequence[Item]) -> dict[Item, int]:
    parts = part_ids(db, kit, (PartName(item.part, item.part) for item in new))
    first = next_id(db, item_table, kit)
    rows = [
        {
            "kit": kit,
            "id": first + number,
            "part": parts[item.part],
            "hand": item.hand.value,
            "lot": item.lot,
            "length": item.length,
            "state": item.state.value,
        }
        for number, item in enumerate(new)
    ]
    db.execute(insert(item_table), rows)
    return {item: first + number for number, item in enumerate(new)}


def _items(db: Connection, kit: int, parts: Collection[str]) -> dict[Item, int]:
    few = len(parts) <= _FEW
    asked = {"kit": kit, "parts": list(parts)} if few else {"kit": kit}
    rows = db.execute(_ITEMS_OF if few else _ITEMS, asked)
    return {
        Item(key, Hand(hand), lot, length, State(state)): number
        for key, hand, lot, length, state, number in rows
    }


def place_ids(db: Connection, kit: int, places: Iterable[Place]) -> dict[Place, int]:
    """Return each place's number; new ones are added."""
    wanted = list(dict.fromkeys(places))
    few = len(wanted) <= _FEW
    asked: dict[str, object] = {"kit": kit}
    if few:
        asked["places"] = [(place.kind.value, place.code) for place in wanted]
    rows = db.execute(_PLACES_OF if few else _PLACES, asked)
    found = {Place(PlaceKind(kind), code): number for kind, code, number in rows}
    new = [place for place in wanted if place not in found]
    if new:
        first = next_id(db, place_table, kit)
        rows_new = [
            {"kit": kit, "id": first + number, "kind": place.kind.value, "code": place.code}
            for number, place in enumerate(new)
        ]
        db.execute(insert(place_table), rows_new)
        found |= {place: first + number for number, place in enumerate(new)}
    return found


def find_place(db: Connection, kit: int, place: Place) -> int | None:
    """Return the place's number, or None where the kit has no such place."""
    return db.execute(_PLACE, {"kit": kit, "kind": place.kind.value, "code": place.code}).scalar()


def places_of(db: Connection, kit: int, kind: PlaceKind) -> dict[Place, str]:
    """Return the places of a kind, B-2 before B-10, each with its shelf."""
    c = place_table.c
    rows = db.execute(select(c.code, c.shelf).where(c.kit == kit, c.kind == kind.value)).all()
    return {
        Place(kind, code): shelf for code, shelf in sorted(rows, key=lambda row: natural(row[0]))
    }


def set_shelf(db: Connection, kit: int, bins: Iterable[str], shelf: str) -> None:
    """Say on which shelf, wall or rack bins are."""
    c = place_table.c
    db.execute(
        update(place_table)
        .where(c.kit == kit, c.kind == PlaceKind.BIN.value, c.code.in_(list(bins)))
        .values(shelf=shelf)
    )
