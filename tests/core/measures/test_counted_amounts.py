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
        ("12", Measure.MASS, "counted by mass"),
        ("1/2 LB", Measure.PIECES, "not a count"),
        ("400 ml", Measure.MASS, "counted by mass"),
        ("some", Measure.VOLUME, "no number with a unit"),
        ("1,200 g", Measure.MASS, "decimal comma"),
        ("1/7 mm", Measure.LENGTH, "no whole number of nanometres"),
    ],
)
def test_what_is_no_amount_is_refused_with_the_reason(
    text: str, measure: Measure, why: str
) -> None:
    with pytest.raises(InventoryError, match=why):
        read_amount(text, measure)


def test_refusal_names_the_unit_of_the_list() -> None:
    with pytest.raises(InventoryError) as refused:
        read_amount("12", Measure.MASS, "LBR")
    assert "as the list does: LBR" in refused.value.remedy


@pytest.mark.parametrize(
    ("text", "unit"),
    [("1/2 LB", True), ("400 ML", True), ("8 oz", True), ("12", False), ("12 ea", False),
     ("2.5", False), ("AR", False), ("", False), ("-3", False)],
)  # fmt: skip
def test_only_a_number_with_a_unit_of_measure_is_an_amount(text: str, *, unit: bool) -> None:
    assert has_unit(text) is unit
