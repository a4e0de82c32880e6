"""Left and right by the end of a part number; public standards' hardware is never of a hand."""

from __future__ import annotations

import re

from inventory.core.items import part_key
from inventory.core.lists.packing import ListedHand
from inventory.core.lists.said_hands import NOT_SAID, SaidHand, Strength
from inventory.core.patterns import pattern

_HARDWARE = pattern(
    r"(?:AN[0-9]{3,6}|MS[0-9]{4,6}|NASM?[0-9]{2,5}|AND[0-9]{4,5}|AS[0-9]{3,5}|BAC[A-Z][0-9]{2}"
    r"|CC?R[0-9]{3,4}|DIN ?[0-9]{2,5}|EN ?[0-9]{3,5}|ISO ?[0-9]{3,5}|LN ?[0-9]{4}"
    r"|MIL-[A-Z]-?[0-9]+)(?![0-9]).*"
    r"|(?:K1[0-9]{3}-|M[0-9]{4,5}/).*"
    r"|AN[0-9]{1,2}(?:C|DD|H|CH|DDH)?-?[0-9]{1,2}A?"
)
"""Public standards' numbers, whose L, R, A and H are light, thread, recess, lubricant, drilled.

FAA AC 43.13-1B chapter 7 for AN and MS; the other prefixes are common practice, no source.
"""


def is_standard_hardware(part: str) -> bool:
    """Say whether a number is a public standard's, whose letters never say a hand."""
    return _HARDWARE.fullmatch(part_key(part)) is not None


_SUFFIX_PAIR = pattern(
    r"(?P<base>.*?[A-Z0-9])(?P<gap>[-_ /.]?)\(?(?P<one>LH|RH|L|R|LEFT|RIGHT|LI|RE)\s*"
    r"(?:&|/|\+|,|AND)\s*[-_]?(?P<two>LH|RH|L|R|LEFT|RIGHT|LI|RE)\)?"
)
_SUFFIX_WORD = pattern(
    r".*[A-Z0-9](?:[-_ /.]?\(|[-_ /.])(LH|RH|LEFT|RIGHT|PORT|STBD|LINKS|RECHTS)\)?"
)
_SUFFIX_RUN_IN = pattern(r".*[0-9](LH|RH)")
_SUFFIX_DASH = pattern(r".*[A-Z0-9](?:[-_ /.]\(?|\()([LR])\)?")
_SUFFIX_LETTER = pattern(r".*[0-9]([LR])")
_TWO_DASHES = pattern(
    r"(?P<base>.*?[A-Z0-9])-(?P<one>[0-9]{1,3})\s*(?:&|/|\+|,|AND)\s*-(?P<two>[0-9]{1,3})"
)
_SUFFIXES = (
    (_SUFFIX_WORD, Strength.WORD),
    (_SUFFIX_RUN_IN, Strength.WORD),
    (_SUFFIX_DASH, Strength.DASH_LETTER),
    (_SUFFIX_LETTER, Strength.LETTER),
)


_LAST_SIGNS = frozenset("LRHTDSIE)")
"""What a number that says a hand can end in: L, LH, LEFT, STBD, (LH)."""


def hand_of_number(part: str) -> SaidHand:
    """Return the hand that a part number's end says; never from digits, never of hardware."""
    key = part_key(part).lstrip(". ·•>")
    if key[-1:] not in _LAST_SIGNS or is_standard_hardware(key):
        return NOT_SAID
    pair = _SUFFIX_PAIR.fullmatch(key)
    if pair and pair["one"][0] != pair["two"][0]:
        return _pair_of_numbers(pair)
    for words, strength in _SUFFIXES:
        found = words.fullmatch(key)
        if found:
            left = found[1][0] in "LP"
            hand = ListedHand.LEFT if left else ListedHand.RIGHT
            return SaidHand(hand, strength, found[1])
    return NOT_SAID


def _pair_of_numbers(found: re.Match[str]) -> SaidHand:
    first, second = (f"{found['base']}{found['gap']}{found[side]}" for side in ("one", "two"))
    parts = (first, second) if found["one"].startswith("L") else (second, first)
    token = f"{found['one']}/{found['two']}"
    return SaidHand(ListedHand.PAIR, Strength.WORD, token, parts)


def numbers_of_two_dashes(part: str) -> tuple[str, str] | None:
    """Return both numbers of `0412-1/-2`; which of them is left the digits never say."""
    found = _TWO_DASHES.fullmatch(part_key(part))
    if found is None or is_standard_hardware(found["base"]):
        return None
    return f"{found['base']}-{found['one']}", f"{found['base']}-{found['two']}"


def counterpart(part: str) -> str:
    """Return the number that the other hand would have by its suffix; empty where it has none.

    Used only to look whether the list holds both, never to make a line.
    """
    key = part_key(part)
    swapped = {"LH": "RH", "RH": "LH", "LEFT": "RIGHT", "RIGHT": "LEFT", "L": "R", "R": "L"}
    found = re.fullmatch(r"(.*[^A-Z])(LH|RH|LEFT|RIGHT|L|R)(\)?)", key)
    return f"{found[1]}{swapped[found[2]]}{found[3]}" if found else ""
