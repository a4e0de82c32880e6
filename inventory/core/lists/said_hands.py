"""What is said about the hand of a part, and how plainly."""

from __future__ import annotations

from enum import IntEnum

from inventory.core.frozen import frozen
from inventory.core.lists.packing import ListedHand


class Strength(IntEnum):
    """How plainly a hand is said."""

    NOT_SAID = 0
    LETTER = 1
    """A letter L or R at the end of a number (`0412L`): also a length, a colour, a light type."""
    DASH_LETTER = 2
    """`-L`, `-R`: a hand where the list uses both, else perhaps not."""
    WORD = 3
    """LH, RH, LEFT, RIGHT; PORT and STBD in a column."""


@frozen
class SaidHand:
    """The hand that a number, a column or a description says, and how plainly."""

    hand: ListedHand = ListedHand.NONE
    strength: Strength = Strength.NOT_SAID
    token: str = ""
    parts: tuple[str, str] | None = None
    """Left and right number where one number stands for both: `0412-L/R`."""


NOT_SAID = SaidHand()
