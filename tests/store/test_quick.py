from __future__ import annotations

from typing import TYPE_CHECKING

import pytest
from sqlalchemy import bindparam, insert, select
from sqlalchemy.exc import IntegrityError

from inventory.core.places import Place, PlaceKind
from inventory.store.ledger.called import Called, called
from inventory.store.ledger.names import PartName, part_ids, place_ids
from inventory.store.ledger.quick import Quick
from inventory.store.tables.kits import setting

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench

ADD = Quick(insert(setting), setting.c.keys())
ASK = Quick(
    select(setting.c.value)
    .where(setting.c.name == bindparam("name"), setting.c.value != "b")
    .limit(1)
)


def test_row_added_quickly_is_found_quickly(bench: Bench) -> None:
    with bench.store.writing() as db:
        ADD.add(db, {"value": "a", "name": "colour"})
        ADD.add(db, {"name": "shape", "value": "b"})
    with bench.store.reading() as db:
        found = [ASK.rows(db, {"name": name}) for name in ("colour", "shape", "size")]
    assert [[tuple(row) for row in rows] for rows in found] == [[("a",)], [], []]


def add_twice(bench: Bench) -> None:
    with bench.store.writing() as db:
        ADD.add(db, {"name": "shape", "value": "a"})
        ADD.add(db, {"name": "shape", "value": "c"})


def test_a_refusal_of_the_driver_is_the_one_that_all_statements_raise(bench: Bench) -> None:
    with pytest.raises(IntegrityError):
        add_twice(bench)
    with bench.store.reading() as db:
        assert ASK.rows(db, {"name": "shape"}) == []


def test_value_that_is_forgotten_is_never_taken_for_nothing(sqlite_bench: Bench) -> None:
    with sqlite_bench.store.reading() as db, pytest.raises(KeyError, match="name"):
        ASK.rows(db, {})


def test_parts_and_bins_are_told_apart_by_kind_not_by_name(bench: Bench) -> None:
    with bench.store.writing(bench.kit.id) as db:
        part_ids(db, bench.kit.id, [PartName("A-1", "A-1"), PartName("B-2", "B-2")])
        place_ids(db, bench.kit.id, [Place(PlaceKind.BIN, "A-1"), Place(PlaceKind.STEP, "B-2")])
        both = called(db, bench.kit.id, "A-1", "B-2")
        one = called(db, bench.kit.id, "B-2")
        none = called(db, bench.kit.id + 1, "A-1", "B-2")
    assert both == Called(frozenset({"A-1", "B-2"}), frozenset({"A-1"}))
    assert one == Called(frozenset({"B-2"}), frozenset())
    assert none == Called()
