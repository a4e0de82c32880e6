"""The most valuable packing, held against trying all."""

from __future__ import annotations

from itertools import product

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.cutting.knapsack import Knapsack, lots

sizes = st.lists(st.tuples(st.integers(1, 9), st.integers(1, 3)), min_size=1, max_size=4)


@given(sizes, st.lists(st.integers(0, 20), min_size=4, max_size=4), st.integers(1, 20))
def test_the_most_valuable_packing_is_found(
    items: list[tuple[int, int]], worth: list[int], capacity: int
) -> None:
    values = worth[: len(items)]
    knapsack = Knapsack([size for size, _ in items], [count for _, count in items], capacity, 1)
    packed = knapsack.packed(values)
    best = max(
        sum(value * count for value, count in zip(values, way, strict=True))
        for way in product(*(range(count + 1) for _, count in items))
        if sum(size * count for (size, _), count in zip(items, way, strict=True)) <= capacity
    )
    pieces = packed.pieces(capacity)

    assert packed.value(capacity) == best == knapsack.at_most(values).value(0, capacity)
    for first in range(len(items)):
        of_rest = Knapsack(
            [size for size, _ in items[first:]], [count for _, count in items[first:]], capacity, 1
        )
        assert knapsack.at_most(values).value(first, capacity) == of_rest.packed(
            values[first:]
        ).value(capacity)
    assert sum(value * count for value, count in zip(values, pieces, strict=True)) == best
    assert sum(size * count for (size, _), count in zip(items, pieces, strict=True)) <= capacity


@pytest.mark.parametrize(
    ("count", "split"),
    [
        (0, []),
        (1, [1]),
        (2, [1, 1]),
        (3, [1, 2]),
        (6, [1, 2, 3]),
        (7, [1, 2, 4]),
        (8, [1, 2, 4, 1]),
    ],
)
def test_copies_are_split_so_that_every_number_is_a_sum(count: int, split: list[int]) -> None:
    assert list(lots(count)) == split
