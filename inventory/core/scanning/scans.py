"""Text from a scanner, a camera or the keyboard: what it stands for, and never a guess."""

from __future__ import annotations

import re
import unicodedata
from enum import StrEnum

from inventory.core.frozen import frozen
from inventory.core.scanning.codes import check_own_id, looks_own
from inventory.core.scanning.envelopes import GROUP, START, SupplierLabel, read_envelope


class ScanKind(StrEnum):
    """What a scan can be; the last six are refusals with words."""

    PLACE = "place"
    STEP = "step"
    PART = "part"
    TAG = "tag"
    """A number of ours for a bag, or for a part of a hand."""
    REMNANT = "remnant"
    CONTROL = "control"
    SUPPLIER_LABEL = "supplier-label"
    TEST_CARD = "test-card"
    PLAIN = "plain"
    """Anything else: a part number or a bin's name, to be looked up exactly."""
    EMPTY = "empty"
    WRONG_KEYBOARD = "wrong-keyboard"
    GS1 = "gs1"
    WRONG_CHECK = "wrong-check"
    TOO_LONG = "too-long"
    CONTROL_CHARACTERS = "control-characters"
    BROKEN_LABEL = "broken-label"


REFUSALS = frozenset(
    {
        ScanKind.WRONG_KEYBOARD,
        ScanKind.GS1,
        ScanKind.WRONG_CHECK,
        ScanKind.TOO_LONG,
        ScanKind.CONTROL_CHARACTERS,
        ScanKind.BROKEN_LABEL,
    }
)

CONTROLS = frozenset({"UNDO", "DONE", "YES", "CLEAR", *(f"Q{digit}" for digit in range(10))})
"""What stands after the `Z` of the control sheet; Q0 to Q9 are the digits of a quantity."""

TEST_CARD = "Z0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-./+:"
"""Every character of our labels, for one 2-D code."""
TEST_CARD_LINES = ("Z0123456789ABCDE", "ZFGHIJKLMNOPQRST", "ZUVWXYZ-./+:")
"""The same characters for three linear codes."""

LONGEST = 100
LONGEST_LABEL = 1000

_ENDS = " \t\r\n\x00\x02\x03\ufeff"
"""What scanners put before or behind a code, besides an AIM prefix."""
_AIM = re.compile(r"\][A-Za-z][0-9A-Za-z]")
_GS1_PREFIXES = frozenset({"]C1", "]D2", "]D5", "]Q3", "]Q4"})
"""ISO/IEC 15424 in capitals; besides these all of `]e` and `]E` (DataBar, EAN: from memory)."""
_FOLDED = str.maketrans("abcdefghijklmnopqrstuvwxyz", "ABCDEFGHIJKLMNOPQRSTUVWXYZ")
_ALLOWED = frozenset("0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZ-./+: ")
_OURS = (
    ("20S", ScanKind.REMNANT),
    ("9S", ScanKind.TAG),
    ("1W", ScanKind.STEP),
    ("L", ScanKind.PLACE),
)
"""ANSI MH10.8.2 data identifiers before numbers of ours, the longest first."""


@frozen(kw_only=True)
class Scan:
    """What was read.

    A supplier's part numbers and a builder's bin names can look like any code. So `whole` is
    looked up exactly as well, whatever the kind: found there only, it is that part or bin;
    found there besides what the kind says, the person is asked.
    """

    kind: ScanKind
    whole: str
    """The text without line end and prefix, a to z as A to Z, else as it came."""
    value: str = ""
    """What stands behind the data identifier: our number, part number, or control word."""
    kit: str = ""
    """The kit's code in a number of ours; another kit's label is known by it."""
    label: SupplierLabel | None = None
    words: str = ""
    """Why it is refused; empty unless the kind is a refusal."""
    remedy: str = ""

    @property
    def refused(self) -> bool:
        """Whether the text can't be one of our codes as it came."""
        return self.kind in REFUSALS


