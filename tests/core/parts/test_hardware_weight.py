from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from inventory.core.parts.hardware import identify
from inventory.core.parts.hardware_weight import POUND, MassRange, rivet_mass

CASES = tomllib.loads(Path(__file__).parents[2].joinpath("cases/rivet_mass.toml").read_text())
GRAM = 10**9


@pytest.mark.parametrize("case", CASES["rivet"], ids=lambda case: case["number"])
def test_pieces_to_the_pound(case: dict[str, Any]) -> None:
    mass = rivet_mass(identify(case["number"]))
    assert mass is not None
    few, many = mass.pieces_in(POUND)
    assert few == pytest.approx(case["low"], abs=1)
    assert many == pytest.approx(case["high"], abs=1)


def test_rivet_by_hand() -> None:
    # AD4-5: shank pi/4 x 1/64 x 5/16 = 0.0038350 in3; cap 0.0014078, half ellipsoid 0.0017671;
    # x 0.099 lb/in3 x 453.59237 g = 0.2354 to 0.2516 g.
    mass = rivet_mass(identify("MS20470 AD4-5"))
    assert mass is not None
    assert mass.low == pytest.approx(0.23543 * GRAM, rel=1e-4)
    assert mass.high == pytest.approx(0.25156 * GRAM, rel=1e-4)


def test_ninety_rivets_are_no_half_pound() -> None:
    mass = rivet_mass(identify("MS20470AD4-5"))
    assert mass is not None
    assert mass.doubt(90, POUND // 2) == ("by weight it should be about 901 to 964 pieces, not 90")
    assert mass.doubt(930, POUND // 2) == ""
    assert mass.doubt(1050, POUND // 2) != ""


@pytest.mark.parametrize(
    "number",
    ["MS20470AD7-5", "AN442AD4-5", "AN3-5A", "NAS1097AD3-3.5", "T2-FL-0412", "AN470AD4-5A"],
)
def test_other_hardware_has_no_weight_here(number: str) -> None:
    assert rivet_mass(identify(number)) is None


def test_a_pound_is_exact() -> None:
    assert POUND == 453_592_370_000  # ng; 16 CFR 500.19(a): 453.59237 g


@pytest.mark.parametrize(
    ("pieces", "fits"), [(949, False), (950, True), (1000, True), (1155, True), (1156, False)]
)
def test_a_count_may_be_off_by_a_twentieth(pieces: int, *, fits: bool) -> None:
    """1,000 to 1,100 by weight: 950 is 1,000 less a twentieth, 1,155 is 1,100 and a twentieth."""
    mass = MassRange(low=10, high=11)
    assert mass.pieces_in(11_000) == (1000, 1100)
    assert (mass.doubt(pieces, 11_000) == "") is fits
