"""Lists, plans, counts, events and tags come back from the store as they were put in."""

from __future__ import annotations

from dataclasses import asdict, replace
from datetime import date
from typing import TYPE_CHECKING

import pytest

from inventory.core.items import Hand, Item, Measure
from inventory.core.lists.packing import PackingList
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Plan
from inventory.core.scanning.codes import own_id
from inventory.jobs.acts import acting
from inventory.store.kits import all_kits
from inventory.store.ledger.events import add_crate_event, crate_states, step_states
from inventory.store.ledger.names import (
    PartName,
    all_parts,
    find_part,
    find_place,
    item_ids,
    known_hands,
    part_ids,
    place_ids,
    places_of,
    set_shelf,
)
from inventory.store.ledger.tags import all_tags, find_tag, tags_for
from inventory.store.planning.plans import (
    current_plan,
    current_plan_id,
    needs_of,
    save_plan,
    step_codes,
)
from inventory.store.receiving.counts import (
    RecordedCount,
    add_counts,
    all_counts,
    counts_that_stand,
)
from inventory.store.receiving.packing_lists import (
    current_lines,
    lines_of,
    rows_of,
    save_list,
    saved_lists,
)
from inventory.store.settings import STORE_ID, set_setting, setting
from tests.conftest import slip
from tests.store.filled import BIN, COUNT, PACKING_LIST, PLAN, RIB, STEP, fill

if TYPE_CHECKING:
    from inventory.jobs.acts import Bench
    from inventory.store.opening.database import Store


def test_a_packing_list_keeps_every_row_and_line(bench: Bench) -> None:
    fill(bench)
    kit = bench.kit.id
    with bench.store.reading() as db:
        assert tuple(lines_of(db, kit, 1)) == PACKING_LIST.lines
        assert tuple(rows_of(db, kit, 1)) == PACKING_LIST.rows
        saved = saved_lists(db, kit)
    assert [(each.id, each.replaces, each.order_number) for each in saved] == [
        (1, None, "4711"),
        (2, 1, "4711"),
    ]


