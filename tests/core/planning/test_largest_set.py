from __future__ import annotations

import tomllib
from itertools import combinations
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.items import Hand, Item
from inventory.core.planning import largest_set as module
from inventory.core.planning.largest_set import finished_in_order, largest_set
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.set_program import relaxed_set
from inventory.core.planning.set_tasks import (
    Contest,
    Task,
    finished_first_come,
)
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Saw, StandIn, Workshop
from tests.core.planned import plan_of, workshop_of

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable, Sequence

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "largest_set.toml").read_text("utf-8"))


def only(plan: Plan, codes: Iterable[str]) -> Plan:
    """Return a plan of these steps alone."""
    chosen = set(codes)
    return Plan(
        steps=tuple(step for step in plan.steps if step.code in chosen),
        needs=tuple(need for need in plan.needs if need.step in chosen),
    )


def can_be_finished(plan: Plan, workshop: Workshop, codes: Iterable[str]) -> bool:
    """Say whether these steps can all be finished, by netting them alone."""
    chosen = set(codes)
    before = {code for step in plan.steps if step.code in chosen for code in step.after}
    short = any(need.stops for need in net(only(plan, chosen), workshop).needs)
    return before <= chosen | workshop.done and not short


def most_by_trying(plan: Plan, workshop: Workshop) -> int:
    codes = [step.code for step in plan.steps]
    return max(
        count
        for count in range(len(codes) + 1)
        if any(can_be_finished(plan, workshop, some) for some in combinations(codes, count))
    )


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: str(case["name"]))
def test_the_largest_set_is_found_and_proved(case: dict[str, Any]) -> None:
    plan, workshop = plan_of(case["steps"]), workshop_of(case)
    found = largest_set(net(plan, workshop), workshop, worth=case.get("worth"))

    assert (list(found.steps), list(found.in_order)) == (case["largest"], case["in_order"]), case[
        "why"
    ]
    assert found.proved
    assert can_be_finished(plan, workshop, {*found.steps} - workshop.done)


parts = st.sampled_from("PQR")
hands = st.sampled_from(list(Hand))
plans = st.lists(
    st.tuples(
        st.lists(st.integers(1, 3), max_size=1),
        st.lists(
            st.tuples(parts, hands, st.integers(1, 3), st.sampled_from(["", "g"])), max_size=3
        ),
    ),
    min_size=1,
    max_size=6,
)
stocks = st.dictionaries(st.builds(Item, parts, hands), st.integers(1, 5), max_size=6)


Row = tuple[list[int], list[tuple[str, Hand, int, str]]]


def plan_from(rows: list[Row]) -> Plan:
    return Plan(
        steps=tuple(
            Step(code=str(place), after=tuple(str(place - back) for back in backs if back <= place))
            for place, (backs, _) in enumerate(rows)
        ),
        needs=tuple(
            Need(step=str(place), part=part, hand=hand, quantity=quantity, one_of=one_of)
            for place, (_, needs) in enumerate(rows)
            for part, hand, quantity, one_of in needs
        ),
    )


@settings(max_examples=60, deadline=None)
@given(plans, stocks)
def test_no_set_is_larger_by_trying_all(rows: list[Row], stock: dict[Item, int]) -> None:
    plan, workshop = plan_from(rows), Workshop(usable=stock, stand_ins=(StandIn("P", "Q"),))
    found = largest_set(net(plan, workshop), workshop)

    assert can_be_finished(plan, workshop, found.steps)
    assert found.worth == most_by_trying(plan, workshop)
    assert found.proved
    assert len(found.in_order) <= found.worth


@settings(max_examples=30, deadline=None)
@given(plans, stocks)
def test_without_the_solver_a_set_comes_with_an_honest_limit(
    rows: list[Row], stock: dict[Item, int]
) -> None:
    plan, workshop = plan_from(rows), Workshop(usable=stock)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(module, "solver_there", lambda: False)
        found = largest_set(net(plan, workshop), workshop)

    assert can_be_finished(plan, workshop, found.steps)
    assert len(found.steps) <= most_by_trying(plan, workshop) <= found.at_most


