"""What a list says about left and right: only its own explicit tokens, hardware excluded first."""

from __future__ import annotations

import re
from dataclasses import dataclass
from enum import IntEnum

from inventory.core.items import Hand, part_key
from inventory.core.lists.packing import ListedHand
from inventory.core.patterns import pattern


class Strength(IntEnum):
    """How plainly a hand is said."""

    NOT_SAID = 0
    LETTER = 1
    """A letter L or R at the end of a number (`0412L`): also a length, a colour, a light type."""
    DASH_LETTER = 2
    """`-L`, `-R`: a hand where the list uses both, else perhaps not."""
    WORD = 3
    """LH, RH, LEFT, RIGHT; PORT and STBD in a column."""


@dataclass(frozen=True, slots=True)
class SaidHand:
    """The hand that a number, a column or a description says, and how plainly."""

    hand: ListedHand = ListedHand.NONE
    strength: Strength = Strength.NOT_SAID
    token: str = ""
    parts: tuple[str, str] | None = None
    """Left and right number where one number stands for both: `0412-L/R`."""


NOT_SAID = SaidHand()

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
_L, _R = r"(?:LH|L/H|L\.H\.?|LHS|LEFT|PORT)", r"(?:RH|R/H|R\.H\.?|RHS|RIGHT|STBD|STARBOARD)"
_JOIN = r"\s*(?:&|/|\+|,|AND)\s*"
_LEFT_ABROAD = r"LI\.?|LINKS|G|GCHE|GAUCHE|IZQ\.?|IZQUIERD[AO]|SX|SINISTR[AO]|VÄNSTER|VENSTRE|BB"
_RIGHT_ABROAD = r"RE\.?|RECHTS|D|DTE|DROITE?|DER\.?|DERECH[AO]|DX|DESTR[AO]|HÖGER|HØYRE|HØJRE|STB"
"""In German, French, Spanish, Italian, Dutch and Scandinavian lists; from memory."""
_COLUMN = {
    ListedHand.LEFT: rf"{_L}|L\.?|LT|LEFT[- ]?HAND(?:ED)?|LH SIDE|LEFT SIDE|L SIDE"
    rf"|{_LEFT_ABROAD}",
    ListedHand.RIGHT: rf"{_R}|R\.?|RT|RIGHT[- ]?HAND(?:ED)?|RH SIDE|RIGHT SIDE|R SIDE"
    rf"|{_RIGHT_ABROAD}",
    ListedHand.PAIR: rf"(?:{_L}|L|LT){_JOIN}(?:{_R}|R|RT)|(?:{_R}|R|RT){_JOIN}(?:{_L}|L|LT)"
    rf"|(?:{_LEFT_ABROAD}){_JOIN}(?:{_RIGHT_ABROAD})|(?:{_RIGHT_ABROAD}){_JOIN}(?:{_LEFT_ABROAD})"
    r"|PAIRS?|PRS?\.?|LR|L-R|LH-RH|1L ?1R|HANDED PAIR",
    ListedHand.EITHER: r"EITHER(?: SIDE| HAND)?|L(?:H|EFT)? OR R(?:H|IGHT)?|UNIV(?:ERSAL)?"
    rf"|(?:{_LEFT_ABROAD}) (?:ODER|OU|O|OF|ELLER) (?:{_RIGHT_ABROAD})"
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
_LEFT_ABROAD_TEXT = pattern(r"\b(?:GAUCHE|IZQ|IZQUIERD[AO]|SINISTR[AO]|LEW[YAE]|VÄNSTER|VENSTRE)\b")
_RIGHT_ABROAD_TEXT = pattern(r"\b(?:RECHTS|DERECH[AO]|DESTR[AO]|PRAW[YAE]|HÖGER|HØYRE|HØJRE)\b")
_STEMS_ABROAD = (
    *("GAUCHE", "IZQ", "SINISTR", "LEW", "VÄNSTER", "VENSTRE"),
    *("RECHTS", "DERECH", "DESTR", "PRAW", "HÖGER", "HØYRE", "HØJRE"),
)
"""What each of those words begins with; found far quicker in a long text."""
_LEFT_BESIDE = pattern(r"\bLINKS\b")
_RIGHT_BESIDE = pattern(r"\b(?:DROITE?|DER\.|DCHA)(?![A-Z0-9])")
"""Words that mean other things, too (chain links, straight): hands where a list says the other."""
_OPPOSITE = pattern(r"\b(?:OPP(?:OSITE)?\.?(?: HAND)?|MIRROR(?:ED)?(?: IMAGE)?)\b")
_LAST_LETTER = pattern(
    r"(?:,\s*|\s-\s*|\s\(|(?<!SIZE)(?<!TYPE)(?<!CLASS)(?<!GRADE)(?<!STYLE)(?<!REV)(?<!CODE)\s)"
    r"([LR])\)?\.?$"
)


_MAY_SAY_A_HAND = pattern(
    r"[LR][./]?H|LEFT|RIGHT|PORT|ST(?:ARBOARD|BD)|EITHER|FITS|INTERCHANGEABLE|OPP|MIRROR|[&/+]"
    r"|GAUCHE|IZQ|SINISTR|LEW[YAE]|VÄNSTER|VENSTRE|RECHTS|DERECH|DESTR|PRAW[YAE]|H[ÖØ][GYJ]R?E"
    r"|LINKS|DROIT|DER\.|DCHA|L OR R"
    r"|[,\s(-][LR]\)?\.?$"
)
"""What every text has that one of the patterns above finds a hand in."""


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
    for hand, words in ((ListedHand.EITHER, _EITHER), (ListedHand.PAIR, _PAIR)):
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
    if not any(stem in plain for stem in _STEMS_ABROAD):
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
