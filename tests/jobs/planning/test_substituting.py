from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Item
from inventory.core.planning.workshop import StandIn
from inventory.core.scanning.issuing import NotNeededError
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.issuing import Issue, issue
from inventory.jobs.bench.looking_up import short
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.substituting import decided, substitute
from tests.jobs.shelf import OPENING, step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

WORD = "plans S1 rev C, note 2"


@pytest.fixture
def other_bolts(bench: Bench, slip: NewSlip) -> Bench:
    other = Taking(Asked(part="AN3-6A", new=True), 6, OPENING)
    stocked(bench, slip, ("C", taking("AN3-5A", 8)), ("D", other))
    return bench


def allow(bench: Bench, slip: NewSlip, code: str = "", *, allowed: bool = True) -> StandIn:
    wanted = StandIn("an3-5a", "an3-6a", code, WORD)
    return substitute(bench, wanted, slip(), allowed=allowed)


def lacking(bench: Bench) -> list[str]:
    return [net.need.step for net in short(bench).short if net.need.part == "AN3-5A"]


def test_a_recorded_decision_fills_what_is_short(other_bolts: Bench, slip: NewSlip) -> None:
    assert lacking(other_bolts) == ["10-03"]
    allow(other_bolts, slip)
    assert lacking(other_bolts) == []
    found = decided(other_bolts)
    assert [(each.need.step, each.instead, each.quantity) for each in found.used] == [
        ("10-03", "AN3-6A", 6)
    ]
    assert [(each.person, each.stand_in.decided) for each in found.decisions] == [("Ana", WORD)]


def test_without_a_decision_no_other_part_is_issued(other_bolts: Bench, slip: NewSlip) -> None:
    wanted = Issue(asked=Asked(part="AN3-6A"), pieces=2, step="10-03")
    with pytest.raises(NotNeededError):
        issue(other_bolts, wanted, slip())
    allow(other_bolts, slip, "10-03")
    issue(other_bolts, wanted, slip())
    assert there(other_bolts, step("10-03")) == {Item("AN3-6A"): 2}


def test_a_decision_for_one_step_counts_in_no_other(other_bolts: Bench, slip: NewSlip) -> None:
    assert allow(other_bolts, slip, "10-02").step == "10-02"
    with pytest.raises(NotNeededError):
        issue(other_bolts, Issue(asked=Asked(part="AN3-6A"), pieces=2, step="10-03"), slip())


def test_the_other_direction_is_not_allowed_by_it(other_bolts: Bench, slip: NewSlip) -> None:
    substitute(other_bolts, StandIn("AN3-6A", "AN3-5A", decided=WORD), slip())
    assert lacking(other_bolts) == ["10-03"]


def test_a_decision_can_be_taken_back_and_undone(other_bolts: Bench, slip: NewSlip) -> None:
    allow(other_bolts, slip)
    allow(other_bolts, slip, allowed=False)
    assert lacking(other_bolts) == ["10-03"]
    assert [each.allowed for each in decided(other_bolts).decisions] == [True, False]
    undo(other_bolts, slip())
    assert lacking(other_bolts) == []


def test_a_decision_needs_a_source_and_two_known_parts(other_bolts: Bench, slip: NewSlip) -> None:
    def refused(wanted: StandIn, words: str) -> None:
        with pytest.raises(InventoryError, match=words):
            substitute(other_bolts, wanted, slip())

    refused(StandIn("AN3-5A", "AN3-6A", decided=" "), "who decided it")
    refused(StandIn("AN3-5A", "AN3-7A", decided=WORD), "no part AN3-7A is known")
    refused(StandIn("AN3-5A", "AN3-5a", decided=WORD), "AN3-5A is the same part")
    refused(StandIn("AN3-5A", "AN3-6A", "99", WORD), "no step '99'")
    assert decided(other_bolts).decisions == ()


def test_only_a_standing_decision_is_taken_back(other_bolts: Bench, slip: NewSlip) -> None:
    allow(other_bolts, slip, "10-03")
    with pytest.raises(NotFoundError, match="no decision lets AN3-6A stand in for AN3-5A in step"):
        allow(other_bolts, slip, "10-02", allowed=False)
