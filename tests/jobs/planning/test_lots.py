from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING, Any

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.shelf_life import Freshness, LifeType
from inventory.core.planning.workshop import Aside
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.issuing import Issue, issue, scrap
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.lots import Film, extend_lot, hold_lot, record_film, record_lot, trace
from inventory.jobs.planning.shelf_lives import films_on, lots
from inventory.jobs.planning.workshop_today import today
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.sending_back import ReturnNote, send_back
from tests.jobs.shelf import bin_, step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.planning.lots import Lot

    Slips = Callable[..., Slip]

TODAY = date(2026, 3, 14)
HOLD = Place(PlaceKind.HOLD, "HOLD")


def recorded(
    bench: Bench,
    slip: Slips,
    lot: str = "7A",
    part: str = "AN3-5A",
    **shelf: Any,  # noqa: ANN401
) -> Lot:
    def change(before: Lot) -> Lot:
        return replace(before, shelf=replace(before.shelf, **shelf))

    return record_lot(bench, part, lot, change, slip())


def of_lot(bench: Bench, slip: Slips) -> None:
    """Twelve bolts of lot 7A in B, six of 7B in C."""
    stocked(
        bench, slip, ("B", taking("AN3-5A", 12, lot="7A")), ("C", taking("AN3-5A", 6, lot="7B"))
    )


def test_lot_keeps_what_was_said_before(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip, made=date(2026, 1, 31), months=12)
    after = recorded(bench, slip, opened=date(2026, 3, 1), open_days=30)
    # Twelve months run to 31 January 2027; thirty days once opened on 1 March to 31 March 2026.
    assert (after.shelf.months, after.shelf.last_use) == (12, date(2026, 3, 31))


@pytest.mark.parametrize(
    ("lot", "shelf", "why"),
    [
        (" ", {}, "which lot"),
        ("7A", {"made": date(2026, 3, 15)}, "still to come"),
        ("7A", {"opened": date(2027, 1, 1)}, "still to come"),
        ("7A", {"made": TODAY, "expires": date(2026, 1, 1)}, "before it was made"),
        ("7A", {"months": -1}, "never negative"),
        ("7A", {"open_days": -1}, "never negative"),
    ],
)
def test_what_no_lot_can_be_is_refused(
    bench: Bench, slip: Slips, lot: str, shelf: dict[str, Any], why: str
) -> None:
    with pytest.raises(InventoryError, match=why):
        recorded(bench, slip, lot, **shelf)
    assert lots(bench, TODAY) == []


def test_unknown_part_is_refused(bench: Bench, slip: Slips) -> None:
    with pytest.raises(NotFoundError):
        recorded(bench, slip, part="NO-SUCH")