def read_scan(text: str) -> Scan:
    """Return what a scanned or typed line stands for; any text gets an answer, none an exception.

    Tolerated: line ends, blanks around, an AIM prefix (ISO/IEC 15424), Caps Lock. Nothing else is
    repaired: O and 0, dashes and swapped letters stay as they came.
    """
    prefix, whole = unwrapped(text)
    if prefix in _GS1_PREFIXES or prefix.startswith("]E"):
        return _refused(ScanKind.GS1, whole, *_GS1_WORDS)
    if not whole:
        return Scan(kind=ScanKind.EMPTY, whole="")
    is_label = whole.startswith(START)
    if len(whole) > (LONGEST_LABEL if is_label else LONGEST):
        return _refused(ScanKind.TOO_LONG, whole[:LONGEST], *_too_long(len(whole)))
    return _supplier_label(whole) if is_label else _single(whole)


def unwrapped(text: str) -> tuple[str, str]:
    """Return the AIM prefix in capitals (or nothing), and the text in it with a to z as A to Z."""
    bare = text.strip(_ENDS)
    match = _AIM.match(bare)
    prefix = match[0].translate(_FOLDED) if match else ""
    return prefix, bare[len(prefix) :].strip(_ENDS).translate(_FOLDED)


def shown(characters: str) -> str:
    """Return characters so that a terminal or a page shows them harmlessly."""
    return " ".join(
        sign if sign.isprintable() and not sign.isspace() else f"U+{ord(sign):04X}"
        for sign in characters
    )


_GS1_WORDS = (
    "this is a retail or logistics code, not one of our labels",
    "Scan the supplier's part number on the same label, or type it.",
)


def _too_long(characters: int) -> tuple[str, str]:
    return (
        f"{characters} characters came in one go; our codes have at most {LONGEST}",
        "Scan one code at a time, slowly.",
    )


def _supplier_label(whole: str) -> Scan:
    label = read_envelope(whole)
    if isinstance(label, str):
        remedy = "Scan the single code of the part number, or type it."
        return _refused(ScanKind.BROKEN_LABEL, whole, label, remedy)
    return Scan(kind=ScanKind.SUPPLIER_LABEL, whole=whole, value=label.part, label=label)


def _single(whole: str) -> Scan:
    if GROUP in whole:
        return _refused(ScanKind.GS1, whole, *_GS1_WORDS)
    if any(unicodedata.category(sign) == "Cc" for sign in whole):
        words = "control characters came with the code"
        return _refused(
            ScanKind.CONTROL_CHARACTERS,
            whole,
            words,
            "Set the scanner to send plain text with Enter behind it.",
        )
    strange = "".join(dict.fromkeys(sign for sign in whole if sign not in _ALLOWED))
    if strange:
        return _refused(
            ScanKind.WRONG_KEYBOARD,
            whole,
            f"{shown(strange[:8])} is not on our labels: "
            "the scanner types for another keyboard layout",
            "Scan the test card; then set the scanner's country, or this computer's keyboard.",
        )
    return _by_identifier(whole)


def _by_identifier(whole: str) -> Scan:
    if whole == TEST_CARD or whole in TEST_CARD_LINES:
        return Scan(kind=ScanKind.TEST_CARD, whole=whole)
    if whole[0] == "Z" and whole[1:] in CONTROLS:
        return Scan(kind=ScanKind.CONTROL, whole=whole, value=whole[1:])
    if whole.startswith("1P") and (part := whole[2:].strip()):
        return Scan(kind=ScanKind.PART, whole=whole, value=part)
    for identifier, kind in _OURS:
        number = whole.removeprefix(identifier)
        if number != whole and looks_own(number):
            return _ours(kind, whole, number)
    return Scan(kind=ScanKind.PLAIN, whole=whole, value=whole)


def _ours(kind: ScanKind, whole: str, number: str) -> Scan:
    own = check_own_id(number)
    if own is None:
        return _refused(
            ScanKind.WRONG_CHECK,
            whole,
            f"the check character of {number} doesn't fit: the code was misread",
            "Scan it again; if that doesn't help, print the label anew.",
        )
    return Scan(kind=kind, whole=whole, value=number, kit=own.kit)


def _refused(kind: ScanKind, whole: str, words: str, remedy: str) -> Scan:
    return Scan(kind=kind, whole=whole, words=words, remedy=remedy)
