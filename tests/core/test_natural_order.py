"""The order in which a person looks for names."""

from __future__ import annotations

from itertools import permutations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.natural_order import natural


@pytest.mark.parametrize(
    "names",
    [
        ["B-2", "B-10", "b-11", "C-1"],
        ["2 OF 3", "10 OF 3", "A"],
        ["A", "a1", "A1B", "A2", "A10"],
        ["7", "07A", "8"],
    ],
)
def test_numbers_in_names_are_compared_as_numbers(names: list[str]) -> None:
    for mixed in permutations(names):
        assert sorted(mixed, key=natural) == names


def test_numbers_come_before_letters_and_nothing_before_all() -> None:
    assert sorted(["A", "1", ""], key=natural) == ["", "1", "A"]


def test_capitals_make_no_difference() -> None:
    assert natural("Bin-07") == natural("bIN-7") != natural("BIN-70")


@given(st.lists(st.integers(0, 10**6)))
def test_whole_numbers_are_in_their_own_order(numbers: list[int]) -> None:
    assert sorted(map(str, numbers), key=natural) == [str(number) for number in sorted(numbers)]
