from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

import pytest

from inventory.core.items import Measure
from inventory.core.lists.listed_numbers import listed_number, unit_word
from tests.core.received import line

if TYPE_CHECKING:
    from inventory.core.lists.packing import PackingLine

PAINT = replace(line(), measure=Measure.VOLUME, unit="MLT")
RIVETS = replace(line(), measure=Measure.MASS, unit="lb")
STRANGE = replace(line(), measure=Measure.MASS, unit="sacks")


@pytest.mark.parametrize(
    ("listed", "quantity", "number", "word"),
    [
        (PAINT, 6 * 10**12, "6000", "millilitre"),
        # Half a pound: 16 CFR 500.19, 453.59237 g.
        (RIVETS, 226_796_185_000, "1/2", "pound"),
        (line(), 8, "8", "EA"),
        (None, 8, "8", "EA"),
        (STRANGE, 8, "8", "EA"),
    ],
)
def test_quantity_is_a_number_of_the_lists_unit(
    listed: PackingLine | None, quantity: int, number: str, word: str
) -> None:
    assert (listed_number(listed, quantity), unit_word(listed)) == (number, word)
