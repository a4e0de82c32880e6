"""What a list says about left and right: only its own explicit tokens, hardware excluded first."""

from __future__ import annotations

import re

from inventory.core.items import Hand
from inventory.core.lists.hands_abroad import (
    AND,
    LEFT_BESIDE,
    LEFT_WORDS,
    OR,
    RIGHT_BESIDE,
    RIGHT_WORDS,
    STEMS,
)
from inventory.core.lists.packing import ListedHand
from inventory.core.lists.said_hands import NOT_SAID, SaidHand, Strength
from inventory.core.patterns import pattern

_L, _R = r"(?:LH|L/H|L\.H\.?|LHS|LEFT|PORT)", r"(?:RH|R/H|R\.H\.?|RHS|RIGHT|STBD|STARBOARD)"
_JOIN = rf"(?:\s*(?:&|/|\+|,)\s*|\s+(?:AND|{AND})\s+)"
_LEFT_ABROAD = rf"(?:{LEFT_WORDS}|{LEFT_BESIDE}|LI|G|GCHE|BB)\.?"
_RIGHT_ABROAD = rf"(?:{RIGHT_WORDS}|{RIGHT_BESIDE}|RE|D|DTE|DER|DIR|STB)\.?"
"""In a column for the hand, where each cell says nothing else."""
_COLUMN = {
    ListedHand.LEFT: rf"{_L}|L\.?|LT|LEFT[- ]?HAND(?:ED)?|LH SIDE|LEFT SIDE|L SIDE"
    rf"|{_LEFT_ABROAD}",
    ListedHand.RIGHT: rf"{_R}|R\.?|RT|RIGHT[- ]?HAND(?:ED)?|RH SIDE|RIGHT SIDE|R SIDE"
    rf"|{_RIGHT_ABROAD}",
    ListedHand.PAIR: rf"(?:{_L}|L|LT){_JOIN}(?:{_R}|R|RT)|(?:{_R}|R|RT){_JOIN}(?:{_L}|L|LT)"
    rf"|(?:{_LEFT_ABROAD}){_JOIN}(?:{_RIGHT_ABROAD})|(?:{_RIGHT_ABROAD}){_JOIN}(?:{_LEFT_ABROAD})"
    r"|PAIRS?|PRS?\.?|LR|L-R|LH-RH|1L ?1R|HANDED PAIR",
    ListedHand.EITHER: r"EITHER(?: SIDE| HAND)?|UNIV(?:ERSAL)?"
    r"|(?:FITS? |FOR |USED? (?:ON|FOR) )?L(?:H|EFT)? OR R(?:H|IGHT)?"
    rf"|(?:{_LEFT_ABROAD}) (?:{OR}) (?:{_RIGHT_ABROAD})"
    r"|ANY|AMBI(?:DEXTROUS)?|FITS BOTH(?: SIDES)?|INTERCHANGEABLE",
    ListedHand.NONE: r"-+|NONE|N/?A|NO|NEUTRAL|N|SYM(?:METRIC(?:AL)?)?|CENT(?:RE|ER)|C|CL|CTR"
    r"|NOT HANDED|NON[- ]?HANDED|COMMON|\.",
}
_COLUMN_WORDS = [(hand, pattern(words, re.IGNORECASE)) for hand, words in _COLUMN.items()]


def hand_of_column(text: str) -> SaidHand | None:
    """Return what a cell of a hand column says; None where it isn't understood."""
    plain = " ".join(text.split()).strip("() ")
    if not plain:
        return NOT_SAID
    for hand, words in _COLUMN_WORDS:
        if words.fullmatch(plain):
            return SaidHand(hand, Strength.WORD, plain)
    return None


