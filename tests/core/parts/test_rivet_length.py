from __future__ import annotations

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.measures.lengths import INCH
from inventory.core.parts.rivet_length import HALF_SIZE, rivet_length


@pytest.mark.parametrize(
    ("grip", "thirty_seconds", "needed", "printed"),
    [
        # By hand, in inches: grip + 1.5 x diameter, then up to the next 1/32.
        ("0.064", 4, "0.2515", "4.5"),
        ("0.092", 4, "0.2795", "4.5"),
        ("0.040", 3, "0.180625", "3"),
        ("0.057", 3, "0.197625", "3.5"),
        ("0.125", 5, "0.359375", "6"),
        ("0.250", 6, "0.53125", "8.5"),
    ],
)
def test_length_for_a_grip(grip: str, thirty_seconds: int, needed: str, printed: str) -> None:
    found = rivet_length(int(Fraction(grip) * INCH), thirty_seconds * INCH // 32)
    assert found.needed == Fraction(needed) * INCH
    assert str(found) == printed


def test_nearest_is_a_setting() -> None:
    grip = int(Fraction("0.064") * INCH)
    assert str(rivet_length(grip, INCH // 8, nearest=True)) == "4"


@given(st.integers(1, INCH), st.integers(1, 16))
def test_rounded_up_length_is_never_too_short_nor_a_half_size_too_long(
    grip: int, thirty_seconds: int
) -> None:
    found = rivet_length(grip, thirty_seconds * INCH // 32)
    spare = found.code * INCH / 16 - grip - Fraction(3 * thirty_seconds * INCH, 64)
    assert 0 <= spare < HALF_SIZE


@pytest.mark.parametrize(("grip", "diameter"), [(0, 1), (1, 0), (-1, 1)])
def test_nothing_to_clamp_is_refused(grip: int, diameter: int) -> None:
    with pytest.raises(InventoryError) as refused:
        rivet_length(grip, diameter)
    assert refused.value.what == "grip and rivet diameter are above 0"
    assert refused.value.remedy == "Measure the stack of sheets again."


def test_a_nanometre_is_above_0() -> None:
    assert rivet_length(1, 1).code == Fraction(1, 2)
