"""A cutting job as numbers, worked out by hand."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

import pytest

from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.model import (
    UNCUT,
    CutModel,
    Pattern,
    _cheapest,
    _first_fit,
    clipped,
    covers,
    first_plan,
    left_uncut,
    model_of,
)
from inventory.core.cutting.plan import length_bound
from inventory.core.planning.workshop import Saw

JOB = CutJob(
    pieces=(CutPiece(60, 2, "11-01"), CutPiece(40, 1), CutPiece(60, 1, "11-02")),
    stock=(
        CutStock(length=100, quantity=2, owned=Owned.BAR),
        CutStock(length=100, quantity=1, owned=Owned.BAR, name="RACK-2"),
        CutStock(length=120, price=30),
        CutStock(length=200, price=45),
    ),
    saw=Saw(2, 5),
)
MODEL = model_of(JOB)


def test_sizes_hold_the_kerf_and_rooms_a_kerf_more_less_the_trims() -> None:
    # Costs 30 and 45 are 2 and 3 steps of 15; a piece left uncut is dearer than 4 x 3 steps.
    assert (
        CutModel(
            sizes=(62, 42),
            wanted=(3, 1),
            rooms=(97, 117, 197),
            costs=(0, 2, 3),
            there=(3, None, None),
            places=((0, 1), (2,), (3,)),
            owned=(Owned.BAR, Owned.TO_BUY, Owned.TO_BUY),
            cost_step=15,
            uncut_cost=13,
        )
        == MODEL
    )
    assert MODEL.pieces == 4
    assert MODEL.used((1, 2)) == 62 + 2 * 42


def test_of_sticks_alike_one_that_can_be_bought_makes_any_number() -> None:
    stock = (CutStock(length=9, quantity=2, price=1), CutStock(length=9, price=1))
    assert model_of(CutJob(pieces=(CutPiece(5, 1),), stock=stock)).there == (None,)


def test_without_prices_and_lengths_to_buy_a_step_of_cost_is_one() -> None:
    stock = (CutStock(length=9, quantity=2, owned=Owned.BAR),)
    model = model_of(CutJob(pieces=(CutPiece(5, 2),), stock=stock, saw=Saw(0, 0)))
    assert (model.costs, model.cost_step, model.uncut_cost) == ((0,), 1, 1)


def test_a_plan_costs_its_sticks_and_what_it_leaves_uncut() -> None:
    plan = Counter({Pattern(0, (1, 0)): 2, Pattern(2, (1, 1)): 3, Pattern(UNCUT, (0, 1)): 1})
    assert MODEL.cost(plan) == 2 * 0 + 3 * 3 + 13


def test_what_is_cut_is_neither_wanted_nor_there_any_more() -> None:
    rest = MODEL.without(Counter({Pattern(0, (1, 0)): 2, Pattern(1, (1, 1)): 2}))
    assert (rest.wanted, rest.there) == ((0, 0), (1, None, None))


@pytest.mark.parametrize(
    ("plan", "covered"),
    [
        ({Pattern(0, (1, 0)): 3, Pattern(1, (0, 1)): 1}, True),
        ({Pattern(0, (1, 0)): 3}, False),  # the short piece lacks
        ({Pattern(0, (1, 0)): 3, Pattern(UNCUT, (0, 1)): 1}, True),
        ({Pattern(0, (1, 0)): 3, Pattern(0, (0, 1)): 1}, False),  # there are three bars
        ({Pattern(0, (1, 1)): 1, Pattern(1, (1, 0)): 2}, False),  # 104 on 97
        ({Pattern(1, (1, 1)): 1, Pattern(1, (1, 0)): 2}, True),
    ],
)
def test_a_plan_covers_the_job_with_sticks_that_are_there(
    plan: dict[Pattern, int], *, covered: bool
) -> None:
    assert covers(MODEL, Counter(plan)) is covered


def test_a_stick_holds_pieces_up_to_its_very_length() -> None:
    job = replace(JOB, stock=(CutStock(length=105, quantity=9, owned=Owned.BAR),))
    model = model_of(job)  # 105 less 5 and a kerf more: 102 for 62 + 40
    exact = replace(model, sizes=(62, 40))
    assert covers(exact, Counter({Pattern(0, (1, 1)): 1, Pattern(0, (1, 0)): 2}))
    assert first_plan(exact) == Counter({Pattern(0, (1, 1)): 1, Pattern(0, (1, 0)): 2})


def test_longest_first_each_on_the_first_stick_with_room() -> None:
    losing = model_of(
        CutJob(
            pieces=(CutPiece(38, 2), CutPiece(28, 4)),
            stock=(CutStock(length=96, price=7),),
            saw=Saw(1, 0),
        )
    )
    assert first_plan(losing) == Counter(
        {Pattern(0, (2, 0)): 1, Pattern(0, (0, 3)): 1, Pattern(0, (0, 1)): 1}
    )


def test_remnants_come_before_bars_and_these_before_bought_ones_the_shortest_first() -> None:
    def stick(length: int, owned: Owned) -> CutStock:
        return CutStock(length=length, quantity=None if owned is Owned.TO_BUY else 1, owned=owned)

    stock = (
        stick(12, Owned.TO_BUY),
        stick(11, Owned.BAR),
        stick(14, Owned.REMNANT),
        stick(10, Owned.BAR),
        stick(13, Owned.REMNANT),
        stick(9, Owned.REMNANT),
    )
    model = model_of(CutJob(pieces=(CutPiece(10, 5),), stock=stock, saw=Saw(0, 0)))
    assert first_plan(model) == Counter({Pattern(number, (1,)): 1 for number in (4, 2, 3, 1, 0)})


def test_what_no_stick_is_left_for_stays_uncut() -> None:
    stock = (CutStock(length=10, quantity=1, owned=Owned.BAR),)
    job = CutJob(pieces=(CutPiece(9, 1), CutPiece(8, 2)), stock=stock, saw=Saw(0, 0))
    assert first_plan(model_of(job)) == Counter({Pattern(0, (1, 0)): 1, Pattern(UNCUT, (0, 1)): 2})
    assert left_uncut((2, 0, 1)) == Counter(
        {Pattern(UNCUT, (1, 0, 0)): 2, Pattern(UNCUT, (0, 0, 1)): 1}
    )


def test_of_the_lengths_sold_the_cheapest_that_holds_the_pieces_is_bought() -> None:
    job = CutJob(
        pieces=(CutPiece(40, 1), CutPiece(30, 1)),
        stock=(
            CutStock(length=100, price=10),
            CutStock(length=70, price=6),
            CutStock(length=40, price=4),
            CutStock(length=75, price=1, quantity=1),
            CutStock(length=80, quantity=1, owned=Owned.BAR),
        ),
        saw=Saw(0, 0),
    )
    model = model_of(job)

    assert _cheapest(model, 0, (1, 1)) == 1  # just 70; the one offered once is not taken
    assert _cheapest(model, 0, (1, 0)) == 2
    assert _cheapest(model, 4, (1, 0)) == 4  # lies there
    assert _cheapest(model, 3, (2, 0)) == 0
    assert _cheapest(model, 3, (3, 0)) == 3  # none sold holds it
    assert _first_fit(replace(model, there=(None, None, None, 0, 0)), 0) == Counter(
        {Pattern(1, (1, 1)): 1}
    )


def test_of_patterns_only_what_is_still_wanted_is_kept() -> None:
    patterns = [Pattern(0, (2, 1)), Pattern(0, (2, 3)), Pattern(1, (3, 0)), Pattern(UNCUT, (0, 1))]
    assert clipped(patterns, (0, 2)) == {
        Pattern(0, (0, 1)),
        Pattern(0, (0, 2)),
        Pattern(UNCUT, (0, 1)),
    }


def test_the_lengths_alone_say_what_must_be_bought_at_least() -> None:
    # 3 x 62 + 42 = 228 wanted; three bars of 97 hold it, of one bar 131 lack: two steps of 117
    # cost 131 x 2 / 117, rounded up 3, those of 197 cost 131 x 3 / 197, rounded up 2.
    assert length_bound(MODEL) == 0
    assert length_bound(replace(MODEL, there=(1, None, None))) == 2
    assert length_bound(replace(MODEL, there=(1, None, None), rooms=(97, 131, 99))) == 2
    assert length_bound(replace(MODEL, costs=(0, 0, 0))) == 0
