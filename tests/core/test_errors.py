"""How problems and refusals are worded."""

from __future__ import annotations

import pytest

from inventory.core.errors import InventoryError, Problem, ProblemsError, problems_in


def test_a_problem_is_one_line_with_place_and_remedy() -> None:
    problem = Problem("the quantity can't be read", "row 7", "Write a number.")
    assert str(problem) == "row 7: the quantity can't be read. Write a number."


@pytest.mark.parametrize(
    ("count", "words"), [(1, "1 problem"), (2, "2 problems"), (12, "12 problems")]
)
def test_a_file_is_refused_with_the_number_of_its_problems(count: int, words: str) -> None:
    problem = Problem("a", "b", "c")
    refused = problems_in("list.csv", [problem] * count, "Mend the rows.")
    assert str(refused) == refused.what == f"list.csv holds {words}; nothing was stored"
    assert refused.problems == (problem,) * count
    assert (refused.where, refused.remedy) == ("", "Mend the rows.")


def test_a_refusal_says_no_more_than_it_was_given() -> None:
    refused = InventoryError("the bin is full")
    assert (str(refused), refused.what, refused.where, refused.remedy) == (
        "the bin is full",
        "the bin is full",
        "",
        "",
    )
    assert ProblemsError("a", []).remedy == ""
