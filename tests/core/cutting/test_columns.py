"""The relaxed cutting plan against a linear program over all patterns, solved by scipy."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.optimize import linprog

from inventory.core.cutting.columns import Duals, relaxed
from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.model import UNCUT, CutModel, Pattern, model_of
from inventory.core.planning.workshop import Saw

jobs = st.builds(
    lambda pieces, owned, limited, sold: CutJob(
        pieces=tuple(CutPiece(*piece) for piece in pieces),
        stock=(
            *(CutStock(length=length, quantity=n, owned=Owned.BAR) for length, n in owned),
            *(CutStock(length=length, price=price, quantity=n) for length, price, n in limited),
            *(CutStock(length=length, price=price) for length, price in sold),
        ),
        saw=Saw(0, 0),
    ),
    st.lists(st.tuples(st.integers(2, 9), st.integers(1, 3)), min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(5, 12), st.integers(0, 2)), max_size=2),
    st.lists(st.tuples(st.integers(9, 14), st.integers(1, 6), st.integers(0, 2)), max_size=2),
    st.lists(st.tuples(st.integers(9, 14), st.integers(1, 6)), max_size=2),
)


def least_by_scipy(model: CutModel) -> float:
    """Return the least cost of whole and broken sticks over all patterns there are."""
    ways = list(product(*(range(count + 1) for count in model.wanted)))
    patterns = [
        (stock, way)
        for stock, room in enumerate(model.rooms)
        for way in ways
        if model.used(way) <= room
    ]
    singles = [
        tuple(int(item == other) for other in range(len(model.sizes)))
        for item in range(len(model.sizes))
    ]
    costs = [model.costs[stock] for stock, _ in patterns] + [model.uncut_cost] * len(singles)
    counts = [way for _, way in patterns] + singles
    limits = {stock: there for stock, there in enumerate(model.there) if there is not None}
    enough = [[-count[item] for count in counts] for item in range(len(model.sizes))]
    there = [
        [float(stock == limited) for stock, _ in patterns] + [0.0] * len(singles)
        for limited in limits
    ]
    solved = linprog(
        costs, A_ub=[*enough, *there], b_ub=[*(-count for count in model.wanted), *limits.values()]
    )
    return float(solved.fun)


@settings(deadline=None, max_examples=60)
@given(jobs.filter(lambda job: bool(job.stock)))
def test_the_relaxed_plan_costs_the_least_and_its_bound_says_so(job: CutJob) -> None:
    model = model_of(job)
    now = relaxed(model, ())
    least = least_by_scipy(model)
    cost = sum(
        model.cost_of(pattern) * times
        for pattern, times in zip(now.patterns, now.times, strict=True)
    )

    assert cost == pytest.approx(least, abs=1e-6)
    assert now.duals.total / now.duals.grain == pytest.approx(least, abs=1e-6)
    assert now.duals.total == sum(
        value * wanted for value, wanted in zip(now.duals.values, model.wanted, strict=True)
    ) + sum(
        limit * (there or 0) for limit, there in zip(now.duals.limits, model.there, strict=True)
    )
    assert all(limit <= 0 for limit in now.duals.limits)


def test_what_a_pattern_costs_beyond_its_pieces_is_told_in_grains() -> None:
    # Bars of 10 cost 7, one bar of 10 lies there; two sizes, worth 5 and 3 halves of a step.
    model = model_of(
        CutJob(
            pieces=(CutPiece(6, 2), CutPiece(4, 2)),
            stock=(
                CutStock(length=10, quantity=1, owned=Owned.BAR),
                CutStock(length=10, price=7),
                CutStock(length=12, price=8),
            ),
            saw=Saw(0, 0),
        )
    )
    duals = Duals(values=(5, 3), limits=(-4, 0, 0), total=12, grain=2)

    assert model.costs == (0, 7, 8)
    assert duals.bound == 6
    assert Duals(values=(5, 3), limits=(-4, 0, 0), total=13, grain=2).bound == 7
    assert duals.wasted(model, Pattern(0, (1, 1))) == 0 * 2 + 4 - 8
    assert duals.wasted(model, Pattern(1, (0, 2))) == 7 * 2 - 6
    assert duals.wasted(model, Pattern(2, (1, 1))) == 8 * 2 - 8
    assert duals.wasted(model, Pattern(UNCUT, (1, 0))) == model.uncut_cost * 2 - 5
