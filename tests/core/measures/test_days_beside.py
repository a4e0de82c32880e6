"""A quantity to follow with the day or week beside it."""

from __future__ import annotations

import pytest

from inventory.core.measures.days_beside import without_day


@pytest.mark.parametrize(
    "text",
    ["6 (wk 37)", "6 (KW 12)", "6 v. 24", "6 (do 30.06.2026)", "6 due 4/2026", "6 (2026-06-30)",
     "6 by 30 June", "6 , due 30 June 2026", "6 (sem. 12)", " 6  due 4/2026 "],
)  # fmt: skip
def test_the_day_is_left_off(text: str) -> None:
    assert without_day(text) == "6"


@pytest.mark.parametrize(
    "text", ["6", "6 ea", "6 in 2 pcs", "3 1/2", "2 (100)", "12 x 3", "6 ft 3 in", "due 4/2026", ""]
)
def test_anything_else_stays_as_it_is(text: str) -> None:
    assert without_day(text) == text
