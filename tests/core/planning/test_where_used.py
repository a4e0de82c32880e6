from __future__ import annotations

from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.where_used import on_plan_page, where_used

PLAN = Plan(
    steps=(
        Step(code="a", makes="RIB"),
        Step(code="b", makes="FRAME", after=("a",)),
        Step(code="c", after=("b",)),
        Step(code="d"),
    ),
    needs=(
        Need(step="a", part="RIVET", quantity=5, sheet="RU-1", find_number="20"),
        Need(step="b", part="RIB", quantity=2, sheet="RU-2", find_number="1"),
        Need(step="b", part="RIVET", quantity=7, sheet="RU-2", find_number="20"),
        Need(step="c", part="FRAME", quantity=3, sheet="RU-3", find_number="1"),
        Need(step="d", part="RIVET", quantity=1, sheet="ru - 1", find_number="21"),
    ),
)


def test_every_way_up_is_told_with_its_quantity() -> None:
    uses = where_used(PLAN, "RIVET")

    assert [(use.steps, use.quantity) for use in uses] == [
        (("a",), 5),
        (("a", "b"), 10),
        (("a", "b", "c"), 30),
        (("b",), 7),
        (("b", "c"), 21),
        (("d",), 1),
    ]
    assert [use.need.find_number for use in uses][:1] == ["20"]


def test_a_part_that_nothing_needs_is_used_nowhere() -> None:
    assert where_used(PLAN, "SPAR") == ()


def test_a_need_of_a_step_that_is_not_there_leads_no_further() -> None:
    plan = Plan(steps=(), needs=(Need(step="z", part="X", quantity=2),))

    assert [(use.steps, use.quantity) for use in where_used(plan, "X")] == [(("z",), 2)]


def test_a_step_that_takes_what_it_makes_ends_the_way() -> None:
    plan = Plan(steps=(Step(code="a", makes="X"),), needs=(Need(step="a", part="X", quantity=1),))

    assert [use.steps for use in where_used(plan, "X")] == [("a",)]


def test_a_page_of_the_plans_leads_to_its_parts() -> None:
    assert [need.step for need in on_plan_page(PLAN, "RU-1")] == ["a", "d"]
    assert [need.step for need in on_plan_page(PLAN, "ru-1", "21")] == ["d"]