def test_expired_lot_is_no_longer_usable_and_shown_apart(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    recorded(bench, slip, expires=date(2026, 3, 13))
    now = today(bench, TODAY).workshop
    assert now.usable == {Item("AN3-5A", lot="7B"): 6}
    assert now.aside[Aside.EXPIRED] == {Item("AN3-5A", lot="7A"): 12}
    on_its_last_day = today(bench, date(2026, 3, 13)).workshop
    assert on_its_last_day.usable[Item("AN3-5A", lot="7A")] == 12


def test_date_noted_with_a_count_holds_until_the_lot_is_recorded(bench: Bench, slip: Slips) -> None:
    typed = TypedCount(
        crate="2", bag="H1", asked=Asked(part="AN3-5A", lot="7A"), pieces="12",
        expires=date(2026, 3, 1),
    )  # fmt: skip
    count_typed(bench, typed, slip())
    assert [(one.lot.lot, one.state) for one in lots(bench, TODAY)] == [("7A", Freshness.EXPIRED)]
    recorded(bench, slip, expires=date(2026, 12, 31))
    assert [one.state for one in lots(bench, TODAY)] == [Freshness.FRESH]


def test_lots_are_shown_with_what_expires_first_at_the_top(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    recorded(bench, slip, "7B", expires=date(2026, 4, 1))
    recorded(bench, slip, "7C", expires=date(2026, 3, 1))
    assert [(one.lot.lot, one.state) for one in lots(bench, TODAY)] == [
        ("7C", Freshness.EXPIRED),
        ("7B", Freshness.SOON),
        ("7A", Freshness.UNDATED),
    ]


def test_passed_test_lengthens_a_type_ii_lot_by_half_its_life(bench: Bench, slip: Slips) -> None:
    # USAF T.O. 1-1-700, 12.8: half the original life.
    made: dict[str, Any] = {"made": date(2025, 3, 31), "months": 12, "life": LifeType.EXTENDIBLE}
    recorded(bench, slip, **made)
    with pytest.raises(InventoryError, match="who tested it"):
        extend_lot(bench, "AN3-5A", "7A", slip())
    after = extend_lot(bench, "AN3-5A", "7A", slip("test strip, Ana"))
    assert after.shelf.last_use == date(2026, 9, 30)
    recorded(bench, slip, "8A")
    with pytest.raises(InventoryError, match="can't be extended"):
        extend_lot(bench, "AN3-5A", "8A", slip("wish"))


def test_bulletin_holds_a_lot_back_and_names_every_piece(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    bolts = Asked(part="AN3-5A", lot="7A")
    issue(bench, Issue(asked=bolts, pieces=4, step="10-02", origin=bin_("B")), slip())
    scrap(bench, taking("AN3-5A", 1, bin_("B"), lot="7A"), slip("bent"))
    send_back(bench, taking("AN3-5A", 2, bin_("B"), lot="7A"), ReturnNote(recipient="C"), slip())
    with pytest.raises(InventoryError, match="why is it held back"):
        hold_lot(bench, slip(), lot="7A")
    held = hold_lot(bench, slip("bulletin 12"), lot="7A")
    assert [(move.quantity, move.origin) for move in held.movements] == [(5, bin_("B"))]
    where = {each.lies.place.kind: each.lies.quantity for each in held.trace.traced}
    assert where == {
        PlaceKind.HOLD: 5, PlaceKind.STEP: 4, PlaceKind.SCRAP: 1, PlaceKind.RETURNED: 2,
    }  # fmt: skip
    assert there(bench, bin_("C")) == {Item("AN3-5A", lot="7B"): 6}
    assert there(bench, step("10-02")) == {Item("AN3-5A", lot="7A"): 4}


def test_trace_tells_the_day_of_each_issue_and_what_never_came(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    for day in (date(2026, 3, 10), date(2026, 3, 12)):
        wanted = Issue(
            asked=Asked(part="AN3-5A", lot="7A"), pieces=2, step="10-02", origin=bin_("B")
        )
        issue(bench, wanted, replace(slip(), happened_on=day))
    found = trace(bench, "AN3-5A", "7A")
    (built_in,) = [each for each in found.traced if each.lies.place.kind is PlaceKind.STEP]
    assert built_in.since == (date(2026, 3, 10), date(2026, 3, 12))
    assert found.never_received == (("AN3-5A", Hand.NONE, 12),)


def test_part_can_be_traced_without_a_lot(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    assert [each.lies.item.lot for each in trace(bench, "AN3-5A").traced] == ["7A", "7B"]
    assert len(hold_lot(bench, slip("bulletin"), part="AN3-5A").movements) == 2


def test_undone_hold_puts_every_piece_back(bench: Bench, slip: Slips) -> None:
    of_lot(bench, slip)
    hold_lot(bench, slip("bulletin"), lot="7A")
    undo(bench, slip())
    assert there(bench, bin_("B")) == {Item("AN3-5A", lot="7A"): 12}
    assert there(bench, HOLD) == {}


def test_unknown_lot_and_nothing_asked_are_refused(bench: Bench, slip: Slips) -> None:
    with pytest.raises(NotFoundError, match="no lot 9 is in the record"):
        trace(bench, lot="9")
    with pytest.raises(InventoryError, match="which lot or part"):
        trace(bench)
    recorded(bench, slip, "9")
    assert trace(bench, lot="9").traced == ()


def test_film_that_is_on_too_long_is_reminded_of(bench: Bench, slip: Slips) -> None:
    # Six weeks from 31 January end on 14 March.
    record_film(bench, Film(part="SPAR", since=date(2026, 1, 31)), slip(), on=True)
    assert [each.overdue for each in films_on(bench, TODAY)] == [False]
    assert [each.overdue for each in films_on(bench, date(2026, 3, 15))] == [True]
    record_film(bench, Film(part="SPAR", since=TODAY), slip(), on=False)
    assert films_on(bench, TODAY) == []
    with pytest.raises(InventoryError, match="still to come"):
        record_film(bench, Film(part="SPAR", since=date(2026, 4, 1)), slip(), on=True)


def test_film_is_recorded_for_the_hand_it_is_on(bench: Bench, slip: Slips) -> None:
    left = Film(part="rib-1", hand=Hand.LEFT, since=TODAY)
    with pytest.raises(InventoryError, match="RIB-1 comes LEFT or RIGHT"):
        record_film(bench, replace(left, hand=Hand.NONE), slip(), on=True)
    record_film(bench, left, slip(), on=True)
    with pytest.raises(InventoryError, match="no film is recorded on RIB-1"):
        record_film(bench, replace(left, hand=Hand.RIGHT), slip(), on=False)
    assert [(each.film.part, each.film.hand) for each in films_on(bench, TODAY)] == [
        ("RIB-1", Hand.LEFT)
    ]
    record_film(bench, left, slip(), on=False)
    assert films_on(bench, TODAY) == []


@pytest.mark.parametrize(("months", "days"), [(601, 0), (0, 18_001)])
def test_life_of_a_slip_of_the_keyboard_is_refused(
    bench: Bench, slip: Slips, months: int, days: int
) -> None:
    def absurd(lot: Lot) -> Lot:
        return replace(lot, shelf=replace(lot.shelf, months=months, open_days=days))

    with pytest.raises(InventoryError, match="can't be"):
        record_lot(bench, "SPAR", "7A", absurd, slip())
    assert lots(bench, TODAY) == []
