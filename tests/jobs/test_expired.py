"""What is past its date: never taken silently, used only by a recorded decision."""

from __future__ import annotations

from datetime import date, timedelta
from typing import TYPE_CHECKING

import pytest

from inventory.core.items import Item
from inventory.core.planning.shelf_life import ShelfLife
from inventory.jobs.acts import acting
from inventory.jobs.bench import steps
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import ExpiredError, Issue, issue
from inventory.jobs.bench.looking_up import pick, short
from inventory.jobs.bench.scanning import Answer, ScanSession
from inventory.store.ledger.slips import all_slips
from inventory.store.planning.lots import Lot, save_lot
from tests.jobs.shelf import step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

OLD, FRESH = Item("AN3-5A", lot="old"), Item("AN3-5A", lot="fresh")


@pytest.fixture
def lots(bench: Bench, slip: NewSlip) -> Bench:
    """Lay 4 pieces of a lot there whose date is past, and 5 of one that is good for a day."""
    stocked(
        bench, slip, ("A", taking("AN3-5A", 4, lot="old")), ("B", taking("AN3-5A", 5, lot="fresh"))
    )
    ends = {"old": date(2026, 3, 13), "fresh": date.today() + timedelta(days=1)}  # noqa: DTZ011
    with acting(bench, "lot", slip()) as act:
        for name, day in ends.items():
            lot = Lot(part="AN3-5A", lot=name, shelf=ShelfLife(expires=day))
            save_lot(act.db, bench.kit.id, act.recorded.id, lot)
    return bench


def of_old(pieces: int = 1, *, expired: bool = False) -> Issue:
    asked = Asked(part="AN3-5A", lot="old")
    return Issue(asked=asked, pieces=pieces, step="10-03", expired=expired)


def test_expired_pieces_are_told_and_never_counted(lots: Bench) -> None:
    (net,) = [net for net in short(lots, "10-03").short if net.need.part == "AN3-5A"]
    assert (net.on_hand, net.short) == (5, 6)  # 10-02 takes all five
    told = short(lots).aside(net)
    assert [(each.why, each.item, each.quantity) for each in told] == [("expired", OLD, 4)]


def test_picking_and_done_leave_expired_pieces(lots: Bench) -> None:
    assert [each.item for each in pick(lots, "10-03").fetches] == [FRESH]
    assert [each.item for each in steps.use_of(lots, "10-03").fetches] == [FRESH]


def test_an_expired_lot_is_issued_only_by_a_decision_with_its_reason(
    lots: Bench, slip: NewSlip
) -> None:
    for wanted, note in ((of_old(), ""), (of_old(), "Ana"), (of_old(expired=True), "")):
        with pytest.raises(ExpiredError, match="lot old of AN3-5A is past its date"):
            issue(lots, wanted, slip(note))
    issue(lots, of_old(expired=True), slip("maker's letter of 2 March, Ana"))
    assert there(lots, step("10-03")) == {OLD: 1}


def test_a_lot_may_be_used_on_its_last_day(lots: Bench, slip: NewSlip) -> None:
    wanted = Issue(asked=Asked(part="AN3-5A", lot="fresh"), pieces=1, step="10-03")
    issue(lots, wanted, slip())
    assert there(lots, step("10-03")) == {FRESH: 1}


def test_a_scan_asks_and_yes_is_written_down(lots: Bench, slip: NewSlip) -> None:
    session = ScanSession(lots, slip)
    session.scan("10-03")
    session.scan("A")
    asked = session.scan("AN3-5A")
    assert (asked.answer, asked.remedy) == (
        Answer.NOT_OK,
        "Scan YES only if whoever decides allows it.",
    )
    assert session.scan("ZYES").answer is Answer.OK
    with lots.store.reading() as db:
        assert all_slips(db, lots.kit.id)[-1].slip.note == "past its date: YES was scanned"
