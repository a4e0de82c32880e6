"""What may be recorded as issued to a step."""

from __future__ import annotations

import pytest

from inventory.core.errors import InventoryError
from inventory.core.items import Hand, Item, Measure, State
from inventory.core.planning.plan import Need
from inventory.core.planning.workshop import StandIn
from inventory.core.scanning.issuing import (
    MeasuredError,
    NotNeededError,
    StepAsking,
    TooManyError,
    WrongHandError,
    check_issue,
)

LEFT, RIGHT = Hand.LEFT, Hand.RIGHT
NEEDS = (
    Need(step="10-02", part="RIB", hand=LEFT, quantity=4, spare=1),
    Need(step="10-02", part="BOLT", quantity=8),
    Need(step="10-02", part="SKIN", hand=RIGHT, quantity=1),
    Need(step="10-02", part="CLIP", hand=Hand.EITHER, quantity=2),
    Need(step="10-02", part="TUBE", length=300, quantity=2),
    Need(step="10-02", part="SEALANT", quantity=1, as_required=True),
)


def asking(
    issued: dict[Item, int] | None = None, stand_ins: tuple[StandIn, ...] = ()
) -> StepAsking:
    return StepAsking("10-02", NEEDS, issued or {}, stand_ins)


@pytest.mark.parametrize(
    ("item", "pieces"),
    [
        (Item("RIB", LEFT), 4),
        (Item("RIB", LEFT), 5),  # the spare one too
        (Item("RIB", LEFT, state=State.WORKED), 1),
        (Item("RIB", Hand.EITHER), 5),
        (Item("BOLT"), 8),
        (Item("BOLT", lot="7"), 1),
        (Item("BOLT", length=12), 8),  # the plan says no length
        (Item("CLIP"), 2),
        (Item("CLIP", Hand.EITHER), 2),
        (Item("TUBE", length=300), 2),
        (Item("SEALANT"), 1000),
    ],
)
def test_what_the_plan_asks_for_may_be_issued(item: Item, pieces: int) -> None:
    check_issue(asking(), item, pieces)


def said(asked: StepAsking, item: Item, pieces: int) -> tuple[str, str, str]:
    with pytest.raises(InventoryError) as refused:
        check_issue(asked, item, pieces)
    return refused.value.what, refused.value.where, refused.value.remedy


def test_a_part_the_step_does_not_use_is_refused() -> None:
    assert said(asking(), Item("SPAR"), 1) == (
        "step 10-02 asks for no SPAR",
        "step 10-02",
        "Compare the number with the plans. Scan the step that uses it.",
    )


@pytest.mark.parametrize(
    ("item", "words", "where", "remedy"),
    [
        (
            Item("RIB", RIGHT),
            "this is the RIGHT one, step 10-02 needs LEFT",
            "step 10-02, RIB",
            "Put it back and take the LEFT one.",
        ),
        (
            Item("RIB"),
            "this is one WITHOUT a hand, step 10-02 needs LEFT",
            "step 10-02, RIB",
            "Put it back and take the LEFT one.",
        ),
        (
            Item("BOLT", LEFT),
            "this is the LEFT one, step 10-02 needs one WITHOUT a hand",
            "step 10-02, BOLT",
            "Put it back and take one WITHOUT a hand.",
        ),
        (
            Item("SKIN", LEFT),
            "this is the LEFT one, step 10-02 needs RIGHT",
            "step 10-02, SKIN",
            "Put it back and take the RIGHT one.",
        ),
        (
            Item("CLIP", RIGHT),
            "this is the RIGHT one, step 10-02 needs one that fits EITHER side",
            "step 10-02, CLIP",
            "Put it back and take one that fits EITHER side.",
        ),
    ],
)
def test_another_hand_is_refused_in_both_directions(
    item: Item, words: str, where: str, remedy: str
) -> None:
    assert said(asking(), item, 1) == (words, where, remedy)
    with pytest.raises(WrongHandError):
        check_issue(asking(), item, 1, over=True)


