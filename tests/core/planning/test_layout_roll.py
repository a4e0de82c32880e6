from __future__ import annotations

import pytest

from inventory.core.items import Hand, Item, State
from inventory.core.planning.layout_roll import (
    Answer,
    lay_down,
    missing_of,
    others_of,
    pieces_of,
    roll_of,
)
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


ALTERNATES = Plan(
    steps=(Step(code="14-01", section="14 Fairing"), Step(code="14-02", section="14 Fairing")),
    needs=(
        Need(step="14-01", part="TIP", quantity=1),
        Need(step="14-01", part="TIP", quantity=1, one_of="tip"),
        Need(step="14-01", part="CAP", quantity=2, one_of="tip"),
        Need(step="14-02", part="CAP", quantity=2, one_of="tip"),
        Need(step="14-02", part="BOW", quantity=1, one_of="tip"),
    ),
)
TIPS = roll_of(ALTERNATES, "14 Fairing")


def lacking(laid: dict[str, int]) -> list[tuple[str, str, int]]:
    there = {Item(part): pieces for part, pieces in laid.items()}
    return [(m.entry.need.step, m.entry.need.part, m.pieces) for m in missing_of(TIPS, there)]


def test_of_parts_of_which_one_suffices_one_counts() -> None:
    assert pieces_of(TIPS) == 1 + 1 + 2
    assert [entry.pieces for entry in TIPS] == [1, 1, 2, 2, 1]
    assert [each.need.part for each in others_of(TIPS, TIPS[1])] == ["CAP"]
    assert others_of(TIPS, TIPS[0]) == ()


@pytest.mark.parametrize(
    ("laid", "missing"),
    [
        ({}, [("14-01", "TIP", 1), ("14-01", "TIP", 1), ("14-02", "BOW", 1)]),
        ({"TIP": 1}, [("14-01", "TIP", 1), ("14-02", "BOW", 1)]),  # needed in any case, first
        ({"TIP": 2}, [("14-02", "BOW", 1)]),
        ({"TIP": 1, "CAP": 2}, [("14-02", "BOW", 1)]),
        ({"TIP": 1, "CAP": 3}, [("14-02", "CAP", 1)]),
        ({"TIP": 2, "BOW": 1}, []),
        ({"TIP": 1, "CAP": 4}, []),
    ],
)
def test_what_suffices_is_not_missing(
    laid: dict[str, int], missing: list[tuple[str, str, int]]
) -> None:
    assert lacking(laid) == missing


@pytest.mark.parametrize(
    ("laid", "part", "answer"),
    [
        ({}, "CAP", Answer.LAID),
        ({"CAP": 1}, "CAP", Answer.LAID),
        ({"TIP": 2, "CAP": 2, "BOW": 1}, "CAP", Answer.ENOUGH),
        ({"TIP": 2, "BOW": 1}, "CAP", Answer.ENOUGH),  # one of each group is complete
        ({"TIP": 2}, "TIP", Answer.ENOUGH),
        ({"TIP": 1}, "TIP", Answer.LAID),
    ],
)
def test_more_of_what_has_sufficed_is_refused(
    laid: dict[str, int], part: str, answer: Answer
) -> None:
    there = {Item(each): pieces for each, pieces in laid.items()}
    assert lay_down(TIPS, there, Item(part)).answer is answer
