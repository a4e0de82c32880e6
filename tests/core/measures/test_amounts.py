"""Quantities in words; one pound is 453.59237 g exactly (NIST SP 811, appendix B)."""

from __future__ import annotations

import pytest

from inventory.core.items import Measure
from inventory.core.measures.amounts import measured


@pytest.mark.parametrize(
    ("quantity", "measure", "words"),
    [
        (8, Measure.PIECES, "8"),
        (453_592_370_000, Measure.MASS, "453.59237 g"),
        (14_174_761_562, Measure.MASS, "14.174761562 g"),
        (150 * 10**9, Measure.VOLUME, "150 ml"),
        (0, Measure.VOLUME, "0 ml"),
        (10**9 // 2, Measure.VOLUME, "0.5 ml"),
        (1_219_200_000, Measure.LENGTH, "48 in"),
    ],
)
def test_quantity_is_said_in_the_unit_of_its_measure(
    quantity: int, measure: Measure, words: str
) -> None:
    assert measured(quantity, measure) == words
