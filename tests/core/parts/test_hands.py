from __future__ import annotations

import pytest

from inventory.core.items import Hand
from inventory.core.parts.hands import hand_in_words, stem


@pytest.mark.parametrize(
    ("part", "hand", "bare"),
    [
        ("T2-FL-3-LH", Hand.LEFT, "T2-FL-3"),
        ("T2-FL-3-RH", Hand.RIGHT, "T2-FL-3"),
        ("T2-FL-3L", Hand.LEFT, "T2-FL-3"),
        ("T2-FL-3 RIGHT", Hand.RIGHT, "T2-FL-3"),
        ("T2-FL-3-L", Hand.RIGHT, "T2-FL-3-L"),  # another hand's word is part of the number
        ("T2-FL-3-L", Hand.NONE, "T2-FL-3-L"),  # no hand is listed
        ("T2-PANEL", Hand.LEFT, "T2-PANEL"),  # a word that happens to end in L
        ("T2-FL-31", Hand.LEFT, "T2-FL-31"),  # odd says nothing
        ("L", Hand.LEFT, "L"),
    ],
)
def test_stem_drops_only_the_word_of_the_hand_that_is_listed(
    part: str, hand: Hand, bare: str
) -> None:
    assert stem(part, hand) == bare


def test_sides_are_in_capitals() -> None:
    assert [hand_in_words(hand) for hand in Hand] == [
        "LEFT",
        "RIGHT",
        "for either side",
        "without a hand",
    ]