def test_a_piece_of_another_length_is_refused() -> None:
    assert said(asking(), Item("TUBE", length=299), 1) == (
        "step 10-02 asks for TUBE of another length",
        "step 10-02",
        "Take the piece of the length on the plans, or cut it.",
    )
    with pytest.raises(NotNeededError):
        check_issue(asking(), Item("TUBE"), 1, over=True)


@pytest.mark.parametrize(
    ("issued", "item", "pieces", "words"),
    [
        ({}, Item("RIB", LEFT), 6, "needs 5 of RIB LEFT, 0 are issued: 6 more"),
        ({Item("RIB", LEFT): 3}, Item("RIB", LEFT), 3, "needs 5 of RIB LEFT, 3 are issued: 3 more"),
        (
            {Item("RIB", LEFT, state=State.WORKED): 5},
            Item("RIB", LEFT),
            1,
            "needs 5 of RIB LEFT, 5 are issued: 1 more",
        ),
        ({Item("BOLT", lot="7"): 8}, Item("BOLT"), 1, "needs 8 of BOLT, 8 are issued: 1 more"),
        (
            {Item("BOLT", length=12): 8},
            Item("BOLT"),
            1,
            "needs 8 of BOLT, 8 are issued: 1 more",
        ),
        (
            {Item("TUBE", length=300): 2},
            Item("TUBE", length=300),
            1,
            "needs 2 of TUBE, 2 are issued: 1 more",
        ),
    ],
)
def test_more_than_the_step_needs_is_asked(
    issued: dict[Item, int], item: Item, pieces: int, words: str
) -> None:
    what, where, remedy = said(asking(issued), item, pieces)
    assert what == f"step 10-02 {words} would be too many"
    assert where == "step 10-02"
    assert remedy == "Count again. If they are used there all the same, record them with --over."
    with pytest.raises(TooManyError):
        check_issue(asking(issued), item, pieces)
    check_issue(asking(issued), item, pieces, over=True)


@pytest.mark.parametrize(
    "there",
    [
        {Item("RIB", RIGHT): 5},  # the other hand
        {Item("BOLT"): 5},  # another part
        {Item("RIB", LEFT): 4},  # one fewer than the spare one allows
    ],
)
def test_only_the_same_part_and_hand_count_as_issued(there: dict[Item, int]) -> None:
    check_issue(asking(there), Item("RIB", LEFT), 1)


def test_a_piece_of_another_length_in_the_step_does_not_count() -> None:
    check_issue(asking({Item("TUBE", length=299): 2}), Item("TUBE", length=300), 2)


@pytest.mark.parametrize("step", ["", "10-02"])
def test_a_recorded_decision_lets_another_part_stand_in(step: str) -> None:
    decided = (StandIn("BOLT", "SCREW", step, "Ada, sheet 3"),)
    check_issue(asking(stand_ins=decided), Item("SCREW"), 8)


def test_a_decision_for_another_step_or_the_other_way_round_does_not() -> None:
    elsewhere = (StandIn("BOLT", "SCREW", "10-03", "Ada"), StandIn("SCREW", "BOLT", "", "Ada"))
    with pytest.raises(NotNeededError):
        check_issue(asking(stand_ins=elsewhere), Item("SCREW"), 1)


def test_whole_pieces_of_what_is_measured_out_are_refused() -> None:
    """A scanner's 5 is five pieces; of a sealant it would be five of the smallest unit."""
    seal = Need(step="10-02", part="SEAL", quantity=5 * 10**9, measure=Measure.VOLUME)
    said = StepAsking("10-02", (seal,), {}, by_piece=True)
    with pytest.raises(MeasuredError, match="SEAL is measured out, not counted") as refused:
        check_issue(said, Item("SEAL"), 5)
    assert refused.value.remedy == (
        "Say how much: kitwright issue SEAL AMOUNT --step 10-02, or on the page of its bin."
    )
    check_issue(StepAsking("10-02", (seal,), {}), Item("SEAL"), 5 * 10**9)
