"""A question about one part or one act finds its rows by an index, not through the whole kit."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.items import Item
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import Movement
from inventory.store.ledger.history import movements
from inventory.store.ledger.movements import append_movements
from inventory.store.ledger.slips import add_slip
from inventory.store.ledger.stock import lying
from tests.conftest import slip

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Connection

BIN = Place(PlaceKind.BIN, "A")
TRIPS = "ix_movement_kit_item_origin_destination_quantity"


def of_part(db: Connection, kit: int) -> object:
    return lying(db, kit, part="P-1")


def in_place(db: Connection, kit: int) -> object:
    return lying(db, kit, place=BIN)


def past_of_part(db: Connection, kit: int) -> object:
    return movements(db, kit, part="P-1")


def of_act(db: Connection, kit: int) -> object:
    return movements(db, kit, slip=1)


@pytest.mark.parametrize(
    ("asked", "found"),
    [
        (of_part, "balance USING INDEX ix_balance_kit_item (kit=? AND item=?)"),
        (of_part, "item USING INDEX sqlite_autoindex_item_2 (kit=? AND part=?)"),
        (in_place, "balance USING PRIMARY KEY (kit=? AND place=?)"),
        (past_of_part, f"movement USING INDEX {TRIPS} (kit=? AND item=?)"),
        (of_act, "movement USING INDEX ix_movement_kit_slip (kit=? AND slip=?)"),
    ],
)
def test_question_finds_its_rows_by_an_index(
    sqlite_bench: Bench, asked: Callable[[Connection, int], object], found: str
) -> None:
    store, kit = sqlite_bench.store, sqlite_bench.kit.id
    with store.writing(kit) as db:
        move = Movement(Item("P-1"), 3, Place(PlaceKind.OPENING), BIN)
        append_movements(db, kit, add_slip(db, kit, "put", slip("put-1")), [move])
    with store.reading() as db:
        driver: Any = db.connection.dbapi_connection
        said: list[str] = []
        driver.set_trace_callback(said.append)  # those handed to the driver itself are seen, too
        asked(db, kit)
        driver.set_trace_callback(None)
        plans = [
            row[3]
            for each in said
            if each.startswith("SELECT")
            for row in driver.execute(f"EXPLAIN QUERY PLAN {each}")
        ]
    assert any(found in plan for plan in plans), plans
