from __future__ import annotations

from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.items import Hand, Item
from inventory.core.places import Place, PlaceKind
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.place_names import place_named
from inventory.jobs.bench.putting_away import (
    Putting,
    add_bins,
    hold,
    in_bins,
    put,
    recount,
    release,
)
from tests.jobs.shelf import OPENING, bin_, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]


def test_row_of_bins_is_added_at_once(bench: Bench, slip: NewSlip) -> None:
    assert add_bins(bench, ["d-09..d-11", "RACK"], "cabinet", slip()) == [
        "D-09",
        "D-10",
        "D-11",
        "RACK",
    ]
    assert next((place.code, shelf) for place, shelf, _ in in_bins(bench)) == ("D-09", "cabinet")


@pytest.mark.parametrize("name", [
        "B-01..C-09", "B-9..B-1", "..", "", "A/B", "hold", "Bought", "made", "opening", "hold 2",
        "crate 1", "STEP 10-01", "E\x1b[31m", "B\u202e1", 41 * "B",
    ])  # fmt: skip
def test_name_that_is_no_bin_is_refused(bench: Bench, slip: NewSlip, name: str) -> None:
    with pytest.raises(InventoryError, match=r"name of a bin|no row of bins"):
        add_bins(bench, [name], "", slip())


def test_bin_is_added_once(bench: Bench, slip: NewSlip) -> None:
    add_bins(bench, ["D-01"], "", slip())
    with pytest.raises(InventoryError, match="there is a bin D-01 already"):
        add_bins(bench, ["d-01"], "", slip())


def test_pieces_move_from_bin_to_bin(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 3)), ("B", taking("AN3-5A", 1)))
    put(bench, [Putting(taking("SPAR", 2, bin_("A")), "b")], slip())
    assert there(bench, bin_("A")) == {Item("SPAR"): 1}
    assert there(bench, bin_("B")) == {Item("SPAR"): 2, Item("AN3-5A"): 1}


def test_one_bad_row_puts_nothing_away(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 3)), ("B", taking("AN3-5A", 1)))
    rows = [Putting(taking("SPAR", 2, bin_("A")), "B"), Putting(taking("SPAR", 2, bin_("A")), "B")]
    with pytest.raises(NotEnoughError, match="2 of SPAR asked for, 1 in bin A"):
        put(bench, rows, slip())
    assert there(bench, bin_("A")) == {Item("SPAR"): 3}


def test_bin_that_isnt_there_is_refused(bench: Bench, slip: NewSlip) -> None:
    with pytest.raises(NotFoundError, match="there is no bin Z-9"):
        put(bench, [Putting(taking("SPAR", 1), "Z-9")], slip())


def test_no_pieces_are_refused(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 3)))
    with pytest.raises(InventoryError, match="0 pieces can't be moved"):
        put(bench, [Putting(taking("SPAR", 0, bin_("A")), "A")], slip())


def test_lots_in_one_bin_are_told_apart(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5, lot="L1")), ("A", taking("AN3-5A", 5, lot="L2")))
    with pytest.raises(InventoryError, match="several kinds of AN3-5A: 5 lot L1; 5 lot L2"):
        hold(bench, taking("AN3-5A", 1, bin_("A")), slip("why"))


def test_nothing_on_hold_is_in_a_bin_and_release_brings_it_back(
    bench: Bench, slip: NewSlip
) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    hold(bench, taking("AN3-5A", 2, bin_("A")), slip("rolled thread"))
    assert there(bench, bin_("A")) == {Item("AN3-5A"): 3}
    release(
        bench, Putting(taking("AN3-5A", 2, Place(PlaceKind.HOLD, "HOLD")), "A"), slip("mail, 3 May")
    )
    assert there(bench, bin_("A")) == {Item("AN3-5A"): 5}


def test_hold_and_release_want_a_reason(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    with pytest.raises(InventoryError, match="why are they held back"):
        hold(bench, taking("AN3-5A", 2, bin_("A")), slip())
    with pytest.raises(InventoryError, match="who decided it"):
        release(bench, Putting(taking("AN3-5A", 2, bin_("A")), "A"), slip())


@pytest.mark.parametrize(("counted", "moved"), [(3, 2), (7, 2), (5, 0)])
def test_recount_records_the_difference(
    bench: Bench, slip: NewSlip, counted: int, moved: int
) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    moves = recount(bench, "A", [(Asked(part="an3-5a"), counted)], slip())
    assert [move.quantity for move in moves] == ([moved] if moved else [])
    assert there(bench, bin_("A")) == {Item("AN3-5A"): counted}


def test_recount_finds_what_nobody_put_there(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    recount(bench, "A", [(Asked(part="RIB-1", hand=Hand.LEFT), 1)], slip())
    assert there(bench, bin_("A"))[Item("RIB-1", Hand.LEFT)] == 1


def test_recount_of_a_bin_with_two_lots_asks(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5, lot="L1")), ("A", taking("AN3-5A", 5, lot="L2")))
    with pytest.raises(InventoryError, match="several kinds"):
        recount(bench, "A", [(Asked(part="AN3-5A"), 9)], slip())


