"""What lies where: read from the balances that the ledger keeps."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Any

from sqlalchemy import bindparam, select

from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.store.ledger.names import number_of_part
from inventory.store.ledger.quick import Quick
from inventory.store.tables.kits import item as item_table
from inventory.store.tables.kits import part as part_table
from inventory.store.tables.kits import place as place_table
from inventory.store.tables.ledger import balance as balance_table

if TYPE_CHECKING:
    from collections.abc import Collection, Sequence

    from sqlalchemy import Connection, Select


@dataclass(frozen=True, slots=True, order=True)
class Lying:
    """A quantity of one item in one place."""

    place: Place
    item: Item
    quantity: int


@cache
def _question(asked: frozenset[str]) -> Select[str, str, str, str, str, int, str, int]:
    """Return the question that narrows down by what is asked; each is put together once."""
    b, i, p, w = balance_table.c, item_table.c, part_table.c, place_table.c
    narrowed = {
        "kinds": w.kind.in_(bindparam("kinds", expanding=True)),
        "kind": w.kind == bindparam("kind"),
        "code": w.code == bindparam("code"),
        "part": i.part == number_of_part(),
    }
    return (
        select(w.kind, w.code, p.key, i.hand, i.lot, i.length, i.state, b.quantity)
        .select_from(balance_table)
        .join(place_table, (w.kit == b.kit) & (w.id == b.place))
        .join(item_table, (i.kit == b.kit) & (i.id == b.item))
        .join(part_table, (p.kit == i.kit) & (p.id == i.part))
        .where(b.kit == bindparam("kit"), b.quantity != 0)
        .where(*(narrowed[word] for word in sorted(asked & narrowed.keys())))
    )


def lying(
    db: Connection,
    kit: int,
    *,
    kinds: Collection[PlaceKind] = (),
    place: Place | None = None,
    part: str = "",
) -> list[Lying]:
    """Return what lies in the places asked for, by place and part; no zeros."""
    asked: dict[str, object] = {"kit": kit}
    if kinds:
        asked["kinds"] = [kind.value for kind in kinds]
    if place is not None:
        asked |= {"kind": place.kind.value, "code": place.code}
    if part:
        asked["part"] = part
    names = frozenset(asked)
    rows = db.execute(_question(names), asked) if kinds else _quick(names).rows(db, asked)
    return sorted(map(_lying, rows))


@cache
def _quick(asked: frozenset[str]) -> Quick:
    """Return the same question to be handed over; a list of kinds has no fixed length."""
    return Quick(_question(asked))


@cache
def _of_part_in_both() -> Quick:
    b, w = balance_table.c, place_table.c
    kit = bindparam("kit", type_=b.kit.type)
    places = [
        select(w.id)
        .where(w.kit == kit, w.kind == bindparam(f"{which}_kind"))
        .where(w.code == bindparam(f"{which}_code"))
        .scalar_subquery()
        for which in ("one", "other")
    ]
    return Quick(_question(frozenset({"part"})).where(b.place.in_(places)))


def lying_in_both(db: Connection, kit: int, part: str, one: Place, other: Place) -> list[Lying]:
    """Return what lies of a part in two places.

    It is asked by the numbers of both: nothing else in them and nothing elsewhere is read.
    """
    asked = {
        "kit": kit,
        "part": part,
        "one_kind": one.kind.value,
        "one_code": one.code,
        "other_kind": other.kind.value,
        "other_code": other.code,
    }
    return sorted(map(_lying, _of_part_in_both().rows(db, asked)))


def _lying(row: Sequence[Any]) -> Lying:
    kind, code, key, hand, lot, length, state, quantity = row
    item = Item(key, Hand(hand), lot, length, State(state))
    return Lying(Place(PlaceKind(kind), code), item, quantity)
