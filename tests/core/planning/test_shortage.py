from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand, Item, State
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import NetNeed, net, steps_stopped, takers
from inventory.core.planning.sources import Taken
from inventory.core.planning.workshop import SetAside, Workshop
from tests.core.planned import one_part_plan, plan_of, workshop_of

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "shortage.toml").read_text("utf-8"))


def totals(needs: tuple[NetNeed, ...], field: str) -> dict[str, int]:
    sums: dict[str, int] = {}
    for each in needs:
        key = f"{each.need.step} {each.need.part}"
        sums[key] = sums.get(key, 0) + int(getattr(each, field))
    return {key: total for key, total in sums.items() if total}


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: str(case["name"]))
def test_short_in_build_order_and_alone(case: dict[str, Any]) -> None:
    netting = net(plan_of(case["steps"]), workshop_of(case))

    assert totals(netting.needs, "short") == case["short"], case["why"]
    assert totals(netting.needs, "short_alone") == case["alone"], case["why"]


def test_a_short_need_says_who_takes_the_pieces() -> None:
    netting = net(one_part_plan(6, 6, 4), Workshop(usable={Item("P"): 10}))

    second, third = netting.needs[1:]

    assert takers(netting, second) == (("s1", 6),)
    assert takers(netting, third) == (("s1", 6), ("s2", 4))
    assert (third.open, third.on_hand, third.short) == (4, 10, 4)
    assert not third.stops_alone
    assert netting.of_step("s3") == (third,)
    assert takers(netting, replace(third)) == (("s1", 6), ("s2", 4))


def test_only_what_uses_up_the_same_pieces_takes_them() -> None:
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2")),
        needs=(
            Need(step="s1", part="Q", quantity=1),
            Need(step="s1", part="T", quantity=1, kind=NeedKind.TOOL),
            Need(step="s2", part="T", quantity=2),
        ),
    )
    netting = net(plan, Workshop(usable={Item("T"): 1, Item("Q"): 1}))

    assert takers(netting, netting.needs[2]) == ()


def test_a_short_part_stops_its_steps_and_all_that_come_after() -> None:
    plan = Plan(
        steps=(
            Step(code="s1", makes="FRAME"),
            Step(code="s2", after=("s1",)),
            Step(code="s3"),
            Step(code="s4"),
            Step(code="s5"),
        ),
        needs=(
            Need(step="s1", part="P", quantity=1),
            Need(step="s3", part="FRAME", quantity=1),
            Need(step="s4", part="P", quantity=1),
            Need(step="s5", part="Q", quantity=1),
        ),
    )
    netting = net(plan, Workshop())

    assert steps_stopped(netting, netting.needs[0]) == ("s1", "s2", "s3", "s4")
    assert steps_stopped(netting, netting.needs[3]) == ("s5",)


def test_on_hand_is_all_that_the_need_could_be_filled_from() -> None:
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2")),
        needs=(
            Need(step="s1", part="P", hand=Hand.LEFT, quantity=1),
            Need(step="s2", part="P", hand=Hand.RIGHT, quantity=1),
        ),
    )
    usable = {Item("P", Hand.LEFT): 3, Item("P", Hand.EITHER): 2}
    left, right = net(plan, Workshop(usable=usable)).needs

    assert (left.on_hand, right.on_hand) == (5, 2)


def test_one_piece_that_lacks_stops_a_step_even_alone() -> None:
    netting = net(one_part_plan(2, 1), Workshop(usable={Item("P"): 1}))
    stopped = [(need.short_alone, need.stops, need.stops_alone) for need in netting.needs]

    assert stopped == [(1, True, True), (0, True, False)]


def test_only_earlier_steps_are_told_to_take_the_pieces() -> None:
    netting = net(one_part_plan(2, 2, 2), Workshop(usable={Item("P"): 6}))

    assert takers(netting, netting.needs[1]) == (Taken("s1", 2),)


@pytest.mark.parametrize(
    ("stock", "issued", "absent"), [(0, 0, True), (1, 0, False), (0, 1, False)]
)
def test_as_required_is_there_or_not_there(stock: int, issued: int, absent: bool) -> None:  # noqa: FBT001
    plan = Plan(
        steps=(Step(code="s1"),),
        needs=(Need(step="s1", part="P", quantity=0, as_required=True),),
    )
    workshop = Workshop(
        usable={Item("P"): stock} if stock else {},
        issued={("s1", Item("P")): issued} if issued else {},
    )
    (only,) = net(plan, workshop).needs

    assert (only.short, only.absent, only.stops) == (0, absent, absent)


