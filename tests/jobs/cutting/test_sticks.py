from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.cutting.job import CutPiece, CutStick, CutStock, Owned
from inventory.core.errors import InventoryError, NotEnoughError, ProblemsError
from inventory.core.items import Hand, Item, State
from inventory.core.measures.money import Price
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.workshop import Saw
from inventory.core.record.ledger import Movement
from inventory.core.scanning.issuing import TooManyError
from inventory.jobs.acts import acting
from inventory.jobs.bench import steps
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.cutting.recording import Cut, cut_movements, record_cut, taken_by_saw
from inventory.jobs.cutting.saw import OwnSaw, keep_saw, own_saw
from inventory.jobs.cutting.sticks import SAW, StickFromBin, cut_plans
from inventory.jobs.planning.buying import keep_offer
from inventory.jobs.planning.planning import take_in_plan
from inventory.store.planning.offers import Offer
from tests.jobs.shelf import bin_, step, stocked, taking, there

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    NewSlip = Callable[..., Slip]

MM = 1_000_000
INCH = 25_400_000
FOUR_FEET = 48 * INCH
CLIP = 75 * MM


def clips(step_code: str, pieces: int, length: int = CLIP) -> Need:
    return Need(
        step=step_code, part="ANGLE", quantity=pieces, length=length, kind=NeedKind.CUT, sheet="S7"
    )


def plan(*needs: Need) -> Plan:
    codes = dict.fromkeys(need.step for need in needs)
    return Plan(
        source="cuts.xlsx",
        sha256="c" * 64,
        steps=tuple(Step(code=code) for code in codes),
        needs=needs,
    )


def with_sticks(bench: Bench, slip: NewSlip, sticks: int, *needs: Need) -> None:
    """Lay sticks of 4 ft into the rack and read a plan that wants pieces of them."""
    take_in_plan(bench, plan(*needs), slip())
    stocked(bench, slip, ("RACK", taking("ANGLE", sticks)))


def test_fifteen_clips_of_75_mm_come_from_four_feet_and_the_sixteenth_is_bought(
    bench: Bench, slip: NewSlip
) -> None:
    # 15 x 75 mm + 14 x 3.175 mm = 1169.45 mm of 1219.2 mm; 16 would take 1247.625 mm. Common
    # practice for small angles, no source.
    with_sticks(bench, slip, 1, clips("20-01", 16))
    (profile,) = cut_plans(bench, ["20-01"], {})
    assert [
        (each.stick.stock.owned, len(each.stick.pieces), each.place) for each in profile.sticks
    ] == [(Owned.BAR, 15, bin_("RACK")), (Owned.TO_BUY, 1, None)]
    assert (profile.plan.proved, profile.plan.cost, profile.uncut) == (True, FOUR_FEET, ())


def test_a_cut_balances_to_the_nanometre(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 16))
    done = record_cut(bench, Cut(asked=Asked(part="ANGLE"), pieces=((CLIP, 10), (CLIP, 5))), slip())
    # The rest of 46.575 mm is shorter than 2 in; 15 cuts of 3.175 mm take 47.625 mm.
    assert (done.remnant, done.by_kerf, done.lost) == (0, 47_625_000, 94_200_000)
    assert taken_by_saw(done.movements) == FOUR_FEET - 15 * CLIP
    assert there(bench, bin_("RACK")) == {Item("ANGLE", length=CLIP): 15}
    assert there(bench, SAW) == {
        Item("ANGLE", length=FOUR_FEET): 1,
        Item("ANGLE", length=CLIP): -15,
    }


def test_a_remnant_stays_in_its_bin_with_its_lot(bench: Bench, slip: NewSlip) -> None:
    take_in_plan(bench, plan(clips("20-01", 4)), slip())
    stocked(bench, slip, ("RACK", taking("ANGLE", 2, lot="H 7")))
    cut = Cut(asked=Asked(part="ANGLE"), sticks=2, pieces=((CLIP, 2),), destination=step("20-01"))
    done = record_cut(bench, cut, slip())
    rest = FOUR_FEET - 2 * CLIP - 2 * 3_175_000
    assert done.remnant == rest
    assert there(bench, bin_("RACK")) == {Item("ANGLE", lot="H 7", length=rest): 2}
    assert there(bench, step("20-01")) == {Item("ANGLE", lot="H 7", length=CLIP): 4}