def test_pieces_must_come_out_of_single_bars() -> None:
    # Two bars of 100: by length alone 3 pieces of 60 fit 200, from single bars only 2 come.
    cut = [
        Need(step=code, part="ANGLE", quantity=1, kind=NeedKind.CUT, length=60)
        for code in ("a", "b", "c")
    ]
    plan = Plan(steps=(Step(code="a"), Step(code="b"), Step(code="c")), needs=tuple(cut))
    workshop = Workshop(usable={Item("ANGLE", length=100): 2}, saw=Saw(1, 0))
    found = largest_set(net(plan, workshop), workshop)

    assert (found.worth, found.at_most) == (2, 3)
    assert not found.proved


def test_the_first_answer_stands_where_the_solver_finds_none_in_time(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    # Any two of the three want the same part: one can be finished; each part by itself allows two.
    monkeypatch.setattr(module, "best_set", lambda *_: None)
    plan = Plan(
        steps=(Step(code="a"), Step(code="b"), Step(code="c")),
        needs=tuple(
            Need(step=code, part=part, quantity=1)
            for code, of in (("a", "PQ"), ("b", "QR"), ("c", "PR"))
            for part in of
        ),
    )
    workshop = Workshop(usable={Item(part): 1 for part in "PQR"})
    found = largest_set(net(plan, workshop), workshop)

    assert (found.steps, found.at_most, found.proved) == (("a",), 2, False)


@pytest.mark.parametrize("in_time", [True, False])
def test_of_many_tasks_the_relaxed_program_comes_first(
    *, in_time: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    # 10 for a alone, or 5 and 5 for b and c; the relaxed program does b and c wholly.
    monkeypatch.setattr(module, "MANY_TASKS", 2)
    monkeypatch.setattr(module, "best_set", lambda *_: None)
    monkeypatch.setattr(module, "finished_first_come", first_only(finished_first_come))
    monkeypatch.setattr(
        module, "relaxed_set", lambda *told: relaxed_set(*told) if in_time else None
    )
    plan = plan_of(
        [
            {"code": code, "needs": [{"part": "P", "quantity": quantity}]}
            for code, quantity in (("a", 10), ("b", 5), ("c", 5))
        ]
    )
    workshop = Workshop(usable={Item("P"): 10})
    found = largest_set(net(plan, workshop), workshop)

    assert (found.steps, found.at_most) == ((("b", "c"), 2) if in_time else (("a",), 2))


def first_only(finished: Callable[[Contest, Sequence[Task]], list[Task]]) -> Callable[..., object]:
    """Let the first two orders finish only their first task, so that there is something to gain."""
    calls = []

    def lazy(contest: Contest, order: Sequence[Task]) -> list[Task]:
        calls.append(order)
        return finished(contest, contest.tasks[:1] if len(calls) <= 2 else order)

    return lazy


def test_another_set_is_sought_ten_times_at_most(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(module, "_MOST_REFUSED", 1)
    cut = [
        Need(step=code, part="ANGLE", quantity=1, kind=NeedKind.CUT, length=60) for code in "abc"
    ]
    plan = Plan(steps=tuple(Step(code=code) for code in "abc"), needs=tuple(cut))
    workshop = Workshop(usable={Item("ANGLE", length=100): 2}, saw=Saw(1, 0))

    assert largest_set(net(plan, workshop), workshop).at_most == 3


def test_steps_finished_in_order_wait_for_the_makers_of_their_sub_assemblies() -> None:
    plan = Plan(
        steps=(Step(code="a", makes="FRAME"), Step(code="b")),
        needs=(
            Need(step="a", part="P", quantity=1),
            Need(step="b", part="FRAME", quantity=1),
        ),
    )

    assert finished_in_order(net(plan, Workshop()), frozenset()) == ()
    assert finished_in_order(net(plan, Workshop(usable={Item("P"): 1})), frozenset()) == ("a", "b")
