"""Quantities as packing lists print them: numbers, packages, hands, sticks, as required."""

from __future__ import annotations

import re
from dataclasses import replace
from fractions import Fraction

from inventory.core.measures.lengths import plain_marks
from inventory.core.measures.printed_quantity import PrintedQuantity, QuantityKind
from inventory.core.measures.quantity_forms import BACK_ORDER, FORMS, FORMS_WITHOUT_NUMBER_FIRST

_WORDS = {
    QuantityKind.AS_REQUIRED: r"A[/.]?R\.?|AS[ -]?REQ(?:'?D|UIRED|S)?\.?|AS NEEDED"
    r"|N(?:ACH|\.) ?BED(?:ARF|\.)|SELON (?:LE )?BESOINS?|SEGÚN (?:NECESIDAD(?:ES)?|SE REQUIERA)"
    r"|Q\. ?B\.|QUANTO BASTA|(?:CONFORME|SEGUNDO) (?:O )?NECESS[ÁA]RIO|NAAR BEHOEFTE"
    r"|EFTER BEHOV|ETTER BEHOV|VID BEHOV|TARPEEN MUKAAN|W(?:G|EDŁUG) POTRZEB(?:Y)?|DLE POTŘEBY"
    r"|PODĽA POTREBY|SZÜKSÉG SZERINT",
    QuantityKind.REFERENCE: r"\(?REF(?:\.|ERENCE)?\)?(?: ONLY)?",
    QuantityKind.NOTHING: r"[-_.]+|N/?A|NIL|NONE|NULL",
    QuantityKind.TICK: r"[✓✔√☑☒☐□■✗✘×X]|\[ ?[X✓]?\]|OK|YES|Y|DONE|JA|OUI|SIM|TAK",
    QuantityKind.BACK_ORDERED: rf"\(?{BACK_ORDER}\)?",
}
_KINDS = [(kind, re.compile(words, re.IGNORECASE)) for kind, words in _WORDS.items()]
_FOOTNOTE = re.compile(r"\s*([*†‡§]+)$")
_SPOKEN = ["ONE", "TWO", "THREE", "FOUR", "FIVE", "SIX", "SEVEN", "EIGHT", "NINE", "TEN"]
_SPOKEN_NUMBER = {word: str(number) for number, word in enumerate(_SPOKEN, 1)}
_GROUPS = re.compile(r"(?<![0-9.])[0-9]{1,3}(?:,[0-9]{3}){2,}(?![0-9])")
_COMMA = re.compile(r"(?<=[0-9]),(?=[0-9])")
_COMMA_AND_THREE = re.compile(r"(?<![0-9.,])[0-9]{1,3},[0-9]{3}(?![0-9,])")
_CLEAR_GROUPS = (
    (re.compile(r"(?<![0-9.,])[0-9]{1,3}(?:,[0-9]{3})+(?=\.[0-9]+(?![0-9,.]))"), ","),
    (re.compile(r"(?<![0-9.,])[0-9]{1,3}(?:\.[0-9]{3})+(?=,[0-9]+(?![0-9,.]))"), "."),
    (re.compile(r"^[0-9]{1,3}(?: [0-9]{3})+(?=$|,[0-9]+$| ?[A-Z]{1,6}\.?$)", re.IGNORECASE), " "),
)
"""Thousands set apart so that they can be nothing else: 1,500.00 and 1.500,00, and by blanks as in
ISO 80000-1, 7.3.1."""
_LONGEST_BARE = 9
"""Digits of a bare number."""
_NUMBER_SIGNS = "0123456789."
COMMA_DOUBT = "the comma can be a decimal comma or part a thousand"


def parse_quantity(text: str, *, decimal_comma: bool | None = None) -> PrintedQuantity:
    """Return what a quantity cell says; never fails, and never makes a number up.

    `decimal_comma` says whether 1,200 is 1.2 or 1200; None where nobody has said.
    """
    if len(text) <= _LONGEST_BARE and text.isascii() and text.isdigit():
        return PrintedQuantity(number=Fraction(int(text)))  # as the first of the forms reads it
    plain = " ".join(plain_marks(text).split())
    footnote = _FOOTNOTE.search(plain)
    if footnote and footnote.start():
        found = parse_quantity(plain[: footnote.start()], decimal_comma=decimal_comma)
        return replace(found, footnote=footnote[1])
    if not plain:
        return PrintedQuantity(kind=QuantityKind.BLANK)
    for kind, words in _KINDS:
        if words.fullmatch(plain):
            return PrintedQuantity(kind=kind)
    first, _, rest = plain.partition(" ")
    plain = f"{_SPOKEN_NUMBER.get(first.upper(), first)} {rest}".strip()
    return _with_commas(plain, decimal_comma=decimal_comma)


def _with_commas(plain: str, *, decimal_comma: bool | None) -> PrintedQuantity:
    """Read a quantity once it is settled what its commas are."""
    for groups, sign in _CLEAR_GROUPS:
        found = groups.search(plain)
        if found:
            plain = plain.replace(found[0], found[0].replace(sign, ""))
    doubt = decimal_comma is None and _COMMA_AND_THREE.search(plain) is not None
    plain = _GROUPS.sub(lambda group: group[0].replace(",", ""), plain)
    if decimal_comma is False or doubt:
        plain = _COMMA_AND_THREE.sub(lambda group: group[0].replace(",", ""), plain)
    read = _by_form(_COMMA.sub(".", plain))
    return replace(read, doubt=COMMA_DOUBT) if doubt and not read.doubt else read


def _by_form(plain: str) -> PrintedQuantity:
    """Return what a quantity without commas says, by the first form that fits it whole."""
    forms = FORMS if plain[:1] in _NUMBER_SIGNS else FORMS_WITHOUT_NUMBER_FIRST
    for pattern, read, _ in forms:
        found = pattern.fullmatch(plain)
        if found is None:
            continue
        try:
            quantity = read(found)
        except ZeroDivisionError:
            continue
        if quantity is not None:
            return quantity
    return PrintedQuantity(kind=QuantityKind.UNREADABLE)