def test_a_measured_remnant_is_taken_at_its_word(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 1, 40 * INCH))
    cut = Cut(
        asked=Asked(part="ANGLE"),
        pieces=((40 * INCH, 1),),
        remnant=7 * INCH,
        destination=bin_("RACK"),
        remnant_to=bin_("RACK"),
    )
    done = record_cut(bench, cut, slip())
    assert (done.remnant, done.lost, done.by_kerf) == (7 * INCH, INCH, 3_175_000)


@pytest.mark.parametrize(
    ("pieces", "remnant", "words"),
    [
        (((CLIP, 16),), None, "1200 mm together, and 1-7/8 in for the saw, don't come out"),
        (((CLIP, 2),), 42 * INCH + 18 * MM, "don't come out of a stick of 48 in"),
        ((), None, "which pieces were cut"),
    ],
)
def test_what_is_longer_than_the_stick_is_refused_and_nothing_stored(
    bench: Bench, slip: NewSlip, pieces: tuple[tuple[int, int], ...], remnant: int, words: str
) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 16))
    with pytest.raises(InventoryError, match=words):
        record_cut(bench, Cut(asked=Asked(part="ANGLE"), pieces=pieces, remnant=remnant), slip())
    assert there(bench, bin_("RACK")) == {Item("ANGLE", length=FOUR_FEET): 1}


def test_what_has_no_length_is_not_cut(bench: Bench, slip: NewSlip) -> None:
    stocked(bench, slip, ("A", taking("SPAR", 1)))
    with pytest.raises(InventoryError, match="no length is known of this stick"):
        record_cut(bench, Cut(asked=Asked(part="SPAR"), pieces=((CLIP, 1),)), slip())


def test_a_step_gets_no_more_cut_pieces_than_it_asks_for(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 4))
    cut = Cut(asked=Asked(part="ANGLE"), pieces=((CLIP, 5),), destination=step("20-01"))
    with pytest.raises(TooManyError, match="step 20-01 needs 4"):
        record_cut(bench, cut, slip())


def test_a_remnant_is_used_before_a_bar(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 2, clips("20-01", 1, 40 * INCH), clips("20-02", 1))
    record_cut(
        bench,
        Cut(asked=Asked(part="ANGLE"), pieces=((40 * INCH, 1),), destination=step("20-01")),
        slip(),
    )
    (profile,) = cut_plans(bench, [], {})
    assert [each.stick.stock.owned for each in profile.sticks] == [Owned.REMNANT]
    assert [each.stick.stock.length for each in profile.sticks] == [8 * INCH - 3_175_000]


def test_pieces_that_lie_there_are_not_cut_again_nor_cut_up(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 3), clips("20-02", 1, 30 * MM))
    record_cut(bench, Cut(asked=Asked(part="ANGLE"), pieces=((CLIP, 2),), remnant=0), slip())
    (profile,) = cut_plans(bench, [], {})
    assert [
        ([piece.length for piece in each.stick.pieces], each.place) for each in profile.sticks
    ] == [([CLIP, 30 * MM], None)]


def test_worked_sticks_and_those_of_another_hand_are_not_cut(bench: Bench, slip: NewSlip) -> None:
    take_in_plan(bench, plan(clips("20-01", 1)), slip())
    stocked(bench, slip, ("RACK", taking("ANGLE", 1, hand=Hand.LEFT)))
    stick = Item("ANGLE", length=FOUR_FEET, state=State.WORKED)
    with acting(bench, "bin put", slip()) as act:
        act.move([Movement(stick, 1, Place(PlaceKind.MADE), bin_("RACK"))])
    (profile,) = cut_plans(bench, [], {})
    assert [each.place for each in profile.sticks] == [None]


def test_a_length_on_sale_stands_in_for_those_of_the_lists(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 0 + 1, clips("20-01", 16, 100 * MM))
    sold = {"ANGLE": [CutStock(length=1000 * MM, price=9_500_000)]}
    (profile,) = cut_plans(bench, [], sold)
    assert (profile.by_price, profile.plan.cost) == (True, 9_500_000)
    (of_any,) = cut_plans(bench, [], {"": sold["ANGLE"]})
    assert of_any.plan == profile.plan


