from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.items import Hand, Item
from inventory.core.planning.workshop import SetAside
from inventory.core.scanning.issuing import WrongHandError
from inventory.jobs.bench import steps
from inventory.jobs.bench.finding_items import Asked, SeveralKindsError
from inventory.jobs.bench.issuing import Issue, issue, take_back
from inventory.jobs.bench.looking_up import pick, short
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.kept_aside import all_kept
from inventory.jobs.planning.setting_aside import Keeping, set_aside
from tests.jobs.shelf import step, stocked, taking

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

BOLT = Item("AN3-5A")


def keep(bench: Bench, slip: NewSlip, pieces: int, code: str = "10-03") -> None:
    set_aside(bench, Keeping(Asked(part="an3-5a"), pieces, code), slip())


def bolts(bench: Bench, slip: NewSlip, pieces: int = 10) -> None:
    stocked(bench, slip, ("C", taking("AN3-5A", pieces)))


def lacking(bench: Bench) -> dict[str, int]:
    return {net.need.step: net.short for net in short(bench).short if net.need.part == "AN3-5A"}


def issued(bench: Bench, slip: NewSlip, pieces: int, code: str) -> None:
    issue(bench, Issue(asked=Asked(part="AN3-5A"), pieces=pieces, step=code), slip())


def test_a_later_step_keeps_what_is_set_aside_for_it(bench: Bench, slip: NewSlip) -> None:
    bolts(bench, slip)  # 10-02 needs 8, 10-03 needs 6
    assert lacking(bench) == {"10-03": 4}
    keep(bench, slip, 6)
    assert all_kept(bench) == [SetAside("10-03", BOLT, 6)]
    assert lacking(bench) == {"10-02": 4}
    keep(bench, slip, 0)
    assert (all_kept(bench), lacking(bench)) == ([], {"10-03": 4})


def test_no_other_step_is_issued_what_is_set_aside(bench: Bench, slip: NewSlip) -> None:
    bolts(bench, slip)
    keep(bench, slip, 6)
    with pytest.raises(NotEnoughError, match=r"10 of AN3-5A .* 6 are set aside for step 10-03"):
        issued(bench, slip, 5, "10-02")
    issued(bench, slip, 4, "10-02")


def test_the_step_itself_takes_them_and_they_are_no_longer_kept(
    bench: Bench, slip: NewSlip
) -> None:
    bolts(bench, slip)
    keep(bench, slip, 6)
    issued(bench, slip, 2, "10-03")
    assert all_kept(bench) == [SetAside("10-03", BOLT, 4)]
    take_back(bench, taking("AN3-5A", 1, step("10-03")), "C", slip())
    assert all_kept(bench) == [SetAside("10-03", BOLT, 5)]


def test_picking_and_done_leave_what_is_set_aside_for_others(bench: Bench, slip: NewSlip) -> None:
    bolts(bench, slip)
    stocked(bench, slip, ("S", taking("SPAR", 1)))
    keep(bench, slip, 6)
    picking = pick(bench, "10-02")
    assert {each.item.part: each.quantity for each in picking.fetches} == {"AN3-5A": 4, "SPAR": 1}
    use = steps.use_of(bench, "10-03")
    assert [(each.item, each.quantity) for each in use.fetches] == [(BOLT, 6)]
    steps.done(bench, "10-03", slip())
    assert all_kept(bench) == []


def test_undoing_the_act_lets_them_go(bench: Bench, slip: NewSlip) -> None:
    bolts(bench, slip)
    keep(bench, slip, 6)
    undo(bench, slip())
    assert all_kept(bench) == []


@pytest.mark.parametrize(
    ("pieces", "code", "words"),
    [
        (7, "10-03", "needs 6"),
        (-1, "10-03", "can't be set aside"),
        (6, "10-04", "no step '10-04'"),
        (1, "10-01", "asks for no AN3-5A"),
    ],
)
def test_only_what_the_step_asks_for_is_set_aside(
    bench: Bench, slip: NewSlip, pieces: int, code: str, words: str
) -> None:
    bolts(bench, slip)
    with pytest.raises(InventoryError, match=words):
        keep(bench, slip, pieces, code)
    assert all_kept(bench) == []


def test_no_more_than_lies_there_is_set_aside(bench: Bench, slip: NewSlip) -> None:
    bolts(bench, slip, 9)
    keep(bench, slip, 6)
    with pytest.raises(NotEnoughError, match="9 lie in the bins; 6 are set aside for step 10-03"):
        keep(bench, slip, 4, "10-02")


def test_a_hand_must_be_said_and_fit(bench: Bench, slip: NewSlip) -> None:
    stocked(
        bench,
        slip,
        ("A", taking("RIB-1", 2, hand=Hand.LEFT)),
        ("A", taking("RIB-1", 2, hand=Hand.EITHER)),
    )
    with pytest.raises(SeveralKindsError, match="EITHER; LEFT"):
        set_aside(bench, Keeping(Asked(part="RIB-1"), 1, "10-01"), slip())
    left = Asked(part="RIB-1", hand=Hand.LEFT)
    set_aside(bench, Keeping(left, 1, "10-01"), slip())
    stocked(bench, slip, ("S", taking("SPAR", 2, hand=Hand.LEFT)))
    with pytest.raises(WrongHandError):
        set_aside(bench, Keeping(Asked(part="SPAR"), 1, "10-02"), slip())
    with pytest.raises(NotEnoughError, match="no new ANGLE"):
        set_aside(bench, Keeping(Asked(part="ANGLE"), 1, "10-02"), slip())
