"""Deliveries: each change of what is known is a row of its own, the newest counts."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.measures.days import CountedDays
from inventory.core.receiving.delivery import (
    Delivery,
    DeliveryFacts,
    PackageException,
    PackageState,
)
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.slips import undone_slips
from inventory.store.receiving.packing_lists import saved_lists
from inventory.store.tables.deliveries import delivery as delivery_table
from inventory.store.tables.deliveries import delivery_exception as exception_table
from inventory.store.tables.deliveries import delivery_facts as facts_table
from inventory.store.tables.deliveries import delivery_list as list_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection, RowMapping

    from inventory.store.receiving.packing_lists import SavedList

_TEXTS = (
    *("supplier", "carrier", "carriage", "sale", "invoice", "bill_of_lading", "pro_number"),
    *("place", "country", "region", "seals"),
)


def add_delivery(db: Connection, kit: int, slip: int) -> int:
    """Begin a delivery; return its number."""
    number = next_id(db, delivery_table, kit)
    db.execute(insert(delivery_table).values(kit=kit, id=number, slip=slip))
    return number


def save_facts(db: Connection, kit: int, slip: int, delivery: int, facts: DeliveryFacts) -> None:
    """Record what is known of a delivery from now on."""
    delivered = facts.delivered_on.isoformat() if facts.delivered_on else ""
    dates = {event: day.isoformat() for event, day in facts.dates.items()}
    db.execute(
        insert(facts_table).values(
            kit=kit,
            id=next_id(db, facts_table, kit),
            slip=slip,
            delivery=delivery,
            order_number=facts.order,
            delivered_on=delivered,
            packages_advised=facts.packages_advised,
            packages_counted=facts.packages_counted,
            late=int(facts.late),
            window_days=facts.window_days,
            window_count=facts.window_count.value,
            dates=json.dumps(dates, sort_keys=True),
            **{name: getattr(facts, name) for name in _TEXTS},
        )
    )


def add_exception(
    db: Connection, kit: int, slip: int, delivery: int, exception: PackageException
) -> None:
    """Record what is wrong with a package."""
    db.execute(
        insert(exception_table).values(
            kit=kit,
            id=next_id(db, exception_table, kit),
            slip=slip,
            delivery=delivery,
            crate=exception.crate,
            kind=exception.state.value,
            words=exception.words,
            on_receipt=int(exception.on_receipt),
        )
    )


def tie_lists(db: Connection, kit: int, slip: int, delivery: int, lists: Sequence[int]) -> None:
    """Record which packing lists came with a delivery."""
    for packing_list in lists:
        number = next_id(db, list_table, kit)
        db.execute(
            insert(list_table).values(
                kit=kit, id=number, slip=slip, delivery=delivery, packing_list=packing_list
            )
        )


def all_deliveries(db: Connection, kit: int) -> list[Delivery]:
    """Return the deliveries that aren't undone, in the order of their numbers."""
    undone = undone_slips(db, kit)
    c = delivery_table.c
    rows = db.execute(select(c.id, c.slip).where(c.kit == kit).order_by(c.id))
    numbers = [number for number, slip in rows if slip not in undone]
    facts = _facts(db, kit, undone)
    exceptions = _exceptions(db, kit, undone)
    lists = _with_revised(_lists(db, kit, undone), saved_lists(db, kit))
    return [
        Delivery(
            number=number,
            facts=facts.get(number, DeliveryFacts()),
            exceptions=tuple(each for named, each in exceptions if named == number),
            lists=tuple(sorted(each for each, named in lists.items() if named == number)),
        )
        for number in numbers
    ]


def _facts(db: Connection, kit: int, undone: frozenset[int]) -> dict[int, DeliveryFacts]:
    c = facts_table.c
    rows = db.execute(select(facts_table).where(c.kit == kit).order_by(c.id)).mappings()
    return {row["delivery"]: _read(row) for row in rows if row["slip"] not in undone}


def _read(row: RowMapping) -> DeliveryFacts:
    dates = json.loads(row["dates"])
    return DeliveryFacts(
        order=row["order_number"],
        delivered_on=date.fromisoformat(row["delivered_on"]) if row["delivered_on"] else None,
        packages_advised=row["packages_advised"],
        packages_counted=row["packages_counted"],
        late=bool(row["late"]),
        window_days=row["window_days"],
        window_count=CountedDays(row["window_count"]),
        dates={event: date.fromisoformat(day) for event, day in dates.items()},
        **{name: row[name] for name in _TEXTS},
    )


def _exceptions(
    db: Connection, kit: int, undone: frozenset[int]
) -> list[tuple[int, PackageException]]:
    c = exception_table.c
    rows = db.execute(
        select(c.delivery, c.crate, c.kind, c.words, c.on_receipt, c.slip)
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [
        (
            row.delivery,
            PackageException(
                crate=row.crate,
                state=PackageState(row.kind),
                words=row.words,
                on_receipt=bool(row.on_receipt),
            ),
        )
        for row in rows
        if row.slip not in undone
    ]


def _lists(db: Connection, kit: int, undone: frozenset[int]) -> dict[int, int]:
    """Return the delivery of each packing list; the newest word counts."""
    c = list_table.c
    rows = db.execute(select(c.packing_list, c.delivery, c.slip).where(c.kit == kit).order_by(c.id))
    return {each: delivery for each, delivery, slip in rows if slip not in undone}


def _with_revised(lists: dict[int, int], saved: Sequence[SavedList]) -> dict[int, int]:
    """Let a list that replaces another one belong to the same delivery, unless it was said else."""
    for each in saved:
        if each.id not in lists and each.replaces in lists:
            lists[each.id] = lists[each.replaces]
    return lists
