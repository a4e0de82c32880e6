"""Parts that stand more than once on a list, or under two descriptions."""

from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.core.items import Hand
from inventory.core.lists.listed_twice import listed_twice
from inventory.core.lists.packing import PackingLine

LINE = PackingLine(
    sheet="L", row=2, part="T2-1", printed="T2-1", description="RIB", ordered=2, shipped=2
)
TWICE = "T2-1 is listed in rows 2 and 3: each counts as a line of its own"


def test_a_part_that_is_listed_once_is_not_spoken_of() -> None:
    assert listed_twice([LINE, replace(LINE, row=3, part="T2-2", printed="T2-2")]) == ()


def test_a_part_listed_twice_in_one_place_is_said_with_its_rows() -> None:
    assert listed_twice([LINE, replace(LINE, row=3)]) == (TWICE,)
    assert listed_twice([LINE, replace(LINE, row=3), replace(LINE, row=7)]) == (
        "T2-1 is listed in rows 2, 3 and 7: each counts as a line of its own",
    )


@pytest.mark.parametrize(
    "other",
    [
        replace(LINE, row=3, hand=Hand.LEFT),
        replace(LINE, row=3, length=25_400_000),
        replace(LINE, row=3, crate="2"),
        replace(LINE, row=3, bag="7"),
        replace(LINE, row=3, sub_kit="FLOATS"),
    ],
    ids=["hand", "length", "crate", "bag", "sub-kit"],
)
def test_a_part_that_goes_to_two_places_is_no_case_of_it(other: PackingLine) -> None:
    assert listed_twice([LINE, other]) == ()


def test_two_descriptions_of_one_part_are_set_beside_each_other() -> None:
    other = replace(LINE, row=3, crate="2", description="SPAR")
    assert listed_twice([LINE, other]) == (
        "T2-1 is described as RIB (row 2) and SPAR (row 3): compare them with the plans",
    )


def test_the_sixth_part_is_told_rather_than_counted() -> None:
    lines = [replace(LINE, row=row, part=f"T2-{row // 2}") for row in range(12)]
    assert [words.split()[0] for words in listed_twice(lines)] == [f"T2-{n}" for n in range(6)]


@pytest.mark.parametrize("description", ["  rib ", ""])
def test_blanks_case_and_a_missing_description_are_no_second_one(description: str) -> None:
    assert listed_twice([LINE, replace(LINE, row=3, crate="2", description=description)]) == ()


def test_after_five_parts_the_others_are_counted() -> None:
    lines = [
        replace(LINE, row=10 * part + turn, part=f"T2-{part}")
        for part in range(7)
        for turn in (0, 1)
    ]
    said = listed_twice(lines)
    assert [words.split()[0] for words in said[:5]] == ["T2-0", "T2-1", "T2-2", "T2-3", "T2-4"]
    assert said[5:] == ("... and 2 more such parts",)
    assert len(listed_twice(lines[:10])) == 5


def test_parts_are_told_in_the_order_of_the_list() -> None:
    first, second = LINE, replace(LINE, part="T2-2", row=3)
    said = listed_twice([first, second, replace(second, row=4), replace(first, row=5)])
    assert [words.split()[0] for words in said] == ["T2-1", "T2-2"]


def test_a_second_description_is_found_among_repetitions_of_the_first() -> None:
    ways = ["RIB", "Rib", "SPAR", "RIB", "spar", ""]
    lines = [replace(LINE, row=row, bag=str(row), description=way) for row, way in enumerate(ways)]
    assert listed_twice(lines) == (
        "T2-1 is described as RIB (row 0) and SPAR (row 2): compare them with the plans",
    )


def test_of_many_rows_the_first_are_named_and_the_others_counted() -> None:
    lines = [replace(LINE, row=row) for row in range(1, 7)]
    assert listed_twice(lines[:5])[0].startswith("T2-1 is listed in rows 1, 2, 3, 4 and 5: ")
    assert listed_twice(lines)[0].startswith("T2-1 is listed in rows 1, 2, 3, 4 and 2 more rows: ")


def test_of_many_descriptions_the_first_are_named_and_the_others_counted() -> None:
    lines = [replace(LINE, row=row, bag=str(row), description=f"RIB {row}") for row in range(7)]
    (said,) = listed_twice(lines)
    assert "RIB 3 (row 3) and 3 other ways: compare them" in said
    assert "RIB 4" not in said
