from __future__ import annotations

from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.receiving.findings import FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.receiving import close_crate, crates, found, open_crate
from inventory.store.ledger.stock import lying

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.receiving.counts import Count
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench


def counted(
    bench: Bench,
    slip: Slip,
    part: str,
    pieces: str,
    hand: Hand | None = None,
    **more: Any,  # noqa: ANN401
) -> Count:
    typed = TypedCount(
        crate=more.pop("crate", "1"), asked=Asked(part=part, hand=hand), pieces=pieces, **more
    )
    return count_typed(bench, typed, slip)


def in_place(bench: Bench, place: Place) -> dict[Item, int]:
    with bench.store.reading() as db:
        return {lies.item: lies.quantity for lies in lying(db, bench.kit.id, place=place)}


def test_good_pieces_lie_in_the_crate_and_damaged_ones_on_hold(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    counted(bench, slip(), "AN3-5A", "12", crate="2", bag="h1", damaged="2")
    bolt = Item("AN3-5A")
    assert in_place(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")) == {bolt: 10}
    assert in_place(bench, Place(PlaceKind.HOLD, "HOLD")) == {bolt: 2}


def test_hand_is_asked_where_a_part_has_two(bench: Bench, slip: Callable[..., Slip]) -> None:
    with pytest.raises(InventoryError, match="RIB-1 comes in several hands: left, right"):
        counted(bench, slip(), "RIB-1", "2")


def test_length_of_stock_is_the_lists(bench: Bench, slip: Callable[..., Slip]) -> None:
    assert counted(bench, slip(), "ANGLE", "1", crate="2").length == 1_219_200_000


def test_second_count_needs_a_word(bench: Bench, slip: Callable[..., Slip]) -> None:
    counted(bench, slip(), "SPAR", "1")
    with pytest.raises(InventoryError, match="counted before by Ana: 1") as refused:
        counted(bench, slip(), "SPAR", "1")
    assert "--recount" in refused.value.remedy


def test_recount_takes_the_place_and_keeps_the_old(bench: Bench, slip: Callable[..., Slip]) -> None:
    counted(bench, slip(), "AN3-5A", "12", crate="2", bag="H1")
    again = TypedCount(crate="2", bag="H1", asked=Asked(part="AN3-5A"), pieces="11")
    count_typed(bench, again, slip(), recount=True)
    assert in_place(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")) == {Item("AN3-5A"): 11}
    assert [one.counted_twice for one in crates(bench)] == [0, 1]


def test_more_adds_up(bench: Bench, slip: Callable[..., Slip]) -> None:
    counted(bench, slip(), "AN3-5A", "5", crate="2", bag="H1")
    again = TypedCount(crate="2", bag="H1", asked=Asked(part="AN3-5A"), pieces="7")
    count_typed(bench, again, slip(), more=True)
    assert in_place(bench, Place(PlaceKind.CRATE, "2 OF 2/H1")) == {Item("AN3-5A"): 12}


def test_nothing_is_missed_in_a_crate_that_is_still_open(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    open_crate(bench, "1", slip())
    assert found(bench) == []


def test_closed_crate_shows_what_nobody_counted(bench: Bench, slip: Callable[..., Slip]) -> None:
    open_crate(bench, "1 of 2", slip())
    counted(bench, slip(), "RIB-1", "2", Hand.LEFT)
    counted(bench, slip(), "RIB-1", "2", Hand.RIGHT)
    close_crate(bench, "1", slip())
    assert [(one.kind, one.part, one.pieces) for one in found(bench)] == [
        (FindingKind.SHORT, "SPAR", 1)
    ]


def test_three_left_and_one_right_is_a_wrong_hand_though_the_total_agrees(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    counted(bench, slip(), "RIB-1", "3", Hand.LEFT)
    counted(bench, slip(), "RIB-1", "1", Hand.RIGHT)
    counted(bench, slip(), "SPAR", "1")
    close_crate(bench, "1", slip())
    assert [(one.kind, one.pieces) for one in found(bench, "1")] == [(FindingKind.WRONG_HAND, 1)]


def test_unknown_crate_names_the_crates_there_are(bench: Bench, slip: Callable[..., Slip]) -> None:
    with pytest.raises(NotFoundError, match="no crate '9'") as refused:
        open_crate(bench, "9", slip())
    assert refused.value.remedy == "There are: 1 OF 2, 2 OF 2."


def test_crate_is_opened_once(bench: Bench, slip: Callable[..., Slip]) -> None:
    open_crate(bench, "1", slip())
    with pytest.raises(InventoryError, match="opened already"):
        open_crate(bench, "1", slip())


def test_more_damaged_than_counted_is_refused(bench: Bench, slip: Callable[..., Slip]) -> None:
    with pytest.raises(InventoryError, match="2 damaged or wrong ones of 1"):
        counted(bench, slip(), "SPAR", "1", damaged="2")


def test_crate_that_is_counted_is_not_called_unopened(
    bench: Bench, slip: Callable[..., Slip]
) -> None:
    typed = TypedCount(crate="1", asked=Asked(part="SPAR"), pieces="1")
    count_typed(bench, typed, slip())
    assert [each.state for each in crates(bench)] == ["being counted", "not opened yet"]
    open_crate(bench, "1", slip())
    assert crates(bench, "1")[0].state == "opened"
