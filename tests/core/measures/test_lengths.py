from __future__ import annotations

import tomllib
import unicodedata
from fractions import Fraction
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.measures.lengths import INCH, UNITS, parse_length, parse_section, show_length

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "lengths.toml").read_text("utf-8"))


@pytest.mark.parametrize("case", CASES["read"], ids=lambda case: case["text"])
def test_length_reads_exactly(case: dict[str, str]) -> None:
    assert parse_length(case["text"]) == Fraction(case["mm"]) * 1_000_000


@pytest.mark.parametrize("case", CASES["refused"], ids=lambda case: case["text"])
def test_doubtful_length_is_refused_with_words(case: dict[str, str]) -> None:
    with pytest.raises(InventoryError) as refusal:
        parse_length(case["text"])
    assert refusal.value.what == f"{case['text']!r} can't be read as a length: {case['why']}"
    assert refusal.value.remedy == (
        "Write it with its unit, for instance 1830 mm, 6 ft, 6'-0\" or 72-1/2 in"
    )


def test_a_refusal_shows_the_first_forty_signs() -> None:
    with pytest.raises(InventoryError) as refusal:
        parse_length("  " + "1234567890" * 4 + "x ")
    assert (
        refusal.value.what == f"'{'1234567890' * 4}' can't be read as a length: it isn't a length"
    )


@pytest.mark.parametrize("case", CASES["section"], ids=lambda case: case["text"])
def test_section_reads_every_size(case: dict[str, str]) -> None:
    section = parse_section(case["text"])
    assert section.sizes == tuple(Fraction(size) * INCH for size in case["inches"].split())
    assert section.length == Fraction(case["length"]) * INCH


def test_section_with_a_dangling_x_is_refused() -> None:
    with pytest.raises(InventoryError) as refusal:
        parse_section('12" x')
    assert refusal.value.what == (
        "'12\" x' can't be read as a length: a size is missing beside an x"
    )


def test_the_longest_length_is_a_thousand_kilometres() -> None:
    assert parse_length("1000000 m") == 10**15


@pytest.mark.parametrize(
    ("text", "inches"),
    [
        ("1 1/2 in", Fraction(3, 2)),
        ("12 1/2 in", Fraction(25, 2)),
        ("a½", None),
        ("1⁄2 in", Fraction(1, 2)),
        ("3\u00a01/2 in", Fraction(7, 2)),
        ('11.9999"', Fraction(119999, 10000)),
        ("1' 11-63/64\"", Fraction(23) + Fraction(63, 64)),
        ('13"', 13),
        ("0 ft 11 in", 11),
    ],
)
def test_fractions_and_marks_mean_what_they_are_printed_for(
    text: str, inches: Fraction | None
) -> None:
    if inches is None:
        with pytest.raises(InventoryError):
            parse_length(text)
    else:
        assert parse_length(text) == inches * INCH


def test_a_unit_is_fit_for_feet_with_a_fraction_only_without_inches() -> None:
    assert parse_length("4.5 ft") == 54 * INCH
    with pytest.raises(InventoryError):
        parse_length("4.5'")


@pytest.mark.parametrize(
    ("nanometres", "unit", "shown"),
    [
        (1, "mm", "0.000001 mm"),
        (1, "m", "0.000000001 m"),
        (10, "cm", "0.000001 cm"),
        (2540, "in", "0.0001 in"),
        (25_402_540, "in", "1.0001 in"),
        (1270, "in", "0.00127 mm"),
        (0, "ft", "0 in"),
        (304_800_000 + 396_875, "ft", "1 ft 1/64 in"),
        (254_000_000, "in", "10 in"),
        (100 * 25_400_000, "ft", "8 ft 4 in"),
    ],
)
def test_the_smallest_that_can_be_shown(nanometres: int, unit: str, shown: str) -> None:
    assert show_length(nanometres, unit) == shown


def test_lengths_are_shown_in_inches_unless_another_unit_is_asked_for() -> None:
    assert show_length(25_400_000) == "1 in"


def test_number_without_unit_takes_the_unit_of_its_column() -> None:
    assert parse_length("72", unit="in") == 1_828_800_000
    assert parse_length("1/2", unit="ft") == 152_400_000


def test_decimal_comma_reads_where_the_file_says_so() -> None:
    assert parse_length("1,2 m", decimal_comma=True) == 1_200_000_000


@pytest.mark.parametrize(
    ("nanometres", "unit", "shown"),
    [
        (0, "in", "0 in"),
        (1_841_500_000, "in", "72-1/2 in"),
        (1_841_500_000, "ft", "6 ft 1/2 in"),
        (1_828_800_000, "ft", "6 ft"),
        (304_799_999, "ft", "304.799999 mm"),
        (12_700_000, "ft", "1/2 in"),
        (889_000, "in", "0.035 in"),
        (1_830_000_000, "in", "1830 mm"),
        (1_830_000_000, "m", "1.83 m"),
        (305_000_000, "ft", "305 mm"),
    ],
)
def test_length_is_shown_exactly(nanometres: int, unit: str, shown: str) -> None:
    assert show_length(nanometres, unit) == shown


@given(st.integers(0, 10**15), st.sampled_from(sorted(UNITS)))
def test_shown_length_reads_back_the_same(nanometres: int, unit: str) -> None:
    assert parse_length(show_length(nanometres, unit)) == nanometres


@given(st.integers(0, 64 * 12 * 100), st.sampled_from(["in", "ft"]))
def test_sixty_fourths_read_back_the_same(sixty_fourths: int, unit: str) -> None:
    nanometres = sixty_fourths * INCH // 64
    assert parse_length(show_length(nanometres, unit)) == nanometres


@given(st.text(alphabet="0123456789 -/.,'\"ftinmcx½⅛", max_size=12))
def test_reading_a_length_never_fails_but_by_refusal(text: str) -> None:
    try:
        assert parse_length(text) >= 0
    except InventoryError as refusal:
        assert refusal.what  # noqa: PT017


@pytest.mark.parametrize("sign", "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞")
def test_a_fraction_of_one_sign_is_worth_what_unicode_says(sign: str) -> None:
    """Twelve and a bit feet, in inches, so that a third of one is whole in nanometres."""
    part = Fraction(unicodedata.numeric(sign)).limit_denominator(10)
    assert parse_length(f"12{sign} ft") == (12 + part) * 12 * INCH


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("1' 12\"", "there are 12 inches or more after the feet"),
        ("1/0 in", "the fraction is over zero"),
        ("12/00 in", "the fraction is over zero"),
        ("1 1/2' 3\"", "feet with a fraction can be meant as feet and inches"),
    ],
)
def test_a_length_that_may_be_meant_otherwise_is_refused_with_the_reason(
    text: str, why: str
) -> None:
    with pytest.raises(InventoryError) as refused:
        parse_length(text)
    assert refused.value.what.endswith(why)


def test_a_point_behind_the_last_digit_changes_nothing() -> None:
    assert parse_length('5."') == 5 * INCH
