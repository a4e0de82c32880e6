"""Every pattern that a plan of a given cost can hold, held against looking at all of them."""

from __future__ import annotations

from itertools import product

from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.cutting.columns import Duals, relaxed
from inventory.core.cutting.job import CutJob, CutPiece, CutStock, Owned
from inventory.core.cutting.model import CutModel, Pattern, model_of
from inventory.core.cutting.search import patterns_within
from inventory.core.planning.workshop import Saw

jobs = st.builds(
    lambda pieces, owned, sold: CutJob(
        pieces=tuple(CutPiece(*piece) for piece in pieces),
        stock=(
            *(CutStock(length=length, quantity=n, owned=Owned.BAR) for length, n in owned),
            *(CutStock(length=length, price=price) for length, price in sold),
        ),
        saw=Saw(0, 0),
    ),
    st.lists(st.tuples(st.integers(2, 9), st.integers(1, 3)), min_size=1, max_size=3),
    st.lists(st.tuples(st.integers(5, 12), st.integers(0, 2)), max_size=2),
    st.lists(st.tuples(st.integers(9, 14), st.integers(1, 6)), min_size=1, max_size=2),
)


def full_patterns(model: CutModel, duals: Duals, target: int) -> set[Pattern]:
    """Return the patterns with no room for a piece more that waste no more than is to spare."""
    spare = target * duals.grain - duals.total
    found = set()
    for stock, room in enumerate(model.rooms):
        for way in product(*(range(count + 1) for count in model.wanted)):
            left = room - model.used(way)
            more = [
                size
                for size, count, wanted in zip(model.sizes, way, model.wanted, strict=True)
                if count < wanted and size <= left
            ]
            pattern = Pattern(stock, way)
            there = model.there[stock] != 0
            if there and left >= 0 and not more and duals.wasted(model, pattern) <= spare:
                found.add(pattern)
    return found


@settings(deadline=None, max_examples=60)
@given(jobs, st.integers(0, 3))
def test_every_full_pattern_within_the_target_is_found_and_no_other(
    job: CutJob, beyond: int
) -> None:
    model = model_of(job)
    duals = relaxed(model, ()).duals
    target = duals.bound + beyond
    found = patterns_within(model, duals, target, 10_000)

    assert found is not None
    assert len(found) == len(set(found))
    assert set(found) == full_patterns(model, duals, target)


def test_just_as_many_patterns_as_are_allowed_are_found() -> None:
    job = CutJob(
        pieces=(CutPiece(5, 2), CutPiece(3, 2)),
        stock=(CutStock(length=10, price=3), CutStock(length=8, price=2)),
        saw=Saw(0, 0),
    )
    model = model_of(job)
    duals = relaxed(model, ()).duals
    every = full_patterns(model, duals, duals.bound + 2)

    assert {pattern.stock for pattern in every} == {0, 1}
    found = patterns_within(model, duals, duals.bound + 2, len(every))
    assert found is not None
    assert set(found) == every
    assert patterns_within(model, duals, duals.bound + 2, len(every) - 1) is None
