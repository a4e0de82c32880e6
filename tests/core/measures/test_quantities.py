from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.measures import quantities
from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.core.measures.quantity_forms import FORMS

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "quantities.toml").read_text("utf-8"))
PLAIN = {
    "unit": "", "left": None, "right": None, "spare": 0, "content": 0, "piece_length": 0,
    "pieces": 0, "back_ordered": None, "halves": None, "footnote": "",
}  # fmt: skip


@pytest.mark.parametrize("case", CASES["number"], ids=lambda case: case["text"])
def test_quantity_says_its_number_and_what_else_is_printed(case: dict[str, Any]) -> None:
    read = parse_quantity(case["text"])
    said = {name: getattr(read, name) for name in PLAIN}
    expected = PLAIN | {key: case[key] for key in PLAIN if key in case}
    if expected["halves"]:
        expected["halves"] = tuple(case["halves"])
    if expected["back_ordered"]:
        expected["back_ordered"] = Fraction(case["back_ordered"])
    assert read.kind is QuantityKind.NUMBER
    assert read.number == Fraction(case["number"])
    assert said == expected
    assert read.doubt == ""


@pytest.mark.parametrize("case", CASES["doubtful"], ids=lambda case: case["text"])
def test_doubtful_quantity_says_why(case: dict[str, str]) -> None:
    read = parse_quantity(case["text"])
    assert read.number == Fraction(case["number"])
    assert read.doubt == case["doubt"]


@pytest.mark.parametrize(("text", "waiting"), [("2 of 4", 2), ("4 of 4", 0), ("5 of 4", 0)])
def test_what_may_be_a_part_delivery_leaves_the_rest_to_follow(text: str, waiting: int) -> None:
    assert parse_quantity(text).back_ordered == waiting


@pytest.mark.parametrize("case", CASES["other"], ids=lambda case: case["text"])
def test_cell_without_a_number_says_what_it_is(case: dict[str, str]) -> None:
    read = parse_quantity(case["text"])
    assert read.kind == case["kind"]
    assert read.number == 0


def test_comma_is_read_as_the_file_says() -> None:
    assert parse_quantity("1,200", decimal_comma=True).number == Fraction(6, 5)
    assert parse_quantity("1,200", decimal_comma=False).number == 1200
    assert parse_quantity("1,200 ea", decimal_comma=False).doubt == ""


@given(st.text(max_size=24))
def test_any_text_reads_as_something_and_never_fails(text: str) -> None:
    read = parse_quantity(text)
    assert read.kind is QuantityKind.NUMBER or read.number == 0


@given(st.integers(0, 10**9))
def test_whole_number_reads_as_itself(number: int) -> None:
    assert parse_quantity(str(number)).number == number


PIECES_OF_TEXT = [
    *("1", "12", "007", "1234567890", ".5", "1.5", "1,200", "1/2", "٣", "²", "-", "x", "(", ")"),
    *(" ", "+", "/", "~", "EA", "LH", "RH", "L", "R", "QTY", "NO.", "FT", "B/O", "TO FOLLOW"),
    *("ABOUT", "OF", "SPARE", "PKG", "IN", "PCS", "RIB", "T2", "é"),
]


@given(st.lists(st.sampled_from(PIECES_OF_TEXT), max_size=6).map("".join))
def test_every_form_tried_on_every_text_says_the_same(text: str) -> None:
    with pytest.MonkeyPatch.context() as patched:
        patched.setattr(quantities, "FORMS_WITHOUT_NUMBER_FIRST", FORMS)
        patched.setattr(quantities, "_LONGEST_BARE", -1)
        expected = parse_quantity(text)
    assert parse_quantity(text) == expected


@pytest.mark.parametrize(
    ("word", "number"),
    [("one", 1), ("Two", 2), ("THREE", 3), ("four", 4), ("five", 5), ("six", 6), ("seven", 7),
     ("eight", 8), ("nine", 9), ("ten", 10)],
)  # fmt: skip
def test_numbers_up_to_ten_may_be_written_out(word: str, number: int) -> None:
    assert parse_quantity(word).number == number
    assert parse_quantity(f"{word} ea").number == number


def test_a_written_number_beyond_ten_is_not_read() -> None:
    assert parse_quantity("eleven").kind is QuantityKind.UNREADABLE


@pytest.mark.parametrize("text", ["3/0", "3/0 LB", "1 1/0", "3/0 LH"])
def test_a_fraction_over_zero_is_not_read(text: str) -> None:
    assert parse_quantity(text).kind is QuantityKind.UNREADABLE
