"""Our own numbers on labels: kit, number, and a character that catches a misread."""

from __future__ import annotations

import re

from inventory.core.frozen import frozen

_ALPHABET = "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ*"
_VALUES = {character: value for value, character in enumerate(_ALPHABET)}
_NEVER_PRINTED = frozenset("*IO")
"""`*` starts and stops Code 39; I and O are read as 1 and 0 by people."""

_KIT = re.compile(r"[0-9A-Z]{2}")
_OWN = re.compile(r"([0-9A-Z]{2})([0-9]{4,9})([0-9A-HJ-NP-Z])")

LARGEST_NUMBER = 999_999_999


@frozen
class OwnId:
    """A number we gave out: to a place, a step, a bag, a part of a hand, or a remnant."""

    kit: str
    """The kit's two-character code."""
    number: int


def check_character(payload: str) -> str:
    """Return the check character of 0-9 and A-Z text; it can be `*`.

    ISO/IEC 7064 MOD 37-2, recursive form: finds every single wrong character and every swap of
    two neighbours. Raises `ValueError` where the text holds another character.
    """
    total = 0
    for character in payload:
        if character not in _VALUES or character == "*":
            raise ValueError(f"{character!r} is not one of 0-9 and A-Z")
        total = (total + _VALUES[character]) * 2 % 37
    return _ALPHABET[(1 - total) % 37]


def own_id(kit_code: str, number: int) -> str:
    """Return kit code, number of at least four digits, and check character.

    Raises `ValueError` for a number that is never given out: use `next_number`.
    """
    payload = _payload(kit_code, number)
    check = check_character(payload)
    if check in _NEVER_PRINTED:
        raise ValueError(f"{number} of kit {kit_code} is never given out: its check is {check}")
    return payload + check


def next_number(kit_code: str, after: int) -> int:
    """Return the first number above `after` that may be given out; begin with `after=0`."""
    number = after + 1
    while check_character(_payload(kit_code, number)) in _NEVER_PRINTED:
        number += 1
    return number


def looks_own(text: str) -> bool:
    """Say whether the text has the shape of a number of ours, be its check right or wrong."""
    return _OWN.fullmatch(text) is not None


def check_own_id(text: str) -> OwnId | None:
    """Return the kit and number the text stands for; None if its shape or check is wrong."""
    match = _OWN.fullmatch(text)
    if match is None or check_character(text[:-1]) != text[-1]:
        return None
    kit, digits, _ = match.groups()
    number = int(digits)
    return OwnId(kit, number) if number and f"{number:04d}" == digits else None


def _payload(kit_code: str, number: int) -> str:
    if _KIT.fullmatch(kit_code) is None:
        raise ValueError(f"a kit's code is two characters of 0-9 and A-Z, not {kit_code!r}")
    if not 1 <= number <= LARGEST_NUMBER:
        raise ValueError(f"a number of ours is 1 to {LARGEST_NUMBER}, not {number}")
    return f"{kit_code}{number:04d}"
