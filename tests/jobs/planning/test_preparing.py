from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError
from inventory.core.items import Hand, Item
from inventory.jobs.bench.finding_items import Asked, SeveralKindsError
from inventory.jobs.bench.issuing import Issue, issue, take_back
from inventory.jobs.bench.looking_up import ready, short
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.planning.preparing import prepare, prepared_today
from tests.jobs.conftest import PLAN
from tests.jobs.shelf import step, stocked, taking

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

LEFT = Item("RIB-1", Hand.LEFT)
ASKED = Asked(part="RIB-1", hand=Hand.LEFT)


@pytest.fixture
def ribs(bench: Bench, slip: NewSlip) -> Bench:
    """Lay three left ribs and two right ones there; step 10-01 asks for primed left ones."""
    first, *rest = PLAN.needs
    needs = (replace(first, prepared="Deburred, primed"), *rest)
    take_in_plan(bench, replace(PLAN, sha256="p" * 64, needs=needs), slip())
    stocked(
        bench,
        slip,
        ("A", taking("RIB-1", 3, hand=Hand.LEFT)),
        ("B", taking("RIB-1", 2, hand=Hand.RIGHT)),
    )
    return bench


def unprepared(bench: Bench) -> list[int]:
    return [net.unprepared for net in short(bench, "10-01").short]


def test_short_names_what_is_not_prepared_until_it_is(ribs: Bench, slip: NewSlip) -> None:
    assert (unprepared(ribs), ready(ribs)[0].readiness) == ([2], "to be prepared")
    prepare(ribs, ASKED, 1, "primed", slip())
    assert unprepared(ribs) == [2]  # none is deburred
    prepare(ribs, ASKED, 1, " DEBURRED;  primed ", slip())
    assert unprepared(ribs) == [1]
    prepare(ribs, ASKED, 1, "deburred", slip())
    assert (unprepared(ribs), ready(ribs)[0].readiness) == ([], "ready")


def test_prepared_pieces_go_into_the_step_and_come_back(ribs: Bench, slip: NewSlip) -> None:
    prepare(ribs, ASKED, 2, "primed", slip())
    issue(ribs, Issue(asked=ASKED, pieces=1, step="10-01"), slip())
    assert prepared_today(ribs).left == {("primed", LEFT): 1}
    take_back(ribs, taking("RIB-1", 1, step("10-01"), Hand.LEFT), "A", slip())
    assert prepared_today(ribs).left == {("primed", LEFT): 2}


def test_the_record_tells_word_pieces_day_and_person(ribs: Bench, slip: NewSlip) -> None:
    prepare(ribs, ASKED, 2, "primed", slip())
    prepare(ribs, ASKED, -1, "primed", slip())
    today = prepared_today(ribs)
    assert [(each.word, each.pieces, each.person) for each in today.records] == [
        ("primed", 2, "Ana"),
        ("primed", -1, "Ana"),
    ]
    assert today.left == {("primed", LEFT): 1}


def test_no_more_are_prepared_than_lie_there(ribs: Bench, slip: NewSlip) -> None:
    prepare(ribs, ASKED, 2, "primed", slip())
    with pytest.raises(NotEnoughError, match="3 of RIB-1 lie in the bins, 2 of them are primed"):
        prepare(ribs, ASKED, 2, "primed", slip())
    with pytest.raises(NotEnoughError):
        prepare(ribs, ASKED, -3, "primed", slip())
    with pytest.raises(NotEnoughError, match="no new SPAR lies in a bin"):
        prepare(ribs, Asked(part="SPAR"), 1, "primed", slip())


def test_word_pieces_and_hand_must_be_said(ribs: Bench, slip: NewSlip) -> None:
    with pytest.raises(InventoryError, match="which preparation"):
        prepare(ribs, ASKED, 1, " , ", slip())
    with pytest.raises(InventoryError, match="of how many"):
        prepare(ribs, ASKED, 0, "primed", slip())
    with pytest.raises(SeveralKindsError, match="3 LEFT; 2 RIGHT"):
        prepare(ribs, Asked(part="RIB-1"), 1, "primed", slip())
    assert prepared_today(ribs).left == {}
