"""The hand of a part as everyone sees it: a word, and a shape of its own."""

from __future__ import annotations

from inventory.core.items import Hand
from labels import Flag, Shape

_FLAGS = {
    Hand.LEFT: Flag("LEFT", Shape.POINTED_LEFT),
    Hand.RIGHT: Flag("RIGHT", Shape.ROUND_RIGHT),
    Hand.EITHER: Flag("EITHER SIDE", Shape.PLAIN),
}


def hand_flag(hand: Hand) -> Flag | None:
    """Return the flag of a hand: pointed for LEFT, round for RIGHT; none where no hand is said."""
    return _FLAGS.get(hand)


def hand_word(hand: Hand) -> str:
    """Return the word that stands on papers and labels; empty where no hand is said."""
    flag = hand_flag(hand)
    return flag.word if flag else ""