def test_lengths_on_offer_stand_in_for_those_of_the_lists(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 16, 100 * MM))
    offer = Offer(part="ANGLE", supplier="Heron", length=1000 * MM, price=Price(9_500_000, "EUR"))
    keep_offer(bench, offer, slip())
    keep_offer(bench, replace(offer, supplier="Ibis", price=Price(9_000_000, "EUR")), slip())
    (profile,) = cut_plans(bench, [], {})
    assert (profile.by_price, profile.plan.cost) == (True, 9_000_000)
    dollars = replace(offer, supplier="Jay", length=2000 * MM, price=Price(1_000_000, "USD"))
    keep_offer(bench, dollars, slip())
    (unpriced,) = cut_plans(bench, [], {})
    assert (unpriced.by_price, unpriced.plan.cost) == (False, 1000 * MM)


def test_pieces_longer_than_any_stick_are_named_and_the_rest_is_planned(
    bench: Bench, slip: NewSlip
) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 2), clips("20-02", 1, 49 * INCH))
    (profile,) = cut_plans(bench, [], {})
    assert [(piece.length, piece.quantity) for piece in profile.uncut] == [(49 * INCH, 1)]
    assert (len(profile.sticks), profile.longest) == (1, FOUR_FEET)
    assert profile.needs[profile.uncut[0].name].step == "20-02"


def test_with_nothing_there_and_nothing_on_sale_all_pieces_are_uncut(
    bench: Bench, slip: NewSlip
) -> None:
    need = replace(clips("20-01", 3), part="TUBE")
    take_in_plan(bench, plan(need), slip())
    (profile,) = cut_plans(bench, [], {})
    assert (profile.sticks, profile.longest, profile.uncut[0].quantity) == ((), 0, 3)


def test_a_kerf_as_wide_as_the_piece_is_refused(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 2, 3 * MM))
    with pytest.raises(ProblemsError, match="this can't be cut"):
        cut_plans(bench, [], {})


def test_the_own_saw_is_kept_and_rules_the_netting_too(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 16))
    assert own_saw(bench.store) == OwnSaw()
    keep_saw(bench.store, kerf=1_000_000, least=60 * MM)
    assert own_saw(bench.store) == OwnSaw(Saw(kerf=1_000_000), least_remnant=60 * MM)
    use = steps.use_of(bench, "20-01")  # 16 x 75 mm + 15 mm = 1215 mm
    assert (len(use.cuts), use.missing) == (1, ())


def test_done_cuts_the_pieces_of_the_step_and_keeps_the_remnant(
    bench: Bench, slip: NewSlip
) -> None:
    with_sticks(bench, slip, 2, clips("20-01", 16))
    use = steps.done(bench, "20-01", slip())
    assert sorted(len(cut.stick.pieces) for cut in use.cuts) == [1, 15]
    assert there(bench, step("20-01")) == {Item("ANGLE", length=CLIP): 16}
    rest = FOUR_FEET - CLIP - 3_175_000
    assert there(bench, bin_("RACK")) == {Item("ANGLE", length=rest): 1}


def test_done_names_the_pieces_that_no_stick_gives(bench: Bench, slip: NewSlip) -> None:
    with_sticks(bench, slip, 1, clips("20-01", 16))
    with pytest.raises(NotEnoughError, match="1 of ANGLE"):
        steps.done(bench, "20-01", slip())
    steps.done(bench, "20-01", slip(), short=True)
    assert there(bench, step("20-01")) == {Item("ANGLE", length=CLIP): 15}


@given(
    st.lists(st.integers(20 * MM, 400 * MM), min_size=1, max_size=3),
    st.integers(0, 4 * MM),
    st.integers(0, 30 * MM),
)
def test_stick_is_pieces_and_remnant_and_saw(lengths: list[int], kerf: int, least: int) -> None:
    pieces = tuple(CutPiece(length, 1) for length in lengths)
    stick = CutStick(CutStock(length=FOUR_FEET), pieces, Saw(kerf=kerf))
    bar = Item("ANGLE", length=FOUR_FEET)
    moves = cut_movements(
        StickFromBin(bin_("R"), bar, stick), step("1"), OwnSaw(least_remnant=least)
    )
    out = Counter({move.item.length: move.quantity for move in moves if move.origin == SAW})
    kept = stick.remnant if stick.remnant >= least else 0
    assert sum(length * number for length, number in out.items()) == sum(lengths) + kept
    assert taken_by_saw(moves) == FOUR_FEET - sum(lengths) - kept
