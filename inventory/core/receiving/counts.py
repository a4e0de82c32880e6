"""What a person counted in a crate or bag."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import Hand

if TYPE_CHECKING:
    import datetime as dt

MOST_PIECES = 10_000_000
"""More than this in one count is a slip of the keyboard or the scanner."""


class Method(StrEnum):
    """How the number was found."""

    COUNTED = "counted"
    SCANNED = "scanned"
    WEIGHED = "weighed"
    TAKEN_FROM_LIST = "taken from the list"
    """Nobody counted; the supplier says that the part needn't be."""


class Remark(StrEnum):
    """What holds for all pieces of one count."""

    UNMARKED = "unmarked"
    NO_PAPERS = "no papers"
    DEFECTIVE = "defective"
    """The damaged pieces are badly made, not harmed on the way."""
    DUPLICATE = "duplicate"
    """The pieces over were sent a second time."""
    MEASURED = "identified by measurement"


@frozen(kw_only=True)
class Count:
    """Pieces of one part that one person found in one place, by condition.

    Quantities are pieces, or the smallest unit of the line's measure.
    """

    part: str
    """The part number's key, as `part_key` makes it."""
    hand: Hand = Hand.NONE
    length: int = 0
    """Nanometres of each stock length; 0 where nobody measured."""
    crate: str = ""
    bag: str = ""
    pieces_good: int = 0
    pieces_damaged: int = 0
    pieces_wrong: int = 0
    """Other parts that lay where this one should."""
    about: int = 0
    """The count may be off by this much either way; 0 where it is exact."""
    method: Method = Method.COUNTED
    remarks: frozenset[Remark] = frozenset()
    revision: str = ""
    lot: str = ""
    expires: dt.date | None = None
    instead_of: str = ""
    """Key of the listed part that the papers say this one was sent for."""
    by: str = ""
    on: dt.date | None = None

    def __post_init__(self) -> None:
        """Refuse what no count can be; `read_pieces` refuses before with better words."""
        for pieces in (self.pieces_good, self.pieces_damaged, self.pieces_wrong, self.about):
            if pieces < 0:
                raise ValueError(f"a count is never negative: {pieces}")

    @property
    def pieces_counted(self) -> int:
        """Pieces of the part itself, good or damaged."""
        return self.pieces_good + self.pieces_damaged


def read_pieces(text: str) -> int:
    """Return a typed count as a whole number; refuse anything that isn't plainly one."""
    plain = text.strip()
    if re.fullmatch(r"[0-9]{1,15}", plain) is None:
        raise InventoryError(
            f"{plain[:40]!r} is not a count: {_why_not(plain)}",
            remedy="Type the pieces counted as a whole number, for instance 0 or 12.",
        )
    pieces = int(plain)
    if pieces > MOST_PIECES:
        raise InventoryError(
            f"{pieces} pieces in one count can't be: the most is {MOST_PIECES}",
            remedy="Type the number again; a scanned code may have gone into it.",
        )
    return pieces


def _why_not(plain: str) -> str:
    if not plain:
        return "nothing was typed"
    if re.fullmatch(r"[-\u2212][0-9]+([.,][0-9]+)?", plain):
        return "it is negative"
    if re.fullmatch(r"[0-9]*[.,/][0-9]+", plain):
        return "pieces are whole"
    return "it isn't made of digits alone"
