from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import part_key
from inventory.core.parts.lookalikes import Verdict, colliding, distance, loose_key, match_number

CASES = tomllib.loads(
    Path(__file__).parents[2].joinpath("cases/lookalikes.toml").read_text(encoding="utf-8")
)
numbers = st.text(st.sampled_from("AN0O1I35SL-. "), min_size=1, max_size=8)


@pytest.mark.parametrize("case", CASES["typed"], ids=lambda case: case["text"] or "nothing")
def test_typed_number(case: dict[str, Any]) -> None:
    match = match_number(case["text"], CASES["list"])
    assert match.verdict == case["verdict"]
    assert match.number == case.get("number", "")
    asked = case.get("near", [])
    assert [one.number for one in match.near][: len(asked)] == asked
    assert bool(match.near) is bool(asked)
    assert match.near[:1] == () or match.near[0].distance == pytest.approx(
        case.get("distance", match.near[0].distance)
    )


def test_number_that_the_list_prints_in_two_ways_is_asked() -> None:
    match = match_number("T2-1", ["T2-1", "t2-1", "T2-9"])
    assert match.verdict is Verdict.ASKED
    assert [one.number for one in match.near] == ["T2-1", "t2-1"]


def test_same_number_on_two_lines_is_one_number() -> None:
    assert match_number("T2-1", ["T2-1", "T2-1"]).number == "T2-1"


def test_hands_alone_on_the_list_are_asked_for() -> None:
    match = match_number("F-1204", ["F-1204-LH", "F-1204-RH", "G-9"])
    assert match.verdict is Verdict.UNKNOWN
    assert [one.number for one in match.near] == ["F-1204-LH", "F-1204-RH"]


def test_empty_list_knows_nothing() -> None:
    assert match_number("T2-1", []) == match_number("", [])


@pytest.mark.parametrize(
    ("one", "other", "apart"),
    [
        ("AN3-10A", "AN3-10A", 0.0),
        ("AN3-1OA", "AN3-10A", 0.15),
        ("AN310A", "AN3-10A", 0.2),
        ("AN13-10", "AN31-10", 0.7),
        ("AN3-10A", "AN3-11A", 1.0),
        ("AN3-10A", "AN3-10", 1.0),
        ("A-123", "A-00123", 2.0),
        ("A-O0123-L", "A-00132-L", 0.85),
        ("AN43-A", "AN4-3A", 0.4),
        ("", "A-", 1.2),
    ],
)
def test_distance_by_hand(one: str, other: str, apart: float) -> None:
    assert distance(one, other) == pytest.approx(apart)
    assert distance(other, one) == pytest.approx(apart)


def test_numbers_that_collide_once_evened_out_are_grouped() -> None:
    printed = ["AN3-15", "an3-15", "AN31-5", "AN3-16", "T2-O1", "T2-01", "T2-1", "X"]
    assert colliding(printed) == [("AN3-15", "AN31-5"), ("T2-O1", "T2-01", "T2-1")]


def test_loose_key_never_decides() -> None:
    assert loose_key("AN3-15") == loose_key("AN31-5")
    assert match_number("AN3-15", ["AN31-5"]).verdict is Verdict.UNKNOWN


@given(numbers, st.lists(numbers, max_size=8))
def test_only_an_equal_key_is_ever_taken(typed: str, listed: list[str]) -> None:
    match = match_number(typed, listed)
    assert match.verdict is not Verdict.TAKEN or part_key(match.number) == part_key(typed)
    assert (match.verdict is Verdict.TAKEN) is bool(match.number)


@given(numbers, numbers, numbers)
def test_distance_is_symmetric_and_zero_only_for_the_same(one: str, other: str, third: str) -> None:
    assert distance(one, other) == pytest.approx(distance(other, one))
    assert (distance(one, other) == 0) is (one == other)
    assert distance(one, third) <= len(one) + len(third)
