from __future__ import annotations

import pytest

from inventory.core.items import Item
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.ready import Readiness, StepReady, steps_ready
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Workshop

PLAN = Plan(
    steps=(
        Step(code="3", title="Float keel"),
        Step(code="5", title="Float deck", after=("3",)),
        Step(code="9", title="Rudder"),
    ),
    needs=(
        Need(step="3", part="BOLT", quantity=12),
        Need(step="5", part="SKIN", quantity=1),
        Need(step="9", part="BOLT", quantity=8),
        Need(step="9", part="HINGE", quantity=2),
    ),
)


def ready_of(workshop: Workshop, plan: Plan = PLAN) -> dict[str, StepReady]:
    return {each.step.code: each for each in steps_ready(net(plan, workshop), workshop)}


def test_a_step_is_ready_when_all_before_it_is_done_and_nothing_is_short() -> None:
    ready = ready_of(Workshop(usable={Item("BOLT"): 20, Item("SKIN"): 1, Item("HINGE"): 2}))

    assert ready["3"].readiness is Readiness.READY
    assert (ready["5"].readiness, ready["5"].waits_for) == (Readiness.WAITS, ("3",))
    assert ready["9"].readiness is Readiness.READY


def test_a_step_may_be_covered_only_if_an_earlier_one_waits() -> None:
    ready = ready_of(Workshop(usable={Item("BOLT"): 15, Item("HINGE"): 2}))

    assert ready["3"].readiness is Readiness.READY
    assert ready["9"].readiness is Readiness.READY_ALONE
    assert [(need.need.part, need.short, need.short_alone) for need in ready["9"].short] == [
        ("BOLT", 5, 0)
    ]


def test_what_can_be_done_of_a_short_step_is_named() -> None:
    ready = ready_of(Workshop(usable={Item("HINGE"): 2}))

    assert ready["9"].readiness is Readiness.PARTIAL
    assert [need.need.part for need in ready["9"].fetchable] == ["HINGE"]
    assert ready["3"].readiness is Readiness.SHORT
    assert ready["3"].fetchable == ()


def test_steps_done_and_started_are_said() -> None:
    workshop = Workshop(usable={Item("SKIN"): 1}, done=frozenset({"3"}), started=frozenset({"5"}))
    ready = ready_of(workshop)

    assert ready["3"].readiness is Readiness.DONE
    assert (ready["5"].readiness, ready["5"].started) == (Readiness.READY, True)


def test_a_step_waits_for_the_one_that_makes_its_sub_assembly() -> None:
    plan = Plan(
        steps=(Step(code="a", makes="FRAME"), Step(code="b")),
        needs=(Need(step="b", part="FRAME", quantity=1),),
    )
    ready = ready_of(Workshop(), plan)

    assert ready["a"].readiness is Readiness.READY
    assert (ready["b"].readiness, ready["b"].waits_for) == (Readiness.WAITS, ("a",))
    assert ready["b"].fetchable == ()


def test_pieces_that_are_not_primed_are_named() -> None:
    plan = Plan(
        steps=(Step(code="a"),), needs=(Need(step="a", part="RIB", quantity=2, prepared="primed"),)
    )
    workshop = Workshop(usable={Item("RIB"): 2}, prepared={("primed", Item("RIB")): 1})
    ready = ready_of(workshop, plan)["a"]

    assert ready.readiness is Readiness.PREPARE
    assert [need.unprepared for need in ready.unprepared] == [1]


def test_an_unused_alternate_keeps_nothing_from_starting() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="NUT-A", quantity=2, one_of="nut"),
            Need(step="a", part="NUT-B", quantity=2, one_of="nut"),
        ),
    )

    assert ready_of(Workshop(usable={Item("NUT-B"): 2}), plan)["a"].readiness is Readiness.READY


@pytest.mark.parametrize(("there", "readiness"), [(0, Readiness.SHORT), (1, Readiness.READY)])
def test_an_as_required_part_must_be_there(there: int, readiness: Readiness) -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="GREASE", quantity=0, as_required=True, kind=NeedKind.CONSUMABLE),
        ),
    )
    workshop = Workshop(usable={Item("GREASE"): there} if there else {})

    assert ready_of(workshop, plan)["a"].readiness is readiness
