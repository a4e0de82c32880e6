from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.measures.masses import parse_mass, show_mass


@pytest.mark.parametrize(
    ("text", "nanograms"),
    [
        ("61.6 g", 61_600_000_000),
        ("61,6g", 61_600_000_000),
        ("2 kg", 2_000_000_000_000),
        ("500 mg", 500_000_000),
        ("0 g", 0),
        # 16 CFR 500.19: 1 lb = 453.59237 g, 1 oz = 1/16 lb = 28.349523125 g.
        ("1/4 lb", 113_398_092_500),
        ("1 oz", 28_349_523_125),
        ("0.5 OZ.", 14_174_761_562),
    ],
)
def test_mass_is_read_with_its_unit(text: str, nanograms: int) -> None:
    assert parse_mass(text) == nanograms


@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("12", "it has no unit"),
        ("-3 g", "it is no number with a unit"),
        ("g", "it is no number with a unit"),
        ("12 in", "its unit isn't one of mass"),
        ("1,200 g", "the comma can be a decimal comma or part a thousand"),
        ("about 12", "the list itself says about"),
        ("", "it is no number with a unit"),
    ],
)
def test_what_is_no_mass_is_refused_with_the_reason(text: str, why: str) -> None:
    with pytest.raises(InventoryError) as refused:
        parse_mass(text)
    assert refused.value.what == f"{text!r} can't be read as a mass: {why}"
    assert refused.value.remedy == "Write it with its unit, for instance 61.6g, 0.5oz or 1/4lb."


def test_a_refusal_shows_the_first_forty_signs() -> None:
    with pytest.raises(InventoryError) as refused:
        parse_mass(" " + "x" * 41)
    assert refused.value.what.startswith(f"'{'x' * 40}' can't be read")


@pytest.mark.parametrize(
    ("nanograms", "grams"),
    [(0, "0 g"), (1, "0.000000001 g"), (10**9, "1 g"), (28_349_523_125, "28.349523125 g"),
     (10 * 10**9, "10 g"), (1_500_000_000, "1.5 g")],
)  # fmt: skip
def test_mass_is_shown_in_grams(nanograms: int, grams: str) -> None:
    assert show_mass(nanograms) == grams


def test_milligrams_may_be_written_with_a_point() -> None:
    assert parse_mass("1.5MG.") == 1_500_000
    assert parse_mass(" 2 mg ") == 2_000_000


@given(st.integers(min_value=0, max_value=10**15))
def test_mass_shown_is_read_again_as_the_same(nanograms: int) -> None:
    assert parse_mass(show_mass(nanograms).replace(" ", "")) == nanograms
