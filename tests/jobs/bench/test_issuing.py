from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import AlreadyDoneError, InventoryError, NotEnoughError
from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.scanning.issuing import NotNeededError, TooManyError, WrongHandError
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue, scrap, take_back
from inventory.jobs.bench.putting_away import hold
from tests.jobs.shelf import bin_, step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]


def wanted(part: str, pieces: int, code: str, hand: Hand | None = None) -> Issue:
    return Issue(asked=Asked(part=part, hand=hand), pieces=pieces, step=code)


def test_issued_pieces_lie_in_the_step(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 12)))
    issue(bench, wanted("an3-5a", 8, "10-02"), slip())
    assert there(bench, step("10-02")) == {Item("AN3-5A"): 8}
    assert there(bench, bin_("A")) == {Item("AN3-5A"): 4}


def test_same_slip_issues_once(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 12)))
    once = slip()
    issue(bench, wanted("AN3-5A", 4, "10-02"), once)
    with pytest.raises(AlreadyDoneError):
        issue(bench, wanted("AN3-5A", 4, "10-02"), once)
    assert there(bench, bin_("A")) == {Item("AN3-5A"): 8}


def test_left_part_never_fills_right_need(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("RIB-1", 4, hand=Hand.LEFT)))
    issue(bench, wanted("RIB-1", 2, "10-01"), slip())
    with pytest.raises(TooManyError, match="needs 2 of RIB-1 LEFT, 2 are issued"):
        issue(bench, wanted("RIB-1", 1, "10-01"), slip())


def test_wrong_hand_is_said_in_words(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1, hand=Hand.LEFT)))
    with pytest.raises(WrongHandError, match="this is the LEFT one, step 10-02 needs one WITHOUT"):
        issue(bench, wanted("SPAR", 1, "10-02"), slip())


def test_part_the_step_doesnt_ask_for_is_refused(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1)))
    with pytest.raises(NotNeededError, match="step 10-03 asks for no SPAR"):
        issue(bench, wanted("SPAR", 1, "10-03"), slip())


def test_too_many_need_a_word(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 12)))
    with pytest.raises(TooManyError, match="step 10-03 needs 6 of AN3-5A, 0 are issued: 7 more"):
        issue(bench, wanted("AN3-5A", 7, "10-03"), slip())
    over = Issue(asked=Asked(part="AN3-5A"), pieces=7, step="10-03", over=True)
    assert issue(bench, over, slip()).quantity == 7


def test_spare_allowance_may_be_issued(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 12)))
    assert issue(bench, wanted("AN3-5A", 9, "10-02"), slip()).quantity == 9


def test_more_than_there_is_is_refused(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 3)))
    with pytest.raises(NotEnoughError, match="4 of AN3-5A asked for, 3 in bin A"):
        issue(bench, wanted("AN3-5A", 4, "10-03"), slip())


def test_several_bins_are_asked(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 3)), ("B", taking("AN3-5A", 3)))
    with pytest.raises(InventoryError, match="lies in 2 bins: A, B"):
        issue(bench, wanted("AN3-5A", 1, "10-03"), slip())


def test_nothing_on_hold_is_issued(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 3)))
    hold(bench, taking("AN3-5A", 3, bin_("A")), slip("why"))
    with pytest.raises(NotEnoughError, match="some are ON HOLD"):
        issue(bench, wanted("AN3-5A", 1, "10-03"), slip())
    from_hold = Issue(
        asked=Asked(part="AN3-5A"), pieces=1, step="10-03", origin=Place(PlaceKind.HOLD, "HOLD")
    )
    with pytest.raises(InventoryError, match="ON HOLD and can't be issued"):
        issue(bench, from_hold, slip())


def test_what_came_back_as_worked_never_counts_as_new(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1)))
    issue(bench, wanted("SPAR", 1, "10-02"), slip())
    take_back(bench, taking("SPAR", 1, step("10-02")), "A", slip(), worked=True)
    assert there(bench, bin_("A")) == {Item("SPAR", state=State.WORKED): 1}
    assert there(bench, step("10-02")) == {}


def test_unworked_pieces_come_back_as_they_were(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1)))
    issue(bench, wanted("SPAR", 1, "10-02"), slip())
    take_back(bench, taking("SPAR", 1, step("10-02")), "A", slip())
    assert there(bench, bin_("A")) == {Item("SPAR"): 1}


def test_scrap_wants_a_reason_and_is_in_no_bin(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1)))
    with pytest.raises(InventoryError, match="why are they scrapped"):
        scrap(bench, taking("SPAR", 1, bin_("A")), slip())
    scrap(bench, taking("SPAR", 1, bin_("A")), slip("dropped"))
    assert there(bench, bin_("A")) == {}
    assert there(bench, Place(PlaceKind.SCRAP)) == {Item("SPAR"): 1}


def test_part_in_no_bin_is_said(bench: Bench, slip: NewSlip) -> None:
    with pytest.raises(NotEnoughError, match="no SPAR lies in a bin") as refused:
        issue(bench, wanted("SPAR", 1, "10-02"), slip())
    assert refused.value.remedy == "None is in the record."
