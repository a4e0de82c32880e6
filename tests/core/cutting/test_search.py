"""The parts of the search for cutting plans, each held against trying everything."""

from __future__ import annotations

from collections import Counter
from itertools import product
from typing import TYPE_CHECKING

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.cutting import columns
from inventory.core.cutting import plan as planning
from inventory.core.cutting.columns import Relaxed, relaxed
from inventory.core.cutting.dive import Aim, Effort, Found, _dived, _likely, plan_within
from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.knapsack import FINEST
from inventory.core.cutting.model import Pattern, covers, first_plan, model_of
from inventory.core.cutting.plan import cut_plan, next_cost
from inventory.core.cutting.search import patterns_within
from inventory.core.cutting.tidy import without_surplus
from inventory.core.planning.workshop import Saw
from inventory.core.solver import Between, Column, least
from tests.core.cut_check import faults

if TYPE_CHECKING:
    from inventory.core.cutting.model import CutModel

LOSING = CutJob(
    pieces=(CutPiece(38, 2), CutPiece(28, 4)), stock=(CutStock(length=96, price=7),), saw=Saw(1, 0)
)
"""Longest first takes three bars (38 + 38, 3 x 28, 28); two suffice."""

sizes = st.lists(st.tuples(st.integers(1, 9), st.integers(1, 3)), min_size=1, max_size=4)
jobs = st.builds(
    lambda pieces, owned, sold: CutJob(
        pieces=tuple(CutPiece(*piece) for piece in pieces),
        stock=(
            *(CutStock(length=length, quantity=1, owned=Owned.BAR) for length in owned),
            *(CutStock(length=length, price=price) for length, price in sold.items()),
        ),
        saw=Saw(0, 0),
    ),
    sizes,
    st.lists(st.integers(5, 12), max_size=1),
    st.dictionaries(st.integers(9, 14), st.integers(1, 6), min_size=1, max_size=2),
)


def every_pattern(model: CutModel, stock: int) -> list[tuple[int, ...]]:
    ways = product(*(range(count + 1) for count in model.wanted))
    return [way for way in ways if any(way) and model.used(way) <= model.rooms[stock]]


@settings(deadline=None, max_examples=40)
@given(jobs)
def test_the_relaxed_plan_proves_a_bound_and_leaves_no_pattern_out_that_could_reach_a_target(
    job: CutJob,
) -> None:
    model = model_of(job)
    now = relaxed(model, ())
    best = cut_plan(job)
    target = best.cost // model.cost_step
    kept = patterns_within(model, now.duals, target, 10_000)

    assert now.bound <= target
    assert all(
        now.duals.wasted(model, Pattern(stock, way)) >= 0
        for stock in range(len(model.rooms))
        for way in every_pattern(model, stock)
    )
    assert kept is not None
    used = [model_pattern(model, job, stick.stock, stick.pieces) for stick in best.sticks]
    assert all(any(within(one, other) for other in kept) for one in used)


def model_pattern(
    model: CutModel, job: CutJob, stock: CutStock, pieces: tuple[CutPiece, ...]
) -> Pattern:
    number = next(n for n, places in enumerate(model.places) if job.stock.index(stock) in places)
    lengths = Counter(piece.length for piece in pieces)
    return Pattern(number, tuple(lengths[size] for size in model.sizes))


def within(one: Pattern, other: Pattern) -> bool:
    """Say whether another pattern gives at least the same from the same stock."""
    return one.stock == other.stock and all(
        few <= many for few, many in zip(one.counts, other.counts, strict=True)
    )


def test_more_patterns_than_asked_for_are_none() -> None:
    model = model_of(LOSING)
    duals = relaxed(model, ()).duals

    assert patterns_within(model, duals, 3, 0) is None
    assert patterns_within(model, duals, 0, 0) == []


def test_a_stick_that_is_used_up_gives_no_pattern() -> None:
    model = model_of(
        CutJob(
            pieces=(CutPiece(5, 1),),
            stock=(CutStock(length=9, quantity=0, owned=Owned.BAR), CutStock(length=9)),
            saw=Saw(0, 0),
        )
    )

    assert patterns_within(model, relaxed(model, ()).duals, 1, 9) == [Pattern(1, (1,))]


def test_sizes_too_fine_for_the_table_are_rounded_and_what_does_not_fit_is_mended() -> None:
    # Together they are 48 longer than the bar: less than the table can tell apart.
    job = CutJob(
        pieces=(CutPiece(333_349, 2), CutPiece(333_350, 1)),
        stock=(CutStock(length=25 * FINEST),),
        saw=Saw(0, 0),
    )
    plan = cut_plan(job)

    assert faults(job, plan) == []
    assert (len(plan.sticks), plan.proved) == (2, True)