def test_a_list_that_another_replaces_no_longer_counts(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        assert tuple(current_lines(db, bench.kit.id)) == PACKING_LIST.lines
    with acting(bench, "undo", slip("u"), undoes=2):
        pass
    with bench.store.reading() as db:
        assert [each.id for each in saved_lists(db, bench.kit.id)] == [1]
        assert tuple(current_lines(db, bench.kit.id)) == PACKING_LIST.lines


def test_an_empty_list_and_an_empty_plan_are_kept_too(bench: Bench) -> None:
    with acting(bench, "packing-list read", slip("e")) as act:
        number = save_list(act.db, 1, act.recorded.id, PackingList(source="x", sha256="0" * 64))
        assert (lines_of(act.db, 1, number), rows_of(act.db, 1, number)) == ([], [])
        assert current_plan(act.db, 1) == Plan()
        save_plan(act.db, 1, act.recorded.id, Plan(source="p", sha256="1" * 64))
        assert current_plan(act.db, 1) == Plan(source="p", sha256="1" * 64)
        add_counts(act.db, 1, act.recorded.id, [])
        assert all_counts(act.db, 1) == []


def test_a_plan_keeps_its_steps_and_needs(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        kept = current_plan(db, 1)
        assert asdict(kept) == {**asdict(PLAN), "problems": ()}
        assert [need.where for need in kept.needs] == [need.where for need in PLAN.needs]
        assert step_codes(db, 1) == ("10-01", "10-02")
        assert needs_of(db, 1, 1, "10-01") == ()
        assert needs_of(db, 1, 1, "10-02") == PLAN.needs


def test_the_newest_plan_that_is_not_undone_counts(bench: Bench) -> None:
    fill(bench)
    with acting(bench, "plan read", slip("p2")) as act:
        save_plan(act.db, 1, act.recorded.id, replace(PLAN, sha256="c" * 64))
        newest = act.recorded.id
    with bench.store.reading() as db:
        assert current_plan_id(db, 1) == 2
    with acting(bench, "undo", slip("u2"), undoes=newest):
        pass
    with bench.store.reading() as db:
        assert (current_plan_id(db, 1), current_plan(db, 1).sha256) == (1, "b" * 64)


def test_a_count_comes_back_whole_until_it_is_undone(bench: Bench) -> None:
    fill(bench)
    with bench.store.reading() as db:
        counted = replace(COUNT, on=date(2026, 11, 25))
        kept = [replace(each, weighing=None) for each in all_counts(db, 1)]
        assert kept == [RecordedCount(1, 4, counted, "T2-RU-0412", recount=False, note="nass")]
    with acting(bench, "undo", slip("u"), undoes=4):
        pass
    with bench.store.reading() as db:
        assert all_counts(db, 1) == []


def test_a_recount_takes_the_place_of_the_earlier_counts_of_its_pile() -> None:
    first = RecordedCount(1, 1, COUNT, "", recount=False)
    other = RecordedCount(2, 1, replace(COUNT, bag="H2"), "", recount=False)
    again = RecordedCount(3, 2, replace(COUNT, pieces_good=9), "", recount=True)
    assert counts_that_stand([first, other, again]) == [other, again]


def test_the_newest_event_that_is_not_undone_holds(bench: Bench) -> None:
    fill(bench)
    with acting(bench, "crate closed", slip("c")) as act:
        add_crate_event(act.db, 1, act.recorded.id, "1 OF 3", "closed")
        closing = act.recorded.id
    with bench.store.reading() as db:
        assert crate_states(db, 1) == {"1 OF 3": "closed"}
        assert step_states(db, 1) == {}  # its act was undone
    with acting(bench, "undo", slip("u"), undoes=closing):
        pass
    with bench.store.reading() as db:
        assert crate_states(db, 1) == {"1 OF 3": "opened"}


def test_a_label_keeps_its_number_for_ever(bench: Bench) -> None:
    fill(bench)
    with bench.store.writing(1) as db:
        given = tags_for(db, bench.kit, [BIN, RIB, STEP, BIN])
        assert tags_for(db, bench.kit, [STEP, BIN]) == {STEP: given[STEP], BIN: given[BIN]}
        assert [tag.code for tag in all_tags(db, 1)] == [given[BIN], given[STEP], given[RIB]]
        assert (find_tag(db, 1, given[STEP]), find_tag(db, 1, given[RIB])) == (STEP, RIB)
        assert find_tag(db, 1, own_id("T2", 9_000)) is None


@pytest.mark.parametrize("many", [3, 450])
def test_names_are_found_again_or_added(bench: Bench, many: int) -> None:
    parts = [PartName(f"P-{n}", f"p-{n}", "rib", Measure.LENGTH) for n in range(many)]
    items = [Item(f"P-{n}", Hand.LEFT, f"lot {n}") for n in range(many)]
    places = [Place(PlaceKind.BIN, f"B-{n}") for n in range(many)]
    with bench.store.writing(1) as db:
        numbers = part_ids(db, 1, parts)
        assert sorted(numbers.values()) == list(range(1, many + 1))
        assert part_ids(db, 1, [*parts, PartName("NEW", "new")]) == numbers | {"NEW": many + 1}
        assert item_ids(db, 1, items) == item_ids(db, 1, reversed(items))
        assert place_ids(db, 1, places) == place_ids(db, 1, places)
        assert find_part(db, 1, "P-2") == parts[2]
        assert (find_part(db, 1, "P-X"), len(all_parts(db, 1))) == (None, many + 1)
        assert find_place(db, 1, places[0]) is not None
        assert find_place(db, 1, Place(PlaceKind.CRATE, "B-0")) is None


def test_bins_know_their_shelf(bench: Bench) -> None:
    with bench.store.writing(1) as db:
        place_ids(db, 1, [BIN, Place(PlaceKind.BIN, "B-08"), Place(PlaceKind.CRATE, "1")])
        set_shelf(db, 1, ["B-07"], "north wall")
        assert places_of(db, 1, PlaceKind.BIN) == {
            BIN: "north wall",
            Place(PlaceKind.BIN, "B-08"): "",
        }


def test_hands_are_known_from_list_plan_count_and_movement(bench: Bench) -> None:
    fill(bench)
    with bench.store.writing(1) as db:
        assert known_hands(db, 1, RIB.part) == {Hand.LEFT}
        item_ids(db, 1, [Item(RIB.part, Hand.RIGHT)])
        assert known_hands(db, 1, RIB.part) == {Hand.LEFT, Hand.RIGHT}
        assert known_hands(db, 1, "P-X") == set()


def test_a_choice_is_kept_and_changed(store: Store) -> None:
    with store.writing() as db:
        assert setting(db, "colour", "none") == "none"
        set_setting(db, "colour", "red")
        set_setting(db, "colour", "blue")
        assert setting(db, "colour") == "blue"
        assert len(setting(db, STORE_ID)) == 8
        assert all_kits(db) == []
