from __future__ import annotations

import pytest

from inventory.core.counted import counted


@pytest.mark.parametrize(
    ("number", "word", "told"),
    [
        (0, "line", "0 lines"),
        (1, "line", "1 line"),
        (2, "line", "2 lines"),
        (1, "box", "1 box"),
        (3, "box", "3 boxes"),
        (2, "glass", "2 glasses"),
        (5, "batch", "5 batches"),
    ],
)
def test_a_count_stands_with_its_noun(number: int, word: str, told: str) -> None:
    assert counted(number, word) == told
