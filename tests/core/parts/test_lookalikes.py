from __future__ import annotations

import tomllib
from itertools import combinations
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import part_key
from inventory.core.parts.lookalikes import (
    Verdict,
    colliding,
    distance,
    loose_key,
    match_number,
    near_keys,
)

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


def test_each_pair_of_signs_is_as_far_apart_as_the_table_says() -> None:
    apart = {
        frozenset(pair): float(far)
        for far, pairs in CASES["mixed_up"].items()
        for pair in pairs.split()
    }
    signs = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ"
    found = {frozenset(pair): distance(*pair) for pair in combinations(signs, 2)}
    assert {pair: far for pair, far in found.items() if far != 1} == apart


@pytest.mark.parametrize("separator", " -/._+:")
def test_a_separator_more_or_another_is_a_fifth(separator: str) -> None:
    assert distance(f"T2{separator}1", "T21") == pytest.approx(0.2)
    assert distance(f"T2{separator}1", "T2,1") == pytest.approx(1.0)
    others = " -/._+:".replace(separator, "")
    assert {distance(f"T2{separator}1", f"T2{other}1") for other in others} == {0.2}


@pytest.mark.parametrize("sign", ["X", ",", "*", "("])
def test_any_other_sign_more_is_one(sign: str) -> None:
    assert distance(f"T2{sign}1", "T21") == 1.0


@pytest.mark.parametrize(("listed", "asked"), [("ABCXYZ", True), ("ABWXYZ", False)])
def test_up_to_three_apart_is_asked_about(listed: str, *, asked: bool) -> None:
    assert bool(match_number("ABCDEF", [listed]).near) is asked


def test_five_are_asked_about_unless_more_are_wanted() -> None:
    listed = [f"T2-10{digit}" for digit in "ABCEFGH"]
    assert len(match_number("T2-10K", listed).near) == 5
    assert len(match_number("T2-10K", listed, most=7).near) == 7


def test_what_is_listed_twice_is_at_no_distance() -> None:
    near = match_number("T2-1", ["T2-1", "t2-1"]).near
    assert [one.distance for one in near] == [0.0, 0.0]


def test_evened_out_numbers_come_before_nearer_ones() -> None:
    """T2-0001 lost its zeros; T2-12 is one sign off, but another number."""
    found = near_keys("T2-1", ["T2-12", "T2-0001", "T21"], most=3)
    assert [one.number for one in found] == ["T21", "T2-0001", "T2-12"]


@pytest.mark.parametrize(
    ("key", "loose"),
    [("AN3-15", "AN315"), ("T2-00O1", "T21"), ("QIL-SBZG", "115826"), ("A-1/0._+: 0", "A100")],
)
def test_a_loose_key_by_hand(key: str, loose: str) -> None:
    assert loose_key(key) == loose
