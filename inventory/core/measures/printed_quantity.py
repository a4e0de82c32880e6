"""What one quantity cell of a packing list says."""

from __future__ import annotations

from enum import StrEnum
from fractions import Fraction

from inventory.core.frozen import frozen


class QuantityKind(StrEnum):
    """What a quantity cell holds."""

    NUMBER = "number"
    BLANK = "blank"
    AS_REQUIRED = "as required"
    REFERENCE = "reference"
    NOTHING = "nothing"
    """A dash, nil, n/a."""
    TICK = "tick"
    """A mark of a hand or a box: never a number."""
    BACK_ORDERED = "back-ordered"
    """A word that says the line is to follow, without a number."""
    UNREADABLE = "unreadable"


@frozen(kw_only=True)
class PrintedQuantity:
    """What one quantity cell says; numbers are of the unit printed, fractions exact."""

    kind: QuantityKind = QuantityKind.NUMBER
    number: Fraction = Fraction(0)
    unit: str = ""
    """The unit's word in the cell; empty where only a number is printed."""
    left: int | None = None
    right: int | None = None
    spare: int = 0
    """Of the number, how many are said to be spare."""
    content: int = 0
    """Pieces in one package, where the number counts what is in the packages."""
    piece_length: int = 0
    """Nanometres of each piece: `2 @ 6 ft`."""
    pieces: int = 0
    """In how many pieces a length comes: `12 FT in 2 pcs`."""
    back_ordered: Fraction | None = None
    """Of the number, how many are to follow: `4 (2 B/O)`."""
    halves: tuple[int, int] | None = None
    """`1/1` or `1+1`: a left and a right where the row is a pair."""
    footnote: str = ""
    """Marks such as * that point to a note."""
    doubt: str = ""
    """Why a person must say what is meant; empty where it is plain."""
