from __future__ import annotations

import pytest

from inventory.core.planning.plan import Need
from inventory.core.planning.revisions import (
    asked_revisions,
    other_revisions,
    revision_problems,
)


def need(step: str, revision: str, part: str = "RIB") -> Need:
    return Need(step=step, part=part, quantity=1, revision=revision, row=7)


def test_each_revision_that_is_asked_for_is_told_with_its_steps() -> None:
    needs = [
        need("10", "B"),
        need("11", ""),
        need("12", "rev. b"),
        need("12", "B"),
        need("13", "C"),
    ]
    assert asked_revisions(needs) == {"B": ("10", "12"), "C": ("13",)}
    assert asked_revisions([need("10", "")]) == {}


@pytest.mark.parametrize(
    ("asked", "there", "other"),
    [
        (["B"], ["B", "b", "Rev B", "REV. B", "Issue B", ""], ()),
        (["B"], ["A", "B", "a", "C"], ("A", "C")),
        (["B", "C"], ["C", "B"], ()),
        ([], ["A"], ()),  # the plans don't say
        (["B"], [""], ()),  # nothing is marked
        (["10"], ["9"], ("9",)),
    ],
)
def test_what_is_there_in_another_revision_is_told(
    asked: list[str], there: list[str], other: tuple[str, ...]
) -> None:
    assert other_revisions(asked, there) == other


def test_a_list_with_another_revision_than_the_plan_is_a_problem_that_says_both() -> None:
    needs = [need("10", "C"), need("11", "C"), need("11", "A", "SPAR"), need("12", "", "SKIN")]
    listed = [("RIB", "B"), ("RIB", "C"), ("SPAR", "A"), ("SKIN", "D")]
    (problem,) = revision_problems(needs, listed)
    assert str(problem.what) == "the plan asks for revision C of RIB, the packing lists have B"
    assert problem.where == "row 7"
    assert "ask the supplier" in problem.remedy
