from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest

from inventory.core.parts.hardware import identify
from inventory.core.parts.hardware_weight import POUND, rivet_mass

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
