from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.measures.money import Price
from inventory.core.planning.plan import Need, NeedKind
from inventory.core.receiving.counts import Count
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import scrap
from inventory.jobs.bench.looking_up import short
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.buying import (
    Ordering,
    all_minimums,
    answer,
    answered,
    came,
    keep_minimum,
    keep_offer,
    offer_of,
    place_orders,
)
from inventory.jobs.planning.ordering import all_of, placed, to_order
from inventory.jobs.planning.planning import take_in_plan
from inventory.jobs.receiving.receiving import close_crate, count
from inventory.store.receiving.counts import RecordedCount
from tests.jobs.conftest import PLAN
from tests.jobs.shelf import bin_, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

DAY = date(2026, 3, 14)
CURLEW = "Curlew Slip Kit Works"
HERON = "Heron Hardware"


def counted(bench: Bench, slip: NewSlip, *counts: Count) -> None:
    recorded = [RecordedCount(0, 0, each, each.part, recount=False) for each in counts]
    count(bench, recorded, slip())
    for crate in ("1 OF 2", "2 OF 2"):
        close_crate(bench, crate, slip())


def everything(bench: Bench, slip: NewSlip) -> None:
    """Count all that is listed, two bolts fewer, and one rib LEFT too many for one RIGHT."""
    counted(
        bench,
        slip,
        Count(part="RIB-1", hand=Hand.LEFT, crate="1 OF 2", pieces_good=3),
        Count(part="RIB-1", hand=Hand.RIGHT, crate="1 OF 2", pieces_good=1),
        Count(part="SPAR", crate="1 OF 2", pieces_good=1),
        Count(part="AN3-5A", crate="2 OF 2", bag="H1", pieces_good=10),
        Count(part="ANGLE", crate="2 OF 2", length=1_219_200_000, pieces_good=1),
    )
    stocked(
        bench,
        slip,
        ("A", taking("RIB-1", 3, hand=Hand.LEFT)),
        ("A", taking("RIB-1", 1, hand=Hand.RIGHT)),
        ("A", taking("SPAR", 1)),
        ("C", taking("AN3-5A", 10)),
    )


def listed(bench: Bench) -> list[tuple[str, str, str, int, str]]:
    return [
        (
            each.line.supplier,
            each.line.part,
            each.line.hand,
            each.line.quantity,
            each.line.reason.value,
        )
        for each in to_order(bench, DAY)
    ]


def test_what_the_supplier_owes_is_claimed_before_anything_is_bought(
    bench: Bench, slip: NewSlip
) -> None:
    everything(bench, slip)
    # 8 + 6 bolts and a spare one for 10: two of twelve never came, three are short beyond that.
    assert listed(bench) == [
        (CURLEW, "AN3-5A", "none", 2, "owed by the supplier"),
        (CURLEW, "AN3-5A", "none", 2, "short for steps"),
        (CURLEW, "RIB-1", "right", 1, "owed by the supplier"),
        (CURLEW, "AN3-5A", "none", 1, "spare allowance"),
    ]


def test_what_was_scrapped_is_told_as_its_replacement(bench: Bench, slip: NewSlip) -> None:
    everything(bench, slip)
    scrap(bench, taking("SPAR", 1, bin_("A")), slip("drilled twice"))
    assert (CURLEW, "SPAR", "none", 1, "replaces scrap") in listed(bench)


def test_a_line_tells_price_day_and_last_day_to_order(bench: Bench, slip: NewSlip) -> None:
    everything(bench, slip)
    steps = (replace(PLAN.steps[0], days=4), *PLAN.steps[1:])
    take_in_plan(bench, replace(PLAN, sha256="d" * 64, steps=steps), slip())
    keep_offer(bench, offer_of("an3-5a", HERON, 0, Price(420_000, "EUR"), 10), slip())
    bolts = [each for each in to_order(bench, DAY, "heron") if each.line.part == "AN3-5A"]
    assert [(each.line.supplier, str(each.line.price)) for each in bolts] == [
        (HERON, "0.42 EUR")
    ] * 3
    short_ones = bolts[1]
    # 10-03 comes after nothing and can begin today, had it its bolts.
    assert (short_ones.line.needed_by, short_ones.order_by) == (DAY, date(2026, 3, 4))
    assert (bolts[0].claimed, bolts[0].order_by) == (True, None)


def test_a_minimum_is_ordered_up_to(bench: Bench, slip: NewSlip) -> None:
    everything(bench, slip)
    assert keep_minimum(bench, "rib-1", 5).key == "RIB-1"
    assert all_minimums(bench) == {"RIB-1": 5}
    assert (CURLEW, "RIB-1", "left", 4, "below the minimum") in listed(bench)
    keep_minimum(bench, "RIB-1", 0)
    assert all_minimums(bench) == {}
    with pytest.raises(InventoryError, match="makes no sense"):
        keep_minimum(bench, "RIB-1", -1)


