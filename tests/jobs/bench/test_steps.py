from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.jobs.bench import steps
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue
from inventory.jobs.bench.looking_up import pick, ready, short, step_needs, where
from inventory.jobs.bench.undoing import history, undo
from inventory.jobs.overview import overview
from inventory.jobs.receiving.counting import TypedCount, count_typed
from tests.jobs.shelf import bin_, step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]


def ribs(bench: Bench, slip: NewSlip) -> None:
    stocked(
        bench,
        slip,
        ("A", taking("RIB-1", 2, hand=Hand.LEFT)),
        ("B", taking("RIB-1", 2, hand=Hand.RIGHT)),
        ("C", taking("AN3-5A", 12)),
    )


def test_done_uses_all_that_wasnt_issued_and_makes_the_sub_assembly(
    bench: Bench, slip: NewSlip
) -> None:
    ribs(bench, slip)
    issue(bench, Issue(asked=Asked(part="RIB-1"), pieces=1, step="10-01", origin=bin_("A")), slip())
    use = steps.done(bench, "10-01", slip())
    assert sum(each.quantity for each in use.fetches) == 3
    assert there(bench, step("10-01")) == {
        Item("RIB-1", Hand.LEFT): 2,
        Item("RIB-1", Hand.RIGHT): 2,
    }
    assert there(bench, steps.BENCH) == {Item("FRAME"): 1}


def test_done_is_refused_while_something_is_missing(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("C", taking("AN3-5A", 4)))
    with pytest.raises(NotEnoughError, match="2 of AN3-5A without a hand lie in no bin"):
        steps.done(bench, "10-03", slip())
    assert there(bench, bin_("C")) == {Item("AN3-5A"): 4}
    steps.done(bench, "10-03", slip(), short=True)
    assert there(bench, step("10-03")) == {Item("AN3-5A"): 4}


def test_step_waits_for_those_before_it(bench: Bench, slip: NewSlip) -> None:
    with pytest.raises(InventoryError, match="step 10-02 comes after 10-01, not done yet"):
        steps.start(bench, "10-02", slip())
    steps.start(bench, "10-02", slip(), anyway=True)
    with pytest.raises(InventoryError, match="comes after 10-01"):
        steps.done(bench, "10-02", slip(), short=True)


