"""Left and right in words, and numbers that say their hand themselves."""

from __future__ import annotations

import re

from inventory.core.items import Hand

_WORDS = {
    Hand.LEFT: "LEFT",
    Hand.RIGHT: "RIGHT",
    Hand.EITHER: "for either side",
    Hand.NONE: "without a hand",
}
_TOKENS = {
    Hand.LEFT: re.compile(r"[-\s/_.]*(?<![A-Z])(?:LH|L|LEFT|PORT)$"),
    Hand.RIGHT: re.compile(r"[-\s/_.]*(?<![A-Z])(?:RH|R|RIGHT|STBD)$"),
}


def hand_in_words(hand: Hand) -> str:
    """Return the hand as a message says it; sides in capitals."""
    return _WORDS[hand]


def stem(part: str, hand: Hand) -> str:
    """Return a handed part's number without the word at its end that repeats its hand.

    Two listed numbers of different hand and equal stem are a pair to look at together. It is
    never used to make the number of the other hand.
    """
    token = _TOKENS.get(hand)
    bare = token.sub("", part) if token else part
    return bare or part