def test_pieces_to_cut_are_bought_as_sticks(bench: Bench, slip: NewSlip) -> None:
    need = Need(step="10-03", part="ANGLE", quantity=16, length=75_000_000, kind=NeedKind.CUT)
    take_in_plan(bench, replace(PLAN, sha256="d" * 64, needs=(need,)), slip())
    stocked(bench, slip, ("A", taking("ANGLE", 1)))
    counted(bench, slip)
    (line,) = to_order(bench, DAY)
    assert (line.line.quantity, line.line.to_cut, line.sticks) == (1, True, ((1_219_200_000, 1),))
    (order,) = all_of(bench, DAY, CURLEW, "M 7")
    assert (order.pieces, order.asked.length, order.reference) == (1, 1_219_200_000, "M 7")


def test_what_is_ordered_is_due_and_off_the_list(bench: Bench, slip: NewSlip) -> None:
    everything(bench, slip)
    orders = all_of(bench, DAY, CURLEW.upper(), "M 7")
    assert [(each.asked.part, each.pieces) for each in orders] == [("AN3-5A", 2), ("AN3-5A", 1)]
    assert place_orders(bench, orders, slip()) == [1, 2]
    # What comes is for the steps first: of five pieces lacking two are left to be got.
    assert [row[1:] for row in listed(bench)] == [
        ("AN3-5A", "none", 1, "owed by the supplier"),
        ("RIB-1", "right", 1, "owed by the supplier"),
        ("AN3-5A", "none", 1, "spare allowance"),
    ]
    (net,) = [net for net in short(bench).short if net.need.part == "AN3-5A"]
    assert [(share.due.source, share.quantity) for share in net.due] == [
        ("order 1 of Curlew Slip Kit Works (M 7)", 2),
        ("order 2 of Curlew Slip Kit Works (M 7)", 1),
    ]
    undo(bench, slip())
    assert placed(bench, DAY) == []


def bolts(pieces: int = 3, promised: date | None = None) -> Ordering:
    return Ordering(
        asked=Asked(part="AN3-5A"), pieces=pieces, supplier=HERON, reference="M 8",
        promised=promised,
    )  # fmt: skip


def test_an_order_is_answered_overdue_and_comes_in_parts(bench: Bench, slip: NewSlip) -> None:
    place_orders(bench, [bolts(promised=date(2026, 3, 13))], slip())
    assert [each.overdue for each in placed(bench, DAY)] == [True]
    said = answer("answered", DAY, date(2026, 3, 20), date(2026, 3, 30), "in two parcels")
    assert answered(bench, 1, said, slip()).latest == date(2026, 3, 30)
    assert [each.overdue for each in placed(bench, date(2026, 3, 25))] == [False]
    stocked(bench, slip, ("C", taking("SPAR", 1)))
    first = came(bench, 1, 2, ("C", "H 9"), slip())
    assert (first.purchase.pieces_open, first.movement.item) == (1, Item("AN3-5A", lot="H 9"))
    with pytest.raises(NotEnoughError, match="2 came, 1 of order 1 are still to come"):
        came(bench, 1, 2, ("C", ""), slip())
    came(bench, 1, 1, ("C", ""), slip())
    with pytest.raises(InventoryError, match="order 1 is settled"):
        came(bench, 1, 1, ("C", ""), slip())
    assert there(bench, bin_("C"))[Item("AN3-5A")] == 1
    undo(bench, slip())
    assert [each.purchase.pieces_open for each in placed(bench, DAY)] == [1]


def test_an_order_that_is_given_up_is_wanted_again(bench: Bench, slip: NewSlip) -> None:
    everything(bench, slip)
    before = listed(bench)
    place_orders(bench, [bolts()], slip())
    assert listed(bench) != before
    answered(bench, 1, answer("cancelled", DAY, None, None, "no longer made"), slip())
    assert listed(bench) == before


def test_orders_and_offers_that_make_no_sense_are_refused(bench: Bench, slip: NewSlip) -> None:
    with pytest.raises(InventoryError, match="can't be ordered"):
        place_orders(bench, [bolts(0)], slip())
    with pytest.raises(NotFoundError, match="no order 9"):
        answered(bench, 9, answer("answered", DAY, None, None, ""), slip())
    with pytest.raises(InventoryError, match="whose offer"):
        keep_offer(bench, offer_of("AN3-5A", " ", 0, None, 0), slip())
    with pytest.raises(InventoryError, match="make no sense"):
        offer_of("AN3-5A", HERON, 0, None, -1)
    with pytest.raises(InventoryError, match="is before"):
        answer("answered", DAY, date(2026, 4, 2), date(2026, 4, 1), "")
    with pytest.raises(NotFoundError, match="nothing is to be ordered from Heron"):
        all_of(bench, DAY, HERON, "")
    assert placed(bench, DAY) == []
