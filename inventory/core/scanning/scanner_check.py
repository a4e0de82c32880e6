"""The test card: which characters a scanner changes on this computer."""

from __future__ import annotations

from difflib import SequenceMatcher

from inventory.core.frozen import frozen
from inventory.core.scanning.scans import shown, unwrapped


@frozen
class Change:
    """Characters of the card, and what arrived in their place (nothing, where they were lost)."""

    printed: str
    arrived: str

    def __str__(self) -> str:
        """In words: what became of the printed characters."""
        arrived = f"arrives as {shown(self.arrived)}" if self.arrived else "is lost"
        return f"{shown(self.printed)} {arrived}" if self.printed else f"{arrived} by itself"


def check_test_card(expected: str, got: str) -> list[Change]:
    """Return what a scanner made of the test card; an empty list means that it fits.

    `expected` is the card's text, `got` the line that arrived; line end, AIM prefix and Caps Lock
    are forgiven as in any scan. While anything stands in the list, nothing should be scanned.
    """
    _, arrived = unwrapped(got)
    if len(arrived) == len(expected):
        pairs = zip(expected, arrived, strict=True)
        return [Change(printed, came) for printed, came in pairs if printed != came]
    blocks = SequenceMatcher(None, expected, arrived, autojunk=False).get_opcodes()
    return [
        Change(expected[first:last], arrived[start:end])
        for tag, first, last, start, end in blocks
        if tag != "equal"
    ]
