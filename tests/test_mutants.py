"""Small changes of a text, and the list of those that may go unnoticed."""

from __future__ import annotations

import ast
from pathlib import Path

import pytest

from tests.mutants import changed, mutants_in, stay

ROOT = Path(__file__).parents[1]
SOURCE = '''"""What it is."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    NEVER_RUN = 1


def large(size: int = 2) -> bool:
    """Say whether it is large."""
    return not size < 10
'''


def test_each_place_that_runs_is_changed_once_in_each_way() -> None:
    assert [mutant.change for mutant in mutants_in("large.py", SOURCE)] == [
        "2 becomes 3",
        "returns None",
        "not taken away",
        "Lt becomes LtE",
        "Lt becomes Gt",
        "10 becomes 11",
    ]


def test_a_change_is_made_in_its_place_only() -> None:
    told = [
        ast.unparse(changed(SOURCE, mutant)).splitlines()[-1].strip()
        for mutant in mutants_in("large.py", SOURCE)
    ]
    assert told == [
        "return not size < 10",
        "return None",
        "return size < 10",
        "return not size <= 10",
        "return not size > 10",
        "return not size < 11",
    ]


@pytest.mark.parametrize("key", stay(), ids=str)
def test_what_may_stay_is_still_there(key: tuple[str, str, str]) -> None:
    path, _, _ = key
    found = mutants_in(path, (ROOT / path).read_text(encoding="utf-8"))
    assert key in {mutant.key for mutant in found}
