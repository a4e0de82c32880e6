"""Where pieces can be."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class PlaceKind(StrEnum):
    """The kinds of place; pieces only ever move from one place to another."""

    SUPPLIER = "supplier"
    BOUGHT = "bought"
    MADE = "made"
    OPENING = "opening"
    """Opening stock: what a kit held before it was recorded here."""
    CRATE = "crate"
    BIN = "bin"
    HOLD = "hold"
    STEP = "step"
    SAW = "saw"
    SCRAP = "scrap"
    DIFFERENCE = "difference"
    """What a recount found more or less."""
    RETURNED = "returned"


OUTSIDE = frozenset(
    {
        PlaceKind.SUPPLIER,
        PlaceKind.BOUGHT,
        PlaceKind.MADE,
        PlaceKind.OPENING,
        PlaceKind.SAW,
        PlaceKind.DIFFERENCE,
    }
)
"""Places that may stand below zero: pieces come into the record through them."""


@dataclass(frozen=True, slots=True, order=True)
class Place:
    """One place: `Place(BIN, "B-07")`, `Place(CRATE, "2/B14")`, `Place(STEP, "10-02")`."""

    kind: PlaceKind
    code: str = ""

    def __str__(self) -> str:
        """In words, as a message names it."""
        return f"{self.kind} {self.code}".strip()


def crate_code(crate: str, bag: str = "") -> str:
    """Return the code of a crate, or of a bag in it: `2 OF 3`, `2 OF 3/H1`; `?` if not said."""
    return f"{crate or '?'}/{bag}" if bag else crate or "?"
