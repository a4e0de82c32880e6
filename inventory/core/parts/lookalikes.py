"""Numbers that look like what was typed: questions, never answers."""

from __future__ import annotations

import re
from collections import defaultdict
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, part_key
from inventory.core.parts.hands import stem
from inventory.core.parts.hardware import is_hardware

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

SEPARATORS = frozenset(" -/._+:")
_SEPARATOR = 0.2
_SWAP = 0.7
_OTHER = 1.0
_CONFUSED = {
    frozenset(pair): cost
    for pair, cost in {
        "0O": 0.15, "1I": 0.15, "1L": 0.25, "5S": 0.25, "8B": 0.25, "IL": 0.3, "2Z": 0.3,
        "6G": 0.4, "0Q": 0.4, "OQ": 0.4, "0D": 0.5, "UV": 0.5,
    }.items()
}  # fmt: skip
"""Own weights of pairs that hands and eyes mix up."""
_FOLDED = str.maketrans("OQILSBZG", "00115826")
_ZEROS = re.compile(r"(?<![0-9])0+(?=[0-9])")
_NEAREST = 20
_FARTHEST = 3.0
_VARIANT = re.compile(r"-[0-9]{1,2}")


class Verdict(StrEnum):
    """What may be done with a typed number."""

    TAKEN = "taken"
    """It is on the list as typed, or but for case, dashes and blanks."""
    ASKED = "asked"
    """It is on the list, yet others differ from it only by a hand or a dash number."""
    UNKNOWN = "unknown"
    """It is not on the list; the near ones are questions."""


@frozen
class Lookalike:
    """A number on the list that looks like the typed one."""

    number: str
    distance: float
    """0 for the same; below 1 only pairs that are easily mixed up, and separators."""


@frozen
class Match:
    """What a typed number stands for."""

    verdict: Verdict
    number: str = ""
    """As the list prints it; empty unless taken."""
    near: tuple[Lookalike, ...] = ()
    """Numbers to ask about, the nearest first."""


def match_number(typed: str, numbers: Iterable[str], most: int = 5) -> Match:
    """Return the listed number that was typed, or which ones to ask about.

    Taken only if equal but for case, kinds of dash and blanks, and if the list holds it once.
    Everything nearer or farther is a question: two real numbers can be one character apart.
    """
    by_key: defaultdict[str, list[str]] = defaultdict(list)
    for number in numbers:
        by_key[part_key(number)].append(number)
    key = part_key(typed)
    equal = list(dict.fromkeys(by_key.get(key, ())))
    variants = _variants(key, by_key)
    if equal and (variants or len(equal) > 1):
        asked = [Lookalike(number, 0.0) for number in equal]
        asked += [Lookalike(by_key[other][0], distance(key, other)) for other in variants]
        return Match(Verdict.ASKED, near=tuple(asked))
    if equal:
        return Match(Verdict.TAKEN, equal[0])
    near = near_keys(key, list(by_key), most) if key else []
    found = (Lookalike(by_key[one.number][0], one.distance) for one in near)
    return Match(Verdict.UNKNOWN, near=tuple(found))


def near_keys(key: str, keys: Sequence[str], most: int) -> list[Lookalike]:
    """Return the part keys that look most like one, ranked by our own weights.

    The library rapidfuzz picks the nearest by plain edits; keys that are equal once easily mixed
    characters, separators and leading zeros are evened out are always looked at.
    """
    from rapidfuzz import process  # noqa: PLC0415
    from rapidfuzz.distance import DamerauLevenshtein  # noqa: PLC0415

    picked = process.extract(key, keys, scorer=DamerauLevenshtein.distance, limit=_NEAREST)
    wanted = loose_key(key)
    loose = {other for other in keys if loose_key(other) == wanted}
    others = loose.union(choice for choice, _, _ in picked) - {key}
    found = [Lookalike(other, distance(key, other)) for other in others]
    near = [one for one in found if one.number in loose or one.distance <= _FARTHEST]
    return sorted(near, key=lambda one: (one.number not in loose, one.distance, one.number))[:most]


def loose_key(key: str) -> str:
    """Return a key without separators and leading zeros, mixed-up characters as one.

    For asking only: AN3-15 and AN31-5 share it, and are different parts.
    """
    even = _ZEROS.sub("", key.translate(_FOLDED))
    return "".join(sign for sign in even if sign not in SEPARATORS)


def colliding(numbers: Iterable[str]) -> list[tuple[str, ...]]:
    """Return the groups of a list's numbers that look alike once evened out: warn once, at import.

    Two spellings of one number by `part_key` are no group.
    """
    groups: defaultdict[str, list[str]] = defaultdict(list)
    for key in dict.fromkeys(part_key(number) for number in numbers):
        groups[loose_key(key)].append(key)
    return [tuple(group) for group in groups.values() if len(group) > 1]


def distance(one: str, other: str) -> float:
    """Return how far two keys are apart: 0.15 for O and 0, 0.2 for a separator, 1 for other edits.

    Damerau-Levenshtein with own weights: insert, delete, change, and swap of two neighbours.
    """
    before: list[float] = []
    row = [0.0]
    for sign in other:
        row.append(row[-1] + _missing(sign))
    for place, mine in enumerate(one):
        earlier, before = before, row
        row = [before[0] + _missing(mine)]
        for column, theirs in enumerate(other):
            best = min(
                before[column] + _changed(mine, theirs),
                before[column + 1] + _missing(mine),
                row[column] + _missing(theirs),
            )
            swapped = (
                place and column and one[place - 1 : place + 1] == (theirs + other[column - 1])
            )
            row.append(min(best, earlier[column - 1] + _SWAP) if swapped else best)
    return row[-1]


def _missing(sign: str) -> float:
    return _SEPARATOR if sign in SEPARATORS else _OTHER


def _changed(one: str, other: str) -> float:
    if one == other:
        return 0.0
    if one in SEPARATORS and other in SEPARATORS:
        return _SEPARATOR
    return _CONFUSED.get(frozenset((one, other)), _OTHER)


def _variants(key: str, keys: Iterable[str]) -> list[str]:
    """Return the listed keys that are this one with a hand or a dash number behind it."""
    if not key or is_hardware(key):
        return []
    longer = (other for other in keys if other.startswith(key) and other != key)
    return sorted(
        other
        for other in longer
        if _VARIANT.fullmatch(other[len(key) :])
        or any(stem(other, hand) == key for hand in (Hand.LEFT, Hand.RIGHT))
    )