_WORD_LEFT = r"(?:L\.H\.?|L/H|LHS?|LEFT)"
_WORD_RIGHT = r"(?:R\.H\.?|R/H|RHS?|RIGHT)"
_HANDED = r"(?:[- ]?HAND(?:ED)?)?"
_BOTH = r"\s*(?:&|/|\+|,|AND)\s*"
_NOT_A_HAND = pattern(
    rf"(?<![A-Z0-9])(?:{_WORD_LEFT}|{_WORD_RIGHT}){_HANDED}[- ]*"
    r"(?:THREADS?|THREADED|THD|THR|TWIST|HELIX|CUT|ANGLED?|TURN)\b"
    rf"|\b(?:THREADS?|THD)[ ,:]*(?:{_WORD_LEFT}|{_WORD_RIGHT})(?![A-Z0-9])"
)
"""Hands of threads and angles, not of the part."""
_EITHER = pattern(
    rf"(?<![A-Z0-9]){_WORD_LEFT}{_HANDED} OR {_WORD_RIGHT}(?![A-Z0-9])"
    rf"|(?<![A-Z0-9]){_WORD_RIGHT}{_HANDED} OR {_WORD_LEFT}(?![A-Z0-9])"
    r"|\bL OR R\b|\bEITHER (?:SIDE|HAND)|\bFITS (?:BOTH|EITHER)|\bINTERCHANGEABLE L"
)
_PAIR = pattern(
    rf"(?<![A-Z0-9]){_WORD_LEFT}{_HANDED}{_BOTH}{_WORD_RIGHT}(?![A-Z0-9])"
    rf"|(?<![A-Z0-9]){_WORD_RIGHT}{_HANDED}{_BOTH}{_WORD_LEFT}(?![A-Z0-9])"
    r"|(?<![A-Z])L\s*[&/+]\s*[0-9]*\s*R(?![A-Z0-9])|(?<![A-Z])R\s*[&/+]\s*[0-9]*\s*L(?![A-Z0-9])"
    r"|\bPORT\s*(?:&|/|\+|AND)\s*(?:STBD|STARBOARD)\b"
)
_LEFT = pattern(rf"(?<![A-Z0-9]){_WORD_LEFT}(?![A-Z0-9])")
_RIGHT = pattern(rf"(?<![A-Z0-9])(?:{_WORD_RIGHT}|STBD|STARBOARD)(?![A-Z0-9])")
_PORT = pattern(r"(?<![A-Z0-9])PORT(?![A-Z0-9])")
_NOT_A_SIDE = pattern(
    r"(?:FUEL|STATIC|DRAIN|INSPECTION|EXHAUST|INTAKE|VENT|ACCESS|PRESSURE|VACUUM|OIL|USB|TEST"
    r"|FILLER|INLET|OUTLET|BREATHER|SENSOR|CHARGING|COOLANT|AIR) PORT"
)
_LEFT_ABROAD_TEXT = pattern(rf"\b(?:{LEFT_WORDS})\b")
_RIGHT_ABROAD_TEXT = pattern(rf"\b(?:{RIGHT_WORDS})\b")
_LEFT_BESIDE = pattern(rf"\b(?:{LEFT_BESIDE})\b")
_RIGHT_BESIDE = pattern(rf"\b(?:{RIGHT_BESIDE})(?![A-Z0-9])")
_ANY_LEFT = rf"(?:{_WORD_LEFT}{_HANDED}|{LEFT_WORDS}|{LEFT_BESIDE})(?![A-Z0-9])\.?"
_ANY_RIGHT = rf"(?:{_WORD_RIGHT}{_HANDED}|{RIGHT_WORDS}|{RIGHT_BESIDE})(?![A-Z0-9])\.?"
_OR_BETWEEN = pattern(
    rf"\b(?:{_ANY_LEFT}\s(?:{OR})\s{_ANY_RIGHT}|{_ANY_RIGHT}\s(?:{OR})\s{_ANY_LEFT})"
)
_AND_BETWEEN = pattern(rf"\b(?:{_ANY_LEFT}{_JOIN}{_ANY_RIGHT}|{_ANY_RIGHT}{_JOIN}{_ANY_LEFT})")
_NUMBER = r"([0-9]{1,4})\s*X?\s*"
_EACH_SIDE = (
    pattern(rf"(?<![0-9A-Z-]){_NUMBER}{_ANY_LEFT}(?:{_JOIN}|\s+){_NUMBER}{_ANY_RIGHT}"),
    pattern(rf"(?<![0-9A-Z-]){_NUMBER}{_ANY_RIGHT}(?:{_JOIN}|\s+){_NUMBER}{_ANY_LEFT}"),
)
"""How many are left and how many right, said in words: 3 LH + 3 RH, (4 izq. + 4 dcha.)."""
_OPPOSITE = pattern(r"\b(?:OPP(?:OSITE)?\.?(?: HAND)?|MIRROR(?:ED)?(?: IMAGE)?)\b")
_LAST_LETTER = pattern(
    r"(?:,\s*|\s-\s*|\s\(|(?<!SIZE)(?<!TYPE)(?<!CLASS)(?<!GRADE)(?<!STYLE)(?<!REV)(?<!CODE)\s)"
    r"([LR])\)?\.?$"
)