def test_a_bound_holds_however_few_rounds_were_made(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(columns, "MOST_ROUNDS", 0)
    model = model_of(LOSING)
    now = relaxed(model, ())

    assert 0 < now.bound <= 2
    assert len(now.times) == len(now.patterns)


def test_there_is_no_plan_below_the_bound_and_nothing_to_cut_costs_nothing() -> None:
    model = model_of(LOSING)
    effort = Effort(5, 1.0)
    empty = model.without(first_plan(model))

    assert plan_within(model, relaxed(model, ()), Aim(1, 1), effort) == Found(None, 2)
    assert plan_within(empty, relaxed(empty, ()), Aim(0, 0), effort) == Found(Counter(), 0)


@pytest.mark.parametrize("effort", [Effort(0, 1.0), Effort(5, 0.0)])
def test_the_search_ends_with_its_effort_and_claims_nothing(effort: Effort) -> None:
    model = model_of(LOSING)

    assert _dived(model, relaxed(model, ()), Aim(2, 2), effort) == Found(None, 2)


def test_a_dive_finds_a_plan_without_looking_at_all_patterns() -> None:
    model = model_of(LOSING)
    found = _dived(model, relaxed(model, ()), Aim(2, 2), Effort(9, 1.0))

    assert found.plan is not None
    assert (model.cost(found.plan), covers(model, found.plan)) == (2, True)


def test_where_no_stick_is_cut_whole_the_likeliest_come_first() -> None:
    model = model_of(
        CutJob(pieces=(CutPiece(50, 1), CutPiece(40, 1)), stock=(CutStock(length=100, price=1),))
    )
    half = Relaxed(
        (Pattern(0, (1, 0)), Pattern(0, (0, 1)), Pattern(0, (1, 1))),
        (0.1, 0.3, 0.9),
        relaxed(model, ()).duals,
    )

    assert list(_likely(model, half)) == [
        Counter({Pattern(0, (1, 1)): 1}),
        Counter({Pattern(0, (0, 1)): 1}),
    ]


def test_a_dive_keeps_the_sticks_that_are_cut_whole() -> None:
    model = model_of(
        CutJob(pieces=(CutPiece(50, 5),), stock=(CutStock(length=100, price=1),), saw=Saw(0, 0))
    )
    found = _dived(model, relaxed(model, ()), Aim(3, 3), Effort(9, 1.0))

    assert found.plan == Counter({Pattern(0, (2,)): 2, Pattern(0, (1,)): 1})


def test_a_dive_that_fails_goes_on_with_the_next_likely_stick(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    model = model_of(LOSING)
    ways = [Counter({Pattern(0, (0, 1)): 1}), Counter({Pattern(0, (1, 2)): 1})]
    monkeypatch.setattr("inventory.core.cutting.dive._likely", lambda *_: iter(ways))
    found = _dived(model, relaxed(model, ()), Aim(2, 2), Effort(9, 1.0))

    assert found.plan == Counter({Pattern(0, (1, 2)): 2})


def test_where_too_many_patterns_are_possible_a_dive_is_made(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr("inventory.core.cutting.dive._among_known", lambda *_: None)
    model = model_of(LOSING)
    found = plan_within(model, relaxed(model, ()), Aim(2, 2), Effort(9, 1.0), most=0)

    assert found.plan == Counter({Pattern(0, (1, 2)): 2})


def test_pieces_beyond_what_is_wanted_stay_on_the_stick_with_the_longest_rest() -> None:
    model = model_of(LOSING)
    plan = Counter({Pattern(0, (1, 2)): 2, Pattern(0, (1, 0)): 1, Pattern(0, (0, 1)): 1})

    assert without_surplus(model, plan) == [(0, (1, 2)), (0, (1, 2))]


def test_a_dive_that_leads_nowhere_proves_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("inventory.core.cutting.dive._likely", lambda *_: iter(()))
    model = model_of(LOSING)

    assert _dived(model, relaxed(model, ()), Aim(2, 2), Effort(9, 1.0)).plan is None


def test_where_nothing_is_found_the_first_plan_stands_with_the_bound(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(planning, "plan_within", lambda *_: Found(None, 0))
    monkeypatch.setattr(planning, "tidied", lambda _model, plan, _known: plan)
    plan = cut_plan(LOSING)

    assert faults(LOSING, plan) == []
    assert (plan.cost, plan.bound, plan.proved) == (21, 14, False)


def test_a_cheaper_plan_is_taken_even_if_it_is_not_proved_best(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    better = Counter({Pattern(0, (1, 2)): 2})
    answers = iter([Found(None, 0), Found(better, 0)])
    monkeypatch.setattr(planning, "next_cost", lambda *_: 1)
    monkeypatch.setattr(planning, "plan_within", lambda *_: next(answers, Found(None, 0)))
    plan = cut_plan(LOSING)

    assert (plan.cost, plan.bound, plan.proved) == (14, 7, False)


def test_no_time_still_gives_a_plan() -> None:
    assert faults(LOSING, cut_plan(LOSING, seconds=0)) == []


def test_between_two_sums_of_bars_there_is_no_cost(monkeypatch: pytest.MonkeyPatch) -> None:
    model = model_of(
        CutJob(
            pieces=(CutPiece(5, 4),),
            stock=(
                CutStock(length=9, price=7),
                CutStock(length=19, price=10, quantity=1),
                CutStock(length=9, quantity=1, owned=Owned.BAR),
            ),
            saw=Saw(0, 0),
        )
    )

    assert [next_cost(model, least, 30) for least in (1, 8, 11, 15, 18, 22, 29)] == [
        *(7, 10, 14, 17, 21, 24, 30),
    ]
    monkeypatch.setattr(planning, "_MOST_SUMS", 20)
    assert (next_cost(model, 8, 30), next_cost(model, 31, 30)) == (8, 30)


@pytest.mark.parametrize("many", [0, 1000])
def test_a_program_without_whole_numbers_is_its_own_bound(
    many: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr("inventory.core.solver._MANY", many)
    half = least([Column(cost=1, factors={0: 2.0})], [Between(low=1)], 1.0)

    assert (half.values, half.cost, half.bound, half.proved) == ((0.5,), 0.5, 0.5, True)