def test_spare_never_hides_a_shortage() -> None:
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2")),
        needs=(
            Need(step="s1", part="P", quantity=10, spare=2),
            Need(step="s2", part="P", quantity=10, spare=1),
        ),
    )
    first, second = net(plan, Workshop(usable={Item("P"): 21})).needs

    assert (first.short, first.spare_short) == (0, 1)
    assert (second.short, second.spare_short) == (0, 1)


def test_issued_spare_counts_as_spare() -> None:
    plan = Plan(steps=(Step(code="s1"),), needs=(Need(step="s1", part="P", quantity=10, spare=2),))
    (only,) = net(plan, Workshop(issued={("s1", Item("P")): 11})).needs

    assert (only.issued, only.open, only.spare_short) == (11, 0, 1)


def test_a_step_may_ask_for_preparation() -> None:
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2")),
        needs=(
            Need(step="s1", part="P", quantity=2, prepared="deburred, Primed"),
            Need(step="s2", part="P", quantity=2, prepared="primed"),
        ),
    )
    workshop = Workshop(
        usable={Item("P"): 4},
        prepared={
            ("Primed", Item("P", lot="7")): 3,
            ("deburred", Item("P")): 1,
            ("deburred", Item("P", state=State.WORKED)): 5,
        },
    )
    first, second = net(plan, workshop).needs

    assert (first.unprepared, second.unprepared) == (1, 1)
    assert not first.stops


def test_a_need_of_an_unknown_step_is_not_lost() -> None:
    plan = Plan(steps=(Step(code="s1"),), needs=(Need(step="s9", part="P", quantity=1),))

    with pytest.raises(ValueError, match=r"^needs of steps that aren't in the plan: s9$"):
        net(plan, Workshop())
    more = replace(plan, needs=(Need(step="z1", part="P", quantity=1), *plan.needs))
    with pytest.raises(ValueError, match=r"^needs of steps that aren't in the plan: s9, z1$"):
        net(more, Workshop())


def test_no_step_waits_for_more_than_is_set_aside_of_what_lies_there() -> None:
    workshop = Workshop(usable={Item("P"): 1}, set_aside=(SetAside("s2", Item("P"), 5),))

    assert [need.short for need in net(one_part_plan(1, 1), workshop).needs] == [1, 0]


hands = st.sampled_from(list(Hand))
stocks = st.dictionaries(
    st.builds(Item, st.sampled_from("PQ"), hands), st.integers(1, 6), max_size=6
)
wants = st.lists(
    st.tuples(st.integers(0, 3), st.sampled_from("PQ"), hands, st.integers(1, 5)), max_size=10
)


def plan_from(rows: list[tuple[int, str, Hand, int]]) -> Plan:
    return Plan(
        steps=tuple(Step(code=f"s{number}") for number in range(4)),
        needs=tuple(
            Need(step=f"s{step}", part=part, hand=hand, quantity=quantity)
            for step, part, hand, quantity in rows
        ),
    )


@given(stocks, wants)
def test_nothing_is_handed_out_twice_or_to_the_wrong_side(
    stock: dict[Item, int], rows: list[tuple[int, str, Hand, int]]
) -> None:
    netting = net(plan_from(rows), Workshop(usable=stock))
    used: dict[Item, int] = {}
    for need in netting.needs:
        for share in need.filled:
            got = Item(share.pool.part, share.pool.hand)
            used[got] = used.get(got, 0) + share.quantity
            assert {need.need.hand, got.hand} != {Hand.LEFT, Hand.RIGHT}

    assert all(quantity <= stock[got] for got, quantity in used.items())


@given(stocks, wants, st.builds(Item, st.sampled_from("PQ"), hands))
def test_no_step_gets_shorter_when_a_piece_is_added(
    stock: dict[Item, int], rows: list[tuple[int, str, Hand, int]], more: Item
) -> None:
    before = net(plan_from(rows), Workshop(usable=stock))
    after = net(plan_from(rows), Workshop(usable=stock | {more: stock.get(more, 0) + 1}))

    shorter = [
        (first.short, then.short)
        for first, then in zip(before.needs, after.needs, strict=True)
        if then.short > first.short
    ]
    assert not shorter


@given(stocks, wants)
def test_alone_is_never_shorter_than_in_build_order(
    stock: dict[Item, int], rows: list[tuple[int, str, Hand, int]]
) -> None:
    netting = net(plan_from(rows), Workshop(usable=stock))

    for need in netting.needs:
        assert 0 <= need.short_alone <= need.short <= need.open
