"""What the database leaves out of the netting is short nowhere: the pure netting is the measure."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import text

from inventory.core.items import Hand, Item, State
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Due, SetAside, StandIn, Workshop
from inventory.store.ledger.slips import add_slip
from inventory.store.planning.plans import current_plan, save_plan
from inventory.store.planning.scarce import moment, plan_bearing_on, plan_of_scarce
from inventory.store.planning.short_parts import ShortPart, by_part, short_of_step, short_parts
from tests.conftest import slip

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.planning.shortage import NetNeed, Netting
    from inventory.jobs.acts import Bench

PARTS = "PQRS"
STEPS = ("1", "2", "3", "4")
LENGTHS = (100, 200, 450)


@dataclass(frozen=True)
class Case:
    plan: Plan
    workshop: Workshop


@st.composite
def needs(draw: st.DrawFn) -> Need:
    kind = draw(st.sampled_from([*NeedKind, NeedKind.PART, NeedKind.PART]))
    as_required = kind is not NeedKind.CUT and draw(st.integers(0, 6)) == 0
    return Need(
        step=draw(codes),
        part=draw(st.sampled_from(PARTS)),
        hand=draw(st.sampled_from(Hand)),
        quantity=0 if as_required else draw(st.integers(1, 4)),
        spare=draw(st.sampled_from([0, 0, 1])),
        kind=kind,
        length=draw(st.sampled_from(LENGTHS[:2])) if kind is NeedKind.CUT else 0,
        one_of=draw(st.sampled_from(["", "", "", "g"])),
        prepared=draw(st.sampled_from(["", "", "", "primed"])),
        as_required=as_required,
    )


items = st.builds(
    Item,
    st.sampled_from(PARTS),
    st.sampled_from(Hand),
    st.sampled_from(["", "lot 1"]),
    st.sampled_from([0, 0, *LENGTHS]),
    st.sampled_from([State.NEW, State.NEW, State.WORKED]),
)
codes = st.sampled_from(STEPS)
decisions = st.builds(StandIn, st.sampled_from(PARTS), st.sampled_from(PARTS))
dues = st.builds(
    Due,
    part=st.sampled_from(PARTS),
    hand=st.sampled_from(Hand),
    quantity=st.integers(1, 4),
    source=st.just("x"),
)
primed = st.tuples(st.just("primed"), items)
stocks = st.dictionaries(items, st.integers(1, 9), max_size=8)


@st.composite
def cases(draw: st.DrawFn) -> Case:
    makes = draw(st.sampled_from(["", "", "Q"]))
    steps = tuple(
        Step(
            code=code,
            after=draw(st.sampled_from([(), STEPS[:number][-1:]])),
            makes=makes if code == "1" else "",
        )
        for number, code in enumerate(STEPS)
    )
    stand_ins = draw(st.lists(decisions, max_size=2))
    usable = draw(stocks)
    kept = [item for item in usable if item.state is State.NEW]
    return Case(
        Plan(steps=steps, needs=tuple(draw(st.lists(needs(), max_size=9)))),
        Workshop(
            usable=usable,
            issued=draw(st.dictionaries(st.tuples(codes, items), st.integers(1, 4), max_size=3)),
            done=draw(st.frozensets(codes, max_size=2)),
            due=tuple(draw(st.lists(dues, max_size=2))),
            set_aside=tuple(SetAside("3", item, 2) for item in kept[: draw(st.integers(0, 1))]),
            stand_ins=tuple(each for each in stand_ins if each.part != each.instead),
            prepared=draw(st.dictionaries(primed, st.integers(1, 3), max_size=2)),
        ),
    )


def lacking(netting: Netting) -> list[object]:
    return [
        need
        for need in netting.needs
        if need.stops or need.stops_alone or need.unprepared or need.spare_short
    ]


@dataclass(frozen=True)
class Netted:
    """What the pure netting of the whole plan says, and what the database does."""

    whole: Netting
    scarce: Netting
    bearing: dict[str, Netting]
    short: list[ShortPart]
    short_of: dict[str, list[ShortPart]]


def netted(bench: Bench, case: Case) -> Netted:
    """Save a plan for a moment and ask the database everything."""
    kit = bench.kit.id
    with bench.store.writing(kit) as db:
        begun = db.begin_nested()
        save_plan(db, kit, add_slip(db, kit, "plan read", slip("p")).id, case.plan)
        at = moment(db, kit, case.workshop)
        assert at is not None
        open_steps = [step.code for step in at.plan.steps if step.code not in case.workshop.done]
        found = Netted(
            whole=net(current_plan(db, kit), case.workshop),
            scarce=net(plan_of_scarce(db, kit, case.workshop), case.workshop),
            bearing={
                step: net(plan_bearing_on(db, kit, case.workshop, step), case.workshop)
                for step in open_steps
            },
            short=short_parts(db, at),
            short_of={step: short_of_step(db, at, step) for step in open_steps},
        )
        begun.rollback()
    return found


def sums(needs: Iterable[NetNeed]) -> list[ShortPart]:
    return sorted(by_part(needs), key=lambda one: (one.part, one.hand, one.length))


@settings(max_examples=80, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(cases())
def test_the_database_and_the_pure_netting_say_the_same(sqlite_bench: Bench, case: Case) -> None:
    found = netted(sqlite_bench, case)
    assert lacking(found.scarce) == lacking(found.whole)
    assert found.short == sums(found.whole.needs)
    for step, bearing in found.bearing.items():
        assert bearing.of_step(step) == found.whole.of_step(step)
        assert found.short_of[step] == sums(found.whole.of_step(step))


def plenty(done: str = "") -> Case:
    plan = Plan(
        steps=(Step(code="1"), Step(code="2")),
        needs=(
            Need(step="1", part="P", quantity=3),
            Need(step="2", part="P", quantity=3),
            Need(step="1", part="Q", quantity=3, spare=1),
            Need(step="1", part="R", quantity=2, hand=Hand.LEFT),
            Need(step="1", part="T", quantity=2, kind=NeedKind.TOOL),
            Need(step="2", part="T", quantity=2, kind=NeedKind.TOOL),
            Need(step="2", part="A", quantity=0, as_required=True),
        ),
    )
    usable = {
        Item("P"): 5,
        Item("Q"): 3,
        Item("R", Hand.LEFT): 2,
        Item("T"): 2,
        Item("A", lot="7"): 1,
    }
    return Case(plan, Workshop(usable=usable, done=frozenset(done)))


def test_lines_of_parts_with_plenty_are_not_read_but_those_tied_to_others_are(
    bench: Bench,
) -> None:
    found = netted(bench, plenty())
    assert [need.need.part for need in found.scarce.needs] == ["P", "Q", "T", "P", "T", "A"]
    assert found.short == [ShortPart("P", Hand.NONE, 0, 1, "2")]
    assert found.short_of == {"1": [], "2": [ShortPart("P", Hand.NONE, 0, 1, "2")]}
    assert lacking(found.scarce) == lacking(found.whole)
    done = netted(bench, plenty(done="2"))
    assert [need.need.part for need in done.scarce.needs] == ["Q", "T"]
    assert done.short == []


def test_needs_saved_before_ranks_were_are_netted_one_by_one(sqlite_bench: Bench) -> None:
    kit = sqlite_bench.kit.id
    case = plenty()
    with sqlite_bench.store.writing(kit) as db:
        save_plan(db, kit, add_slip(db, kit, "plan read", slip("p")).id, case.plan)
        db.execute(text("DROP TRIGGER need_no_update"))
        db.execute(text("UPDATE need SET rank = 0, tied = 0"))
        at = moment(db, kit, case.workshop)
        assert at is not None
        assert short_parts(db, at) == [ShortPart("P", Hand.NONE, 0, 1, "2")]
        assert short_of_step(db, at, "2") == [ShortPart("P", Hand.NONE, 0, 1, "2")]


def test_without_a_plan_there_is_nothing_to_net(bench: Bench) -> None:
    with bench.store.reading() as db:
        assert moment(db, bench.kit.id, Workshop()) is None
        assert plan_of_scarce(db, bench.kit.id, Workshop()) == Plan()
        assert plan_bearing_on(db, bench.kit.id, Workshop(), "1") == Plan()
