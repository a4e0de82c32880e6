from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import Problem
from inventory.core.items import Hand, Measure
from inventory.core.planning.plan import (
    Need,
    NeedKind,
    PartSize,
    Plan,
    Step,
    find_loop,
    steps_in_order,
)
from inventory.core.planning.plan_check import check_plan

NEED = Need(step="a", part="P", quantity=1, row=7)


def told(*needs: Need, steps: tuple[Step, ...] = (Step(code="a"), Step(code="b"))) -> list[str]:
    problems = check_plan(Plan(steps=steps, needs=needs))
    return [f"{problem.where}: {problem.what} | {problem.remedy}" for problem in problems]


CODE = "Correct the code, or add the step"
NUMBER = "Write 1 or more, or AR"
BOTH = "Give kind cut and length together"


@pytest.mark.parametrize(
    ("changes", "problem"),
    [
        (
            {"step": "z"},
            f"row 7: P is for step z, which is no step of the plan | {CODE}",
        ),
        ({"quantity": -1}, f"row 7: P has a negative quantity | {NUMBER}"),
        ({"spare": -1}, f"row 7: P has a negative quantity | {NUMBER}"),
        ({"quantity": 0}, f"row 7: P has the quantity 0 | {NUMBER} (as required)"),
        (
            {"as_required": True},
            f"row 7: P has the quantity 1 and is as-required too | {NUMBER} (as required)",
        ),
        (
            {"kind": NeedKind.CUT},
            f"row 7: P is cut from stock, but no length is given | {BOTH}",
        ),
        ({"length": 5}, f"row 7: P has a length to cut, but isn't of the kind cut | {BOTH}"),
        (
            {"kind": NeedKind.CUT, "length": 5, "measure": Measure.LENGTH},
            (
                "row 7: P is cut, but counted in length"
                " | Write the number of pieces, and the length of each"
            ),
        ),
        (
            {"one_of": "nut"},
            (
                "row 7: P is the only one of nut in step a"
                " | Give its alternates the same word, or none to it"
            ),
        ),
    ],
)
def test_a_need_that_can_not_be_is_named(changes: dict[str, object], problem: str) -> None:
    assert told(replace(NEED, **changes)) == [problem]  # type: ignore[arg-type]


def test_a_plan_in_order_has_no_problem() -> None:
    assert told(NEED, Need(step="b", part="Q", quantity=0, as_required=True)) == []


def test_one_part_in_two_kinds_of_unit_is_named() -> None:
    in_grams = Need(step="b", part="P", printed="p", quantity=5, measure=Measure.MASS, row=9)

    assert told(NEED, in_grams) == [
        "row 9: p is in mass here and in pieces in row 7 | Write both in one kind of unit"
    ]


def test_what_a_step_makes_must_come_before_who_needs_it() -> None:
    needs = (Need(step="b", part="FRAME", quantity=1, row=3),)
    makes = Step(code="a", makes="FRAME")
    middle = Step(code="m", after=("a",))

    last = Step(code="b", after=("m", "a"))

    assert told(*needs, steps=(makes, middle, last)) == []
    assert told(*needs, steps=(makes, middle, Step(code="b", after=("m",)))) == []
    assert told(*needs, steps=(makes, middle, Step(code="b"))) == [
        (
            "row 3: FRAME is made by step a, which doesn't come before step b"
            " | Let step b come after step a"
        )
    ]


def test_a_left_sub_assembly_is_not_the_right_one() -> None:
    need = Need(step="b", part="FLAP", hand=Hand.RIGHT, quantity=1, row=3)
    steps = (Step(code="a", makes="FLAP", makes_hand=Hand.LEFT), Step(code="b"))

    assert told(need, steps=steps) == []


def test_a_part_of_two_sizes_is_named() -> None:
    sizes = (PartSize(part="P", holes=4), PartSize(part="P", holes=5))

    assert check_plan(Plan(sizes=sizes)) == [
        Problem(
            "P has two different sizes in the plan",
            "P",
            "Write the same thickness, width, length and holes in each of its rows",
        )
    ]
    assert check_plan(Plan(sizes=(sizes[0], sizes[0], replace(sizes[1], hand=Hand.LEFT)))) == []


def test_a_dangling_part_number_is_named_once() -> None:
    plan = Plan(
        steps=(Step(code="a", makes="FRAME"), Step(code="b", after=("a",))),
        needs=(
            NEED,
            replace(NEED, step="b"),
            Need(step="b", part="FRAME", quantity=1),
            Need(step="b", part="Q", quantity=1),
        ),
    )
    problems = check_plan(plan, {"Q"})

    assert problems == [
        Problem(
            "P of step a stands on no packing list or order, isn't in stock, and no step makes it",
            "row 7",
            "Correct the part number, or put it on the list of what is to be ordered",
        )
    ]


def test_a_step_that_is_there_twice_or_follows_no_step_is_named() -> None:
    steps = (Step(code="a", row=2), Step(code="a", row=5, after=("x",)))

    assert told(steps=steps) == [
        "row 5: step a is there twice, first in row 2 | Give one of them another code",
        f"row 5: step a comes after x, which is no step of the plan | {CODE}",
    ]


def test_alternates_of_one_step_have_no_problem() -> None:
    assert told(replace(NEED, one_of="nut"), replace(NEED, part="Q", one_of="nut")) == []


def test_a_circle_is_told_forwards_and_ends_where_it_begins() -> None:
    steps = (
        Step(code="a"),
        Step(code="b", after=("d",), row=4),
        Step(code="c", after=("b", "a")),
        Step(code="d", after=("c",)),
    )

    assert told(steps=steps) == [
        "row 4: steps wait for each other in a circle: b -> c -> d -> b | Take out one of these"
    ]
    with pytest.raises(ValueError, match=r"^the steps run in a circle: b -> d -> c -> b$"):
        steps_in_order(steps)


def test_a_circle_is_found_beside_steps_that_lie_in_none() -> None:
    steps = [
        Step(code="a", after=("b", "x")),
        Step(code="b", after=("a", "y")),
        Step(code="x"),
        Step(code="y"),
    ]

    assert find_loop(steps) == ["a", "b", "a"]
    assert find_loop([Step(code="a", after=("x",)), Step(code="x")]) == []


codes = st.integers(0, 7)


@given(st.lists(st.tuples(codes, codes), max_size=14))
def test_every_order_keeps_what_comes_before_or_a_circle_is_shown(
    pairs: list[tuple[int, int]],
) -> None:
    steps = [
        Step(code=str(code), after=tuple(str(before) for step, before in pairs if step == code))
        for code in range(8)
    ]
    loop = find_loop(steps)
    after = {step.code: step.after for step in steps}
    if loop:
        assert loop[0] == loop[-1]
        assert all(late in after[early] for early, late in pairwise(loop))
        return
    order = [step.code for step in steps_in_order(steps)]
    assert sorted(order) == sorted(after)
    assert all(order.index(before) < order.index(code) for code in order for before in after[code])
