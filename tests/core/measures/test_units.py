from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING, Any

import pint
import pytest

from inventory.core.items import Measure
from inventory.core.measures.units import (
    AMBIGUOUS,
    EACH,
    UNITS,
    Amount,
    amount_of,
    find_unit,
    in_unit,
    meanings,
    unit_by_code,
)

if TYPE_CHECKING:
    from collections.abc import Callable

SMALLEST = {
    Measure.LENGTH: "nanometer",
    Measure.MASS: "nanogram",
    Measure.VOLUME: "picoliter",
    Measure.AREA: "micrometer**2",
}
PINT_NAMES = {
    "foot": "foot",
    "linear foot": "foot",
    "inch": "inch",
    "millimetre": "millimeter",
    "centimetre": "centimeter",
    "metre": "meter",
    "yard": "yard",
    "square foot": "foot**2",
    "square inch": "inch**2",
    "square yard": "yard**2",
    "square metre": "meter**2",
    "pound": "pound",
    "ounce": "ounce",
    "kilogram": "kilogram",
    "gram": "gram",
    "gallon": "gallon",
    "gallon (UK)": "imperial_gallon",
    "quart": "quart",
    "pint": "pint",
    "fluid ounce": "fluid_ounce",
    "millilitre": "milliliter",
    "litre": "liter",
}


@pytest.fixture(scope="module")
def exact() -> Callable[[str, str], Fraction]:
    """Conversions by an independent unit library, in whole fractions."""
    registry: Any = pint.UnitRegistry(non_int_type=Fraction)
    return lambda one, smallest: registry.Quantity(Fraction(1), one).to(smallest).magnitude


@pytest.mark.parametrize("word", PINT_NAMES)
def test_size_agrees_with_an_independent_unit_library(
    word: str, exact: Callable[[str, str], Fraction]
) -> None:
    unit = UNITS[word]
    assert exact(PINT_NAMES[word], SMALLEST[unit.measure]) == unit.size


def test_every_unit_that_is_measured_was_compared() -> None:
    assert {w for w, u in UNITS.items() if u.measure is not Measure.PIECES} == set(PINT_NAMES)


@pytest.mark.parametrize(
    ("printed", "word"),
    [
        ("ea.", "each"),
        ("Pcs", "piece"),
        ("PR", "pair"),
        ("Lbs.", "pound"),
        ("fl oz", "fluid ounce"),
        ("SQ FT", "square foot"),
        ("lin. ft", "foot"),
        ('"', "inch"),
        ("pkg", "package"),
        ("HD", "hundred"),
    ],
)
def test_printed_word_finds_its_unit(printed: str, word: str) -> None:
    assert find_unit(printed) == UNITS[word]


@pytest.mark.parametrize("token", sorted(AMBIGUOUS))
def test_ambiguous_word_is_never_taken_for_one_unit(token: str) -> None:
    assert find_unit(token.lower()) is None
    assert len(meanings(token)) > 1


def test_unknown_word_has_no_unit_and_no_meanings() -> None:
    assert find_unit("furlong") is None
    assert meanings("furlong") == ()


def test_code_in_the_record_finds_its_unit() -> None:
    assert unit_by_code("LBR") == UNITS["pound"]
    assert unit_by_code("XX") is None


def test_half_a_piece_has_no_amount() -> None:
    assert amount_of(Fraction(5, 2), EACH) is None
    assert amount_of(Fraction(5, 2), UNITS["pair"]) == Amount(5)


def test_a_third_of_a_millimetre_is_not_rounded() -> None:
    assert amount_of(Fraction(1, 3), UNITS["millimetre"]) is None


def test_quarter_pound_is_exact() -> None:
    # 453.59237 g / 4 = 113.3980925 g
    assert amount_of(Fraction(1, 4), UNITS["pound"]) == Amount(113_398_092_500)


def test_half_ounce_is_rounded_once_half_to_even_and_marked() -> None:
    # 28.349523125 g / 2 = 14.1747615625 g = 14,174,761,562.5 ng
    half_ounce = amount_of(Fraction(1, 2), UNITS["ounce"])
    assert half_ounce == Amount(14_174_761_562, rounded=True)
    assert in_unit(half_ounce.quantity, UNITS["ounce"]) == Fraction(1, 2)


def test_a_set_is_counted_as_printed() -> None:
    assert UNITS["set"].packed
    assert not EACH.packed
    assert not UNITS["pound"].packed


@pytest.mark.parametrize(
    ("word", "unit"),
    [("Stk/ea", "piece"), ("PR/PAIR", "pair"), ("kg/KGM", "kilogram"), ("FT/IN", ""), ("EA/PR", ""),
     ("M/EA", ""), ("EA/M", ""), ("EA/", ""), ("/ea", "")],
)  # fmt: skip
def test_a_unit_in_two_languages_is_one_where_both_are_of_a_size(word: str, unit: str) -> None:
    found = find_unit(word)
    assert (found.word if found else "") == unit


def test_units_of_pieces_hold_so_many() -> None:
    """A pair is 2, a dozen 12, a gross 12 dozen; a package is counted as it is printed."""
    more = {"pair": 2, "dozen": 12, "gross": 144, "hundred": 100, "thousand": 1000}
    sizes = {word: unit.size for word, unit in UNITS.items() if unit.measure is Measure.PIECES}
    assert sizes == dict.fromkeys(sizes, 1) | more


def test_these_may_hold_many_pieces() -> None:
    packed = "set kit lot stick package box bag roll sheet"
    assert {word for word, unit in UNITS.items() if unit.packed} == set(packed.split())


def test_no_unit_of_measure_is_a_package() -> None:
    assert all(not unit.packed for unit in UNITS.values() if unit.measure is not Measure.PIECES)


def test_a_word_of_several_meanings_is_none_in_two_languages_either() -> None:
    assert [word for word in AMBIGUOUS if find_unit(f"{word}/EA") or find_unit(f"EA/{word}")] == []
