from __future__ import annotations

from itertools import product
from typing import TYPE_CHECKING

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Item
from inventory.core.planning import alternates
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import StandIn, Workshop

if TYPE_CHECKING:
    import pytest

parts = st.sampled_from("PQR")
groups = st.lists(
    st.lists(st.tuples(parts, st.integers(1, 3)), min_size=1, max_size=3), min_size=1, max_size=4
)
stocks = st.dictionaries(st.builds(Item, parts), st.integers(1, 4), max_size=3)


def plan_of(steps: list[list[tuple[str, int]]]) -> Plan:
    """Return a plan whose steps each need one of several parts."""
    return Plan(
        steps=tuple(Step(code=str(number)) for number in range(len(steps))),
        needs=tuple(
            Need(
                step=str(number),
                part=part,
                quantity=quantity,
                one_of="one" if len(choices) > 1 else "",
            )
            for number, choices in enumerate(steps)
            for part, quantity in choices
        ),
    )


def shorts(plan: Plan, workshop: Workshop) -> list[int]:
    return [each.short for each in net(plan, workshop).needs if each.chosen]


@given(groups, stocks)
def test_of_all_choices_the_one_is_taken_that_leaves_the_earliest_least_short(
    steps: list[list[tuple[str, int]]], stock: dict[Item, int]
) -> None:
    workshop = Workshop(usable=stock)
    every = [
        shorts(plan_of([[choice] for choice in choices]), workshop) for choices in product(*steps)
    ]

    assert shorts(plan_of(steps), workshop) == min(every)


def test_needs_with_stand_ins_share_the_stock_of_alternates() -> None:
    plan = plan_of([[("P", 1), ("Q", 1)], [("X", 1)], [("Y", 1)]])
    stand_ins = (StandIn("X", "P"), StandIn("Y", "Z"))
    workshop = Workshop(usable={Item(part): 1 for part in ("P", "Q", "Z")}, stand_ins=stand_ins)

    assert shorts(plan, workshop) == [0, 0, 0]


def test_many_alternates_are_improved_one_by_one(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alternates, "MOST_TRIED", 1)
    plan = plan_of([[("P", 1), ("Q", 1)], [("P", 1), ("R", 1)], [("P", 1)]])

    assert shorts(plan, Workshop(usable={Item("P"): 1, Item("Q"): 1, Item("R"): 1})) == [0, 0, 0]


def test_of_many_equal_choices_the_first_on_the_sheet_stays(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(alternates, "MOST_TRIED", 1)
    plan = plan_of([[("P", 1), ("Q", 1)], [("Q", 1), ("R", 1)], [("R", 1), ("P", 1)]])
    workshop = Workshop(usable={Item("P"): 3, Item("Q"): 3, Item("R"): 3})
    chosen = [each.need.part for each in net(plan, workshop).needs if each.chosen]

    assert chosen == ["P", "Q", "R"]


def test_one_piece_of_what_is_needed_as_required_is_enough() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="GREASE", quantity=0, as_required=True, one_of="grease"),
            Need(step="a", part="WAX", quantity=0, as_required=True, one_of="grease"),
        ),
    )
    workshop = Workshop(usable={Item("GREASE"): 1, Item("WAX"): 2})
    (chosen,) = [each for each in net(plan, workshop).needs if each.chosen]

    assert chosen.need.part == "GREASE"


def test_groups_that_share_no_stock_are_chosen_apart(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(alternates, "MOST_TRIED", 2)
    plan = plan_of([[("A", 1), ("B", 1)], [("C", 1), ("D", 1)], [("A", 1)], [("C", 1)]])
    workshop = Workshop(usable={Item(part): 1 for part in "ABCD"})

    assert shorts(plan, workshop) == [0, 0, 0, 0]


def test_alternates_that_use_nothing_up_are_chosen_by_what_is_there() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="JIG-1", quantity=1, kind=NeedKind.TOOL, one_of="jig"),
            Need(step="a", part="JIG-2", quantity=1, kind=NeedKind.TOOL, one_of="jig"),
            Need(step="a", part="GREASE", quantity=0, as_required=True, one_of="grease"),
            Need(step="a", part="WAX", quantity=0, as_required=True, one_of="grease"),
        ),
    )
    workshop = Workshop(usable={Item("JIG-2"): 1, Item("WAX"): 1})
    chosen = [each for each in net(plan, workshop).needs if each.chosen]

    assert [each.need.part for each in chosen] == ["JIG-2", "WAX"]
    assert not any(each.stops for each in chosen)
