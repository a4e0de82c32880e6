"""How a search for a whole plan goes on, step by step."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace

from inventory.core.cutting.columns import Relaxed, relaxed
from inventory.core.cutting.dive import (
    Aim,
    Effort,
    Found,
    _among_known,
    _dived,
    _likely,
    _still_wanted,
    _usable,
    _whole,
    plan_within,
)
from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.model import UNCUT, Pattern, model_of
from inventory.core.planning.workshop import Saw

LOSING = model_of(
    CutJob(
        pieces=(CutPiece(38, 2), CutPiece(28, 4)),
        stock=(CutStock(length=96, price=7),),
        saw=Saw(1, 0),
    )
)
"""Longest first takes three bars (38 + 38, 3 x 28, 28); two suffice."""
TWO_BARS = Counter({Pattern(0, (1, 2)): 2})
HALVES = model_of(
    CutJob(pieces=(CutPiece(50, 5),), stock=(CutStock(length=100, price=1),), saw=Saw(0, 0))
)


def test_what_is_spent_is_no_longer_aimed_at() -> None:
    assert Aim(10, 8).less(3) == Aim(7, 5)


def test_a_plan_that_costs_less_than_the_target_is_within_it() -> None:
    found = plan_within(LOSING, relaxed(LOSING, ()), Aim(3, 3), Effort(5, 1.0))

    assert found.plan is not None
    assert LOSING.cost(found.plan) <= 3


def test_a_plan_of_known_patterns_is_found_at_once() -> None:
    known = relaxed(LOSING, TWO_BARS)
    assert _among_known(LOSING, known, Aim(2, 2), Effort(0, 1.0)) == TWO_BARS


def test_of_patterns_that_hold_no_plan_within_the_target_it_is_certain_that_there_is_none() -> None:
    now = relaxed(LOSING, ())

    assert _whole(LOSING, now, TWO_BARS, Aim(2, 2), Effort(0, 1.0)) == Found(TWO_BARS, 2)
    assert _whole(LOSING, now, [Pattern(0, (2, 0))], Aim(2, 2), Effort(0, 1.0)) == Found(None, 3)
    assert _whole(LOSING, now, [], Aim(2, 2), Effort(0, 1.0)) == Found(None, 3)


def test_a_stick_that_is_there_once_is_cut_once() -> None:
    model = model_of(
        CutJob(
            pieces=(CutPiece(9, 2),),
            stock=(
                CutStock(length=20, price=5),
                CutStock(length=10, quantity=1, owned=Owned.BAR),
            ),
            saw=Saw(0, 0),
        )
    )
    patterns = [Pattern(0, (1,)), Pattern(1, (1,))]
    found = _whole(model, relaxed(model, ()), patterns, Aim(1, 1), Effort(0, 1.0))

    assert found == Found(Counter(patterns), 1)


def test_sticks_are_cut_whole() -> None:
    now = relaxed(HALVES, ())
    found = _whole(HALVES, now, [Pattern(0, (2,))], Aim(3, 3), Effort(0, 1.0))

    assert found == Found(Counter({Pattern(0, (2,)): 3}), 3)


def test_sticks_that_are_kept_hold_no_piece_that_nobody_wants() -> None:
    assert _still_wanted(HALVES, [(Pattern(0, (2,)), 3)]) == Counter(
        {Pattern(0, (2,)): 2, Pattern(0, (1,)): 1}
    )


def test_a_dive_uses_up_one_relaxation_for_each_set_of_sticks_kept() -> None:
    effort = Effort(9, 1.0)
    found = _dived(HALVES, relaxed(HALVES, ()), Aim(3, 3), effort)

    assert found.plan == Counter({Pattern(0, (2,)): 2, Pattern(0, (1,)): 1})
    assert effort.relaxations == 8


def test_the_last_relaxation_and_less_than_a_second_are_still_used() -> None:
    found = _dived(HALVES, relaxed(HALVES, ()), Aim(3, 3), Effort(1, 0.5))
    assert found.plan is not None


def test_sticks_cut_whole_are_kept_first_then_the_nearest_to_one_more() -> None:
    model = model_of(
        CutJob(
            pieces=(CutPiece(50, 3), CutPiece(40, 3)),
            stock=(CutStock(length=100, price=1),),
            saw=Saw(0, 0),
        )
    )
    now = Relaxed(
        (Pattern(0, (1, 0)), Pattern(0, (0, 1)), Pattern(0, (1, 1))),
        (1.2, 0.9, 1.0),
        relaxed(model, ()).duals,
    )

    assert list(_likely(model, now)) == [
        Counter({Pattern(0, (1, 0)): 1, Pattern(0, (1, 1)): 1}),
        Counter({Pattern(0, (0, 1)): 1}),
        Counter({Pattern(0, (1, 0)): 1}),
    ]


def test_only_patterns_of_sticks_that_are_still_there_can_be_used() -> None:
    model = model_of(
        CutJob(
            pieces=(CutPiece(5, 2),),
            stock=(
                CutStock(length=9, quantity=1, owned=Owned.BAR),
                CutStock(length=10, quantity=2, owned=Owned.BAR),
                CutStock(length=11),
            ),
            saw=Saw(0, 0),
        )
    )
    rest = replace(model, there=(0, 1, None), wanted=(1,))
    patterns = [Pattern(UNCUT, (1,)), Pattern(0, (1,)), Pattern(1, (2,)), Pattern(2, (2,))]

    assert _usable(patterns, rest) == [
        Pattern(UNCUT, (1,)),
        Pattern(1, (1,)),
        Pattern(2, (1,)),
    ]