_MAY_SAY_A_HAND = pattern(
    r"[LR][./]?H|LEFT|RIGHT|PORT|ST(?:ARBOARD|BD)|EITHER|FITS|INTERCHANGEABLE|OPP|MIRROR|[&/+]"
    rf"|{'|'.join(STEMS)}|LINKS|SX|DROIT|DER\.|DCHA|DTA|DX|L OR R"
    r"|[,\s(-][LR]\)?\.?$"
)
"""What every text has that one of the patterns above finds a hand in."""


_BOTH_IN_TEXT = (
    *((ListedHand.EITHER, _EITHER), (ListedHand.EITHER, _OR_BETWEEN), (ListedHand.PAIR, _PAIR)),
    *((ListedHand.PAIR, _AND_BETWEEN), *((ListedHand.PAIR, words) for words in _EACH_SIDE)),
)


def hand_in_text(text: str, *, port_is_left: bool = False, abroad: bool = False) -> SaidHand:
    """Return the hand that a description says.

    `port_is_left` is set where the list uses starboard too, so that a static port stays a port;
    `abroad` where it says a hand in another language, so that chain links stay links.
    UNKNOWN where both hands, the opposite hand, or only a last letter is said.
    """
    plain = " ".join(text.upper().split())
    if not _MAY_SAY_A_HAND.search(plain):
        return NOT_SAID
    plain = _NOT_A_HAND.sub("", plain)
    for hand, words in _BOTH_IN_TEXT:
        found = words.search(plain)
        if found:
            return SaidHand(hand, Strength.WORD, found[0])
    left, right = _sides_in(plain, abroad=abroad)
    if not left and port_is_left:
        left = _PORT.search(_NOT_A_SIDE.sub("", plain))
    if left and right:
        return SaidHand(ListedHand.UNKNOWN, Strength.WORD, f"{left[0]} and {right[0]}")
    if left:
        return SaidHand(ListedHand.LEFT, Strength.WORD, left[0])
    if right:
        return SaidHand(ListedHand.RIGHT, Strength.WORD, right[0])
    return _weak_hand(plain)


def numbers_of_sides(text: str) -> tuple[int, int] | None:
    """Return how many a text says are left and how many right; None where it doesn't say."""
    plain = " ".join(text.upper().split())
    for words, turned in zip(_EACH_SIDE, (False, True), strict=True):
        found = words.search(plain)
        if found:
            first, second = int(found[1]), int(found[2])
            return (second, first) if turned else (first, second)
    return None


def _sides_in(plain: str, *, abroad: bool) -> tuple[re.Match[str] | None, re.Match[str] | None]:
    """Return where left and right are said, in English or in another language."""
    left = _LEFT.search(plain) or _LEFT_ABROAD_TEXT.search(plain)
    right = _RIGHT.search(plain) or _RIGHT_ABROAD_TEXT.search(plain)
    if abroad:
        left = left or _LEFT_BESIDE.search(plain)
        right = right or _RIGHT_BESIDE.search(plain)
    return left, right


def _weak_hand(plain: str) -> SaidHand:
    opposite = _OPPOSITE.search(plain)
    if opposite:
        return SaidHand(ListedHand.UNKNOWN, Strength.WORD, opposite[0])
    letter = _LAST_LETTER.search(plain)
    if letter:
        hand = ListedHand.LEFT if letter[1] == "L" else ListedHand.RIGHT
        return SaidHand(hand, Strength.DASH_LETTER, letter[1])
    return NOT_SAID


def says_hand_abroad(text: str) -> bool:
    """Say whether a text surely says a hand in another language than English."""
    plain = text.upper()
    if not any(stem in plain for stem in STEMS):
        return False
    return bool(_LEFT_ABROAD_TEXT.search(plain) or _RIGHT_ABROAD_TEXT.search(plain))


def says_starboard(text: str) -> bool:
    """Say whether a text uses the word starboard, and so port for a side."""
    return re.search(r"\b(?:STBD|STARBOARD)\b", text.upper()) is not None


def plain_hand(hand: ListedHand) -> Hand:
    """Return the hand of a line that isn't a pair."""
    return _PLAIN.get(hand, Hand.NONE)


_PLAIN = {
    ListedHand.LEFT: Hand.LEFT,
    ListedHand.RIGHT: Hand.RIGHT,
    ListedHand.EITHER: Hand.EITHER,
}
