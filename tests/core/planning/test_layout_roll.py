from __future__ import annotations

import pytest

from inventory.core.items import Hand, Item, State
from inventory.core.planning.layout_roll import Answer, lay_down, missing_of, roll_of
from inventory.core.planning.plan import Need, NeedKind, Plan, Step

LEFT, RIGHT, EITHER = Hand.LEFT, Hand.RIGHT, Hand.EITHER
PLAN = Plan(
    steps=(
        Step(code="12-01", section="12 Skins"),
        Step(code="12-02", section="12  skins", after=("12-01",)),
        Step(code="13-01", section="13 Hinges"),
        Step(code="12-00", section="12 Skins"),
    ),
    needs=(
        Need(step="12-01", part="SKIN", hand=LEFT, quantity=1, sheet="RU-3", find_number="1"),
        Need(step="12-01", part="SKIN", hand=RIGHT, quantity=1, sheet="RU-3", find_number="2"),
        Need(step="12-02", part="SKIN", hand=RIGHT, quantity=1, sheet="RU-3", find_number="2"),
        Need(step="12-02", part="SHIM", hand=LEFT, quantity=2, sheet="RU-3", find_number="7"),
        Need(step="12-02", part="SHIM", hand=RIGHT, quantity=2, sheet="RU-3", find_number="8"),
        Need(step="12-02", part="RIVET", quantity=180, kind=NeedKind.HARDWARE),
        Need(step="12-02", part="TAPE", quantity=0, as_required=True),
        Need(step="13-01", part="HINGE", quantity=1),
        Need(step="12-00", part="DONE", quantity=1),
    ),
)
ROLL = roll_of(PLAN, "12 SKINS", frozenset({"12-00"}))


def test_the_roll_holds_the_major_parts_of_the_section_place_by_place() -> None:
    assert [(entry.need.part, entry.need.hand, entry.pieces, entry.steps) for entry in ROLL] == [
        ("SKIN", LEFT, 1, ("12-01",)),
        ("SKIN", RIGHT, 2, ("12-01", "12-02")),
        ("SHIM", LEFT, 2, ("12-02",)),
        ("SHIM", RIGHT, 2, ("12-02",)),
        ("TAPE", Hand.NONE, 1, ("12-02",)),
    ]


@pytest.mark.parametrize(
    ("laid", "item", "answer", "find_number"),
    [
        ({}, Item("SKIN", LEFT), Answer.LAID, "1"),
        ({Item("SKIN", LEFT): 1}, Item("SKIN", LEFT), Answer.ENOUGH, "1"),
        ({Item("SKIN", RIGHT): 1}, Item("SKIN", RIGHT, lot="7"), Answer.LAID, "2"),
        ({}, Item("SKIN"), Answer.WRONG_HAND, "1"),
        ({}, Item("SKIN", RIGHT, state=State.WORKED), Answer.WORKED, "1"),
        ({}, Item("HINGE"), Answer.FOREIGN, None),
        ({}, Item("RIVET"), Answer.FOREIGN, None),
        ({Item("SHIM", EITHER): 3}, Item("SHIM", EITHER), Answer.LAID, "8"),
        ({Item("SHIM", EITHER): 2}, Item("SHIM", LEFT), Answer.LAID, "7"),
        ({Item("SHIM", EITHER): 4}, Item("SHIM", LEFT), Answer.ENOUGH, "7"),
    ],
)
def test_each_part_laid_down_is_answered_in_words(
    laid: dict[Item, int], item: Item, answer: Answer, find_number: str | None
) -> None:
    said = lay_down(ROLL, laid, item)

    assert said.answer is answer
    assert (said.entry.need.find_number if said.entry else None) == find_number


def test_what_is_not_laid_down_is_the_missing_list() -> None:
    laid = {
        Item("SKIN", LEFT): 1,
        Item("SKIN", RIGHT, state=State.WORKED): 5,
        Item("SHIM", EITHER): 3,
        Item("TAPE"): 1,
    }

    assert [(each.entry.need.find_number, each.pieces) for each in missing_of(ROLL, laid)] == [
        ("2", 2),
        ("8", 1),
    ]


def test_a_section_that_is_not_in_the_plan_has_no_roll() -> None:
    assert roll_of(PLAN, "14") == ()
