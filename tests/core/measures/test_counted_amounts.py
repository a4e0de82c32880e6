from __future__ import annotations

import pytest

from inventory.core.errors import InventoryError
from inventory.core.items import Measure
from inventory.core.measures.counted_amounts import has_unit, read_amount


@pytest.mark.parametrize(
    ("text", "measure", "quantity"),
    [
        ("12", Measure.PIECES, 12),
        # 16 CFR 500.19: 1 lb = 453.59237 g, exactly.
        ("1/2 LB", Measure.MASS, 226_796_185_000),
        ("8 oz", Measure.MASS, 226_796_185_000),
        ("400 ml", Measure.VOLUME, 400_000_000_000),
        ("2 L", Measure.VOLUME, 2_000_000_000_000),
        ("6 FT", Measure.LENGTH, 1_828_800_000),
        ("0 g", Measure.MASS, 0),
    ],
)
def test_count_is_read_in_the_parts_own_measure(text: str, measure: Measure, quantity: int) -> None:
    assert read_amount(text, measure) == quantity


@pytest.mark.parametrize(
    ("text", "measure", "why"),
    [
        ("12", Measure.MASS, "the part is counted by mass"),
        ("400 ml", Measure.MASS, "the part is counted by mass"),
        ("400 g", Measure.VOLUME, "the part is counted by volume"),
        ("some", Measure.VOLUME, "it is no number with a unit"),
        ("-3 g", Measure.MASS, "it is no number with a unit"),
        ("1,200 g", Measure.MASS, "the comma can be a decimal comma or part a thousand"),
        ("1/7 mm", Measure.LENGTH, "it is no whole number of nanometres"),
    ],
)
def test_what_is_no_amount_is_refused_with_the_reason(
    text: str, measure: Measure, why: str
) -> None:
    with pytest.raises(InventoryError) as refused:
        read_amount(text, measure)
    assert refused.value.what == f"{text!r} is not a count: {why}"
    assert refused.value.remedy == "Write it with its unit; for instance 1/2 LB or 400 ML."


def test_a_mass_is_no_count_of_pieces() -> None:
    with pytest.raises(InventoryError, match="not a count"):
        read_amount("1/2 LB", Measure.PIECES)


def test_a_refusal_shows_the_first_forty_signs() -> None:
    with pytest.raises(InventoryError) as refused:
        read_amount(" " + "x" * 41, Measure.MASS)
    assert refused.value.what.startswith(f"'{'x' * 40}' is not a count: ")


def test_refusal_names_the_unit_of_the_list() -> None:
    with pytest.raises(InventoryError) as refused:
        read_amount("12", Measure.MASS, "LBR")
    assert refused.value.remedy == (
        "Write it with its unit, as the list does: LBR; for instance 1/2 LB or 400 ML."
    )


@pytest.mark.parametrize(
    ("text", "unit"),
    [("1/2 LB", True), ("400 ML", True), ("8 oz", True), ("12", False), ("12 ea", False),
     ("2.5", False), ("AR", False), ("", False), ("-3", False)],
)  # fmt: skip
def test_only_a_number_with_a_unit_of_measure_is_an_amount(text: str, *, unit: bool) -> None:
    assert has_unit(text) is unit