def test_built_before_uses_nothing_up_and_frees_the_next(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    assert steps.built_before(bench, ["10-01"], slip()) == ["10-01"]
    assert there(bench, bin_("A")) == {Item("RIB-1", Hand.LEFT): 2}
    assert next((each.step.code, each.readiness) for each in ready(bench)) == ("10-01", "done")
    with pytest.raises(InventoryError, match="done already"):
        steps.built_before(bench, ["10-01"], slip())


def test_done_step_is_not_started_nor_done_again(bench: Bench, slip: NewSlip) -> None:
    steps.built_before(bench, ["10-03"], slip())
    with pytest.raises(InventoryError, match="done already"):
        steps.start(bench, "10-03", slip())
    with pytest.raises(InventoryError, match="done already"):
        steps.done(bench, "10-03", slip())
    with pytest.raises(InventoryError, match="done already"):
        issue(bench, Issue(asked=Asked(part="AN3-5A"), pieces=1, step="10-03"), slip())


def test_reopened_step_asks_again(bench: Bench, slip: NewSlip) -> None:
    steps.built_before(bench, ["10-03"], slip())
    steps.reopen(bench, "10-03", slip())
    assert [net.need.step for net in short(bench, "10-03").short] == ["10-03"]
    with pytest.raises(InventoryError, match="isn't done"):
        steps.reopen(bench, "10-03", slip())


def test_unknown_step_is_refused(bench: Bench) -> None:
    with pytest.raises(NotFoundError, match="no step '77'"):
        steps.use_of(bench, "77")


def test_earlier_step_takes_first(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    lacking = short(bench)
    bolts = [net for net in lacking.short if net.need.part == "AN3-5A"]
    assert [(net.need.step, net.short) for net in bolts] == [("10-03", 2)]
    assert lacking.taken_by(bolts[0]) == [("10-02", 8)]
    assert lacking.stops_of(bolts[0]) == ["10-03"]


def test_pick_goes_bin_by_bin(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    picking = pick(bench, "10-01")
    assert [(f.place.code, f.item.hand, f.quantity) for f in picking.fetches] == [
        ("A", Hand.LEFT, 2),
        ("B", Hand.RIGHT, 2),
    ]
    assert picking.missing == ()


def test_where_tells_bins_steps_and_plans(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    seen = where(bench, "rib-1")
    assert [(lies.place.code, lies.quantity) for lies in seen.lying] == [("A", 2), ("B", 2)]
    assert [(each.need.step, each.need.hand, each.pieces) for each in seen.steps] == [
        ("10-01", Hand.LEFT, 2),
        ("10-01", Hand.RIGHT, 2),
    ]
    assert (seen.steps[0].need.sheet, seen.steps[0].need.find_number) == ("S1", "3")
    assert len(seen.lines) == 2


def test_step_shows_its_needs(bench: Bench) -> None:
    found, needs = step_needs(bench, "10-02")
    assert found.title == "Bolt the spar"
    assert [net.need.part for net in needs] == ["SPAR", "AN3-5A", "FRAME"]


def test_undo_is_a_reversal_and_undo_of_undo_does_it_again(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    steps.done(bench, "10-01", slip())
    undone = undo(bench, slip())
    assert undone.recorded.act == "step done"
    assert there(bench, step("10-01")) == {}
    assert there(bench, steps.BENCH) == {}
    undo_act = history(bench)[0].recorded
    undo(bench, slip(), undo_act.id)
    assert there(bench, steps.BENCH) == {Item("FRAME"): 1}
    assert next(each.readiness for each in ready(bench)) == "done"


def test_act_is_undone_once(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    steps.done(bench, "10-01", slip())
    number = history(bench)[0].recorded.id
    undo(bench, slip(), number)
    with pytest.raises(InventoryError, match=f"act {number} is undone already"):
        undo(bench, slip(), number)
    assert [entry.undone for entry in history(bench)][:2] == [False, True]


def test_what_moved_on_cant_be_undone(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    putting = next(e.recorded.id for e in history(bench) if e.recorded.act == "bin put")
    issue(bench, Issue(asked=Asked(part="AN3-5A"), pieces=6, step="10-03"), slip())
    with pytest.raises(NotEnoughError, match="AN3-5A has moved on from bin C since"):
        undo(bench, slip(), putting)


def test_unknown_act_is_refused(bench: Bench, slip: NewSlip) -> None:
    with pytest.raises(NotFoundError, match="there is no act 99"):
        undo(bench, slip(), 99)


def test_undone_plan_gives_way_to_the_one_before(bench: Bench, slip: NewSlip) -> None:
    undo(bench, slip())
    assert ready(bench) == ()


def test_history_of_a_part_and_of_a_step(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    issue(bench, Issue(asked=Asked(part="AN3-5A"), pieces=6, step="10-03"), slip())
    assert [e.recorded.act for e in history(bench, part="an3-5a")] == ["issue", "bin put"]
    assert [e.recorded.act for e in history(bench, step="10-03")] == ["issue"]


def test_overview_counts(bench: Bench, slip: NewSlip) -> None:
    steps.built_before(bench, ["10-03"], slip())
    seen = overview(bench)
    assert (seen.lists, seen.lines, seen.crates, seen.steps, seen.steps_done) == (1, 5, 2, 3, 1)


def test_step_is_started_once(bench: Bench, slip: NewSlip) -> None:
    steps.start(bench, "10-01", slip())
    with pytest.raises(InventoryError, match="step 10-01 is started already"):
        steps.start(bench, "10-01", slip())
    steps.built_before(bench, ["10-01"], slip())
    steps.reopen(bench, "10-01", slip())
    assert steps.start(bench, "10-01", slip()).code == "10-01"


def test_bins_stay_and_a_counted_list_isnt_taken_back(bench: Bench, slip: NewSlip) -> None:
    ribs(bench, slip)
    acts = {entry.recorded.act: entry.recorded.id for entry in history(bench)}
    with pytest.raises(InventoryError, match="added bins, and bins stay"):
        undo(bench, slip(), acts["bin add"])
    typed = TypedCount(crate="1", asked=Asked(part="SPAR"), pieces="1")
    count_typed(bench, typed, slip())
    with pytest.raises(InventoryError, match="pieces were counted since"):
        undo(bench, slip(), acts["packing-list read"])