def test_near_number_is_only_a_question(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    with pytest.raises(NotFoundError, match="no part AN3-SA is known") as refused:
        hold(bench, taking("AN3-SA", 1, bin_("A")), slip("why"))
    assert "Did you mean AN3-5A?" in refused.value.remedy


def test_part_that_lies_elsewhere_is_said(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)), ("B", taking("SPAR", 1)))
    with pytest.raises(NotEnoughError, match="SPAR doesn't lie in bin A") as refused:
        hold(bench, taking("SPAR", 1, bin_("A")), slip("why"))
    assert refused.value.remedy == "It lies in bin B (1 without a hand)."


def test_part_that_is_nowhere_is_said(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    with pytest.raises(NotEnoughError) as refused:
        hold(bench, taking("SPAR", 1, bin_("A")), slip("why"))
    assert refused.value.remedy == "None of it is in the record."


def test_wrong_hand_in_the_bin_is_said(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("RIB-1", 1, hand=Hand.LEFT)))
    with pytest.raises(NotEnoughError, match="RIB-1 RIGHT doesn't lie in bin A") as refused:
        hold(bench, taking("RIB-1", 1, bin_("A"), Hand.RIGHT), slip("why"))
    assert refused.value.remedy == "There lies: 1 LEFT."


@pytest.mark.parametrize(
    ("text", "place"),
    [
        ("a", Place(PlaceKind.BIN, "A")),
        ("hold", Place(PlaceKind.HOLD, "HOLD")),
        ("hold film", Place(PlaceKind.HOLD, "FILM")),
        ("crate 2/h1", Place(PlaceKind.CRATE, "2 OF 2/H1")),
        ("crate 1 of 2", Place(PlaceKind.CRATE, "1 OF 2")),
        ("step 10-02", Place(PlaceKind.STEP, "10-02")),
        ("bought", Place(PlaceKind.BOUGHT)),
        ("made", Place(PlaceKind.MADE)),
        ("opening", Place(PlaceKind.OPENING)),
    ],
)
def test_place_is_named_in_words(bench: Bench, slip: NewSlip, text: str, place: Place) -> None:
    add_bins(bench, ["A"], "", slip())
    assert place_named(bench, text) == place


@pytest.mark.parametrize("text", ["", "Z", "step 99", "crate 7"])
def test_place_nobody_knows_is_refused(bench: Bench, text: str) -> None:
    with pytest.raises(InventoryError):
        place_named(bench, text)


def test_pieces_that_stay_where_they_are_are_refused(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 3)))
    with pytest.raises(InventoryError, match="bin A is where they are taken from"):
        put(bench, [Putting(taking("SPAR", 2, bin_("A")), "a")], slip())
    hold(bench, taking("SPAR", 1, bin_("A")), slip("bent"))
    with pytest.raises(InventoryError, match="hold HOLD is where they are taken from"):
        hold(bench, taking("SPAR", 1, Place(PlaceKind.HOLD, "HOLD")), slip("bent"))


@pytest.mark.parametrize(
    ("pieces", "words"),
    [(0, "0 pieces"), (-3, "it is negative"), (10**8, "can't be"), (10**20, "is not a count")],
)
def test_number_from_outside_that_can_be_no_count_is_refused(
    bench: Bench, slip: NewSlip, pieces: int, words: str
) -> None:
    add_bins(bench, ["A"], "", slip())
    with pytest.raises(InventoryError, match=words):
        put(bench, [Putting(taking("SPAR", pieces), "A")], slip())
    assert there(bench, bin_("A")) == {}


def test_bought_number_that_looks_like_a_known_one_is_asked(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("AN3-5A", 5)))
    with pytest.raises(NotFoundError, match="AN3-6A is known, and it looks like AN3-5A"):
        put(bench, [Putting(taking("AN3-6A", 1), "A")], slip())
    known = Taking(Asked(part="AN3-6A", new=True), 1, OPENING)
    assert put(bench, [Putting(known, "A")], slip())[0].item == Item("AN3-6A")
