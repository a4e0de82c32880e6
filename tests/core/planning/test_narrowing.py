from __future__ import annotations

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Item
from inventory.core.planning.narrowing import PlanIndex
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Due, StandIn, Workshop

parts = st.sampled_from("PQRS")
rows = st.lists(
    st.tuples(st.integers(0, 3), parts, st.integers(1, 4), st.sampled_from(["", "", "g"])),
    max_size=10,
)
stocks = st.dictionaries(st.builds(Item, parts), st.integers(1, 5), max_size=4)
stand_ins = st.lists(st.builds(StandIn, parts, parts), max_size=2).map(
    lambda every: tuple(each for each in every if each.part != each.instead)
)


def plan_from(wanted: list[tuple[int, str, int, str]]) -> Plan:
    return Plan(
        steps=tuple(Step(code=str(number)) for number in range(4)),
        needs=tuple(
            Need(step=str(step), part=part, quantity=quantity, one_of=one_of)
            for step, part, quantity, one_of in wanted
        ),
    )


@given(rows, stocks, stand_ins)
def test_a_step_nets_alike_with_the_whole_plan_and_with_what_bears_on_it(
    wanted: list[tuple[int, str, int, str]],
    stock: dict[Item, int],
    decided: tuple[StandIn, ...],
) -> None:
    plan, workshop = plan_from(wanted), Workshop(usable=stock, stand_ins=decided)
    index = PlanIndex(plan, workshop)
    whole = net(plan, workshop)

    for step in plan.steps:
        narrow = index.net_step(step.code)
        assert narrow.of_step(step.code) == whole.of_step(step.code)


def test_what_does_not_compete_is_left_out() -> None:
    plan = plan_from([(0, "P", 1, ""), (1, "P", 1, ""), (2, "Q", 1, ""), (3, "R", 1, "")])
    index = PlanIndex(plan, Workshop(stand_ins=(StandIn("P", "Q"),)))

    assert [need.need.step for need in index.net_step("2").needs] == ["0", "1", "2"]
    assert [need.need.step for need in index.net_step("1").needs] == ["0", "1"]
    assert [need.need.step for need in index.net_step("3").needs] == ["3"]
    assert index.net_step("9").needs == ()


def test_alternates_of_an_earlier_step_are_chosen_as_in_the_whole_plan() -> None:
    # Step 0 takes P, so that Q is left for step 1.
    plan = plan_from([(0, "Q", 1, "g"), (0, "P", 1, "g"), (1, "Q", 1, "")])
    workshop = Workshop(usable={Item("P"): 1, Item("Q"): 1})
    (need,) = PlanIndex(plan, workshop).net_step("1").of_step("1")

    assert (need.short, need.on_hand) == (0, 1)


def test_what_stands_in_for_a_part_is_there_as_in_the_whole_plan() -> None:
    plan = plan_from([(0, "Q", 1, ""), (1, "P", 2, "")])
    workshop = Workshop(usable={Item("Q"): 2}, stand_ins=(StandIn("P", "Q"),))
    (need,) = PlanIndex(plan, workshop).net_step("1").of_step("1")

    assert need.short == 1


def test_deliveries_makers_and_the_build_order_are_those_of_the_whole_plan() -> None:
    plan = Plan(
        steps=(
            Step(code="a", after=("b",)),
            Step(code="x"),
            Step(code="m", makes="FRAME"),
            Step(code="b", after=("m",)),
        ),
        needs=(
            Need(step="a", part="P", quantity=2),
            Need(step="a", part="FRAME", quantity=1),
            Need(step="b", part="P", quantity=2),
        ),
    )
    due = (Due(part="P", quantity=1, source="slip 1"), Due(part="Z", quantity=1, source="slip 2"))
    workshop = Workshop(usable={Item("P"): 3, Item("Z"): 1}, due=due)
    index = PlanIndex(plan, workshop)

    assert index.net_step("a").of_step("a") == net(plan, workshop).of_step("a")
    assert [step.code for step in index.net_step("a").steps] == ["m", "b", "a"]
