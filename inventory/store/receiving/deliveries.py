"""Deliveries: each change of what is known is a row of its own, the newest counts."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.measures.days import CountedDays
from inventory.core.receiving.delivery import (
    Delivery,
    DeliveryFacts,
    PackageException,
    PackageState,
)
from inventory.store.ledger.by_slip import add_row, rows_that_count
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
    return add_row(
        db,
        delivery_table,
        kit,
        slip,
    )


def save_facts(db: Connection, kit: int, slip: int, delivery: int, facts: DeliveryFacts) -> None:
    """Record what is known of a delivery from now on."""
    delivered = facts.delivered_on.isoformat() if facts.delivered_on else ""
    dates = {event: day.isoformat() for event, day in facts.dates.items()}
    add_row(
        db,
        facts_table,
        kit,
        slip,
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


def add_exception(
    db: Connection, kit: int, slip: int, delivery: int, exception: PackageException
) -> None:
    """Record what is wrong with a package."""
    add_row(
        db,
        exception_table,
        kit,
        slip,
        delivery=delivery,
        crate=exception.crate,
        kind=exception.state.value,
        words=exception.words,
        on_receipt=int(exception.on_receipt),
    )


def tie_lists(db: Connection, kit: int, slip: int, delivery: int, lists: Sequence[int]) -> None:
    """Record which packing lists came with a delivery."""
    for packing_list in lists:
        add_row(db, list_table, kit, slip, delivery=delivery, packing_list=packing_list)


def all_deliveries(db: Connection, kit: int) -> list[Delivery]:
    """Return the deliveries that aren't undone, in the order of their numbers."""
    numbers = [row["id"] for row in rows_that_count(db, delivery_table, kit)]
    if not numbers:
        return []
    facts = {row["delivery"]: _read(row) for row in rows_that_count(db, facts_table, kit)}
    exceptions = rows_that_count(db, exception_table, kit)
    lists = _with_revised(_lists(db, kit), saved_lists(db, kit))
    return [
        Delivery(
            number=number,
            facts=facts.get(number, DeliveryFacts()),
            exceptions=tuple(_exception(each) for each in exceptions if each["delivery"] == number),
            lists=tuple(sorted(each for each, named in lists.items() if named == number)),
        )
        for number in numbers
    ]


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


def _exception(row: RowMapping) -> PackageException:
    return PackageException(
        crate=row["crate"],
        state=PackageState(row["kind"]),
        words=row["words"],
        on_receipt=bool(row["on_receipt"]),
    )


def _lists(db: Connection, kit: int) -> dict[int, int]:
    """Return the delivery of each packing list; the newest word counts."""
    rows = rows_that_count(db, list_table, kit)
    return {row["packing_list"]: row["delivery"] for row in rows}


def _with_revised(lists: dict[int, int], saved: Sequence[SavedList]) -> dict[int, int]:
    """Let a list that replaces another one belong to the same delivery, unless it was said else."""
    for each in saved:
        if each.id not in lists and each.replaces in lists:
            lists[each.id] = lists[each.replaces]
    return lists
