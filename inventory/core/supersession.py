"""Numbers that replace each other on paper: shown with source and condition, decided by people."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import StrEnum
from functools import cache
from typing import TYPE_CHECKING

from inventory.core.hardware import identify
from inventory.core.items import part_key
from inventory.core.kept_tables import kept_rows

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.kept_tables import Row


class ReplacementKind(StrEnum):
    """In what sense one number stands for another."""

    RENUMBERED = "renumbered"
    SUPERSEDED = "superseded"
    CONDITIONAL = "conditional"
    ENGINEERING = "engineering"


_SAME_PART = frozenset({ReplacementKind.RENUMBERED, ReplacementKind.SUPERSEDED})


@dataclass(frozen=True, slots=True, kw_only=True)
class Replacement:
    """One row of the table, as it bears on one number."""

    old: str
    new: str
    """A whole number; empty where only words say what replaces it."""
    words: str
    """The newer number, or what the source says instead."""
    kind: ReplacementKind
    one_way: bool
    """The newer may stand for the older, never the other way."""
    condition: str
    source: str
    checked: bool
    """Read in the source; else from memory: show it as unverified."""

    @property
    def together(self) -> bool:
        """Whether both numbers are one part on paper, by a source that was read."""
        return bool(self.new) and self.kind in _SAME_PART and self.checked


def replacements(part: str) -> tuple[Replacement, ...]:
    """Return every row that bears on a number, whether it is the older or the newer one."""
    number = spelled(part)
    return (*_by_prefix(number), *_by_pair(number), *_by_words(number))


def may_fill(listed: str) -> frozenset[str]:
    """Return the numbers that are the listed part on paper, itself included.

    Only verified renumbered and superseded pairs, and against the arrow only where it isn't one
    way. Even so the person is shown "supplied as ..., listed as ...".
    """
    number = spelled(listed)
    numbers = {number}
    for row in replacements(number):
        if row.together and row.old == number:
            numbers.add(row.new)
        elif row.together and not row.one_way:
            numbers.add(row.old)
    return frozenset(numbers)


def stands_for(supplied: str, listed: str) -> Replacement | None:
    """Return the row by which what came is the listed part on paper; None if there is none."""
    came, wanted = spelled(supplied), spelled(listed)
    if came == wanted or came not in may_fill(wanted):
        return None
    return next(row for row in replacements(wanted) if row.together and came in {row.old, row.new})


def spelled(part: str) -> str:
    """Return a hardware number in the spelling its spellings share, else the part's key."""
    return identify(part).normal or part_key(part)


def _by_prefix(number: str) -> Iterator[Replacement]:
    for row in kept_rows("supersession", "prefix"):
        for mine in (row["old"], row["new"]):
            rest = number.removeprefix(mine)
            if rest not in {number, ""}:
                new = row["new"] + rest
                yield _replacement(row, row["old"] + rest, new, new)


def _by_pair(number: str) -> Iterator[Replacement]:
    for row in kept_rows("supersession", "pair"):
        if number in {row["old"], row["new"]}:
            yield _replacement(row, row["old"], row["new"], row["new"])


def _by_words(number: str) -> Iterator[Replacement]:
    for pattern, row in _worded():
        match = pattern.fullmatch(number)
        low, high = row.get("between", (0, 0))
        if match and (not high or low <= int(match["n"]) <= high):
            yield _replacement(row, number, "", row["to"])


@cache
def _worded() -> tuple[tuple[re.Pattern[str], Row], ...]:
    return tuple((re.compile(row["of"]), row) for row in kept_rows("supersession", "worded"))


def _replacement(row: Row, old: str, new: str, words: str) -> Replacement:
    return Replacement(
        old=old,
        new=new,
        words=words,
        kind=ReplacementKind(row["kind"]),
        one_way=row.get("one_way", False),
        condition=row["condition"],
        source=row["source"],
        checked=row["checked"],
    )
