"""The forms a printed quantity can take, each a pattern and what it says."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.lists.hands_abroad import (
    AND,
    LEFT_BESIDE,
    LEFT_WORDS,
    RIGHT_BESIDE,
    RIGHT_WORDS,
    letters_for_sides,
)
from inventory.core.measures.lengths import INCH, parse_length
from inventory.core.measures.printed_quantity import PrintedQuantity
from inventory.core.measures.units import find_unit, meanings
from inventory.core.patterns import pattern

if TYPE_CHECKING:
    from collections.abc import Callable

BACK_ORDER = r"(?:B[/.]?O\.?|BACK[ -]?ORD(?:ER(?:ED)?)?|BKO|TO FOLLOW|TBS|OWING|OUTSTANDING)"
"""Words that say a line is to follow; TBS is `to be shipped`. Common practice, no source."""
_NUMBER = r"([0-9]+[ -][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+)\.?"
_WHOLE = r"([0-9]{1,9})"
_LEFT = rf"(?:L/?H|LHS|LEFT|L|PORT|{LEFT_WORDS}|{LEFT_BESIDE})\.?"
_RIGHT = rf"(?:R/?H|RHS|RIGHT|R|STBD|STARBOARD|{RIGHT_WORDS}|{RIGHT_BESIDE})\.?"
_AND = rf"\s*(?:[,;/&+]|AND|{AND})?\s*"
_PIECES = (
    r"(?:EA|EACH|PCS?|PIECES?|LENGTHS?|LGTHS?|STICKS?|BARS?|SHEETS?|RODS?|TUBES?|STRIPS?"
    r"|STK|STÜCK|ST|UDS?|KS|SZT|PZ|STUKS?)\.?"
)
_PACK = (
    r"(PKGS?|PKTS?|PACKS?|PACKETS?|PACKAGES?|BAGS?|BOX(?:ES)?|BX|BG|PK|SETS?|KITS?|LOTS?"
    r"|ROLLS?|CARDS?)\.?"
)


def _number(text: str) -> Fraction:
    whole, _, rest = text.replace("-", " ").rpartition(" ")
    return Fraction(whole or 0) + Fraction(rest)


def _plain(found: re.Match[str]) -> PrintedQuantity:
    """`4`, `2.5`, `1/2`; the last may be a left and a right."""
    halves = re.fullmatch(r"([0-9]+)/([0-9]+)", found[1])
    pair = (int(halves[1]), int(halves[2])) if halves else None
    return PrintedQuantity(number=_number(found[1]), halves=pair)


def _with_unit(found: re.Match[str]) -> PrintedQuantity | None:
    """`2 ea`, `1/4 LB`, `12 FT`, `72"`."""
    word = found["unit"].strip()
    if not (find_unit(word) or meanings(word)):
        return None
    return PrintedQuantity(number=_number(found["number"]), unit=word)


def _times(found: re.Match[str]) -> PrintedQuantity:
    """`x4`, `4 off`, `(4)`, `QTY 4`."""
    return PrintedQuantity(number=Fraction(found[1]))


def _hands(found: re.Match[str]) -> PrintedQuantity:
    """`4 (2L 2R)`, `1 LH / 1 RH`, `L2 R2`."""
    left, right = int(found["left"]), int(found["right"])
    total = found.groupdict().get("total")
    agree = total is None or int(total) == left + right
    return PrintedQuantity(
        number=Fraction(left + right),
        left=left,
        right=right,
        doubt="" if agree else f"{left} left and {right} right don't make {total}",
    )


def _hands_by_letters(found: re.Match[str]) -> PrintedQuantity | None:
    """`2 L + 2 P`, `1 G + 1 D`: by the letters of one language other than English."""
    letters = letters_for_sides((found["one"], found["two"]))
    one, two = found["one"].upper(), found["two"].upper()
    return _hands(found) if letters == (one, two) else None


def _one_hand(found: re.Match[str]) -> PrintedQuantity:
    """`2 LH`."""
    number = int(found[1])
    left = re.fullmatch(_LEFT, found[2], re.IGNORECASE) is not None
    return PrintedQuantity(
        number=Fraction(number), left=number if left else 0, right=0 if left else number
    )


def _each_side(found: re.Match[str]) -> PrintedQuantity:
    """`2 each side`."""
    number = int(found[1])
    return PrintedQuantity(number=Fraction(2 * number), left=number, right=number)


def _of_both(found: re.Match[str]) -> PrintedQuantity | None:
    """`4 (L&R)`: so many together, half of them of each hand."""
    number = int(found[1])
    if number % 2:
        return None
    return PrintedQuantity(number=Fraction(number), left=number // 2, right=number // 2)


def _sum(found: re.Match[str]) -> PrintedQuantity:
    """`1+1`: a left and a right in a pair's row; else a person says what is added to what."""
    first, second = int(found[1]), int(found[2])
    return PrintedQuantity(number=Fraction(first + second), halves=(first, second))


def _with_spare(found: re.Match[str]) -> PrintedQuantity:
    """`2+1 spare`, where the spare comes on top."""
    return PrintedQuantity(number=Fraction(int(found[1]) + int(found[2])), spare=int(found[2]))


def _of_which_spare(found: re.Match[str]) -> PrintedQuantity:
    """`3 (1 spare)`, where the spare is among them."""
    number, spare = int(found[1]), int(found[2])
    doubt = "" if spare <= number else "more are spare than there are"
    return PrintedQuantity(number=Fraction(number), spare=spare, doubt=doubt)


def _of_which_to_follow(found: re.Match[str]) -> PrintedQuantity:
    """`4 (2 B/O)`."""
    number, waiting = int(found[1]), int(found[2])
    doubt = "" if waiting <= number else "more are to follow than there are"
    return PrintedQuantity(number=Fraction(number), back_ordered=Fraction(waiting), doubt=doubt)


def _to_follow(found: re.Match[str]) -> PrintedQuantity:
    """`B/O 2`, `2 to follow`."""
    number = Fraction(found[1])
    return PrintedQuantity(number=number, back_ordered=number)


def _packages(found: re.Match[str]) -> PrintedQuantity:
    """`1 pkg (100)`, `2 bags of 50`: what is in them counts."""
    number, content = int(found[1]), int(found[3])
    return PrintedQuantity(number=Fraction(number * content), unit=found[2], content=content)


def _hundreds(found: re.Match[str]) -> PrintedQuantity | None:
    """`2 C (100)`, `1 M (1000)`: an ambiguous unit that says itself what it is."""
    size = {"100": "hundred", "1000": "thousand"}[found[3]]
    if size not in meanings(found[2]) and find_unit(found[2]) != find_unit(size):
        return None
    return PrintedQuantity(number=Fraction(found[1]), unit=size)


def _sticks(found: re.Match[str]) -> PrintedQuantity | None:
    """`2 @ 6 ft`, `2 pcs x 72"`."""
    return _of_length(found["length"], pieces=int(found["pieces"]), each=True)


def _in_pieces(found: re.Match[str]) -> PrintedQuantity | None:
    """`12 FT in 2 pcs`: how long each one is isn't said."""
    return _of_length(found["length"], pieces=int(found["pieces"]), each=False)


def _length(found: re.Match[str]) -> PrintedQuantity | None:
    """`6'-0"`, `6 ft 3 in`."""
    return _of_length(found["length"], pieces=0, each=False)


def _of_length(text: str, *, pieces: int, each: bool) -> PrintedQuantity | None:
    try:
        nanometres = parse_length(text)
    except InventoryError:
        return None
    if each:
        return PrintedQuantity(number=Fraction(pieces), piece_length=nanometres)
    simple = re.fullmatch(rf"(?P<number>{_NUMBER})\s*(?P<unit>[^0-9\s]+)", text)
    printed = _with_unit(simple) if simple else None
    if printed is None:
        printed = PrintedQuantity(number=Fraction(nanometres, INCH), unit="in")
    return PrintedQuantity(number=printed.number, unit=printed.unit, pieces=pieces)


def _about(found: re.Match[str]) -> PrintedQuantity:
    """`~100`, `approx. 100`."""
    return PrintedQuantity(number=Fraction(found[1]), doubt="the list itself says about")


def _part_of(found: re.Match[str]) -> PrintedQuantity:
    """`2 of 4`."""
    return PrintedQuantity(
        number=Fraction(found[2]),
        back_ordered=Fraction(max(int(found[2]) - int(found[1]), 0)),
        doubt="it can be a part delivery or the number of a package",
    )


def _negative(found: re.Match[str]) -> PrintedQuantity:
    return PrintedQuantity(number=-_number(found[1]), doubt="it is negative")


def _form(
    words: str, read: Callable[[re.Match[str]], PrintedQuantity | None]
) -> tuple[re.Pattern[str], Callable[[re.Match[str]], PrintedQuantity | None], bool]:
    """Return a form: its pattern, what it says, and whether it begins with a number at any rate."""
    return pattern(words, re.IGNORECASE), read, words.startswith(_NUMBER_FIRST)


_NUMBER_FIRST = ("([0-9]", "(?P<number>([0-9]", "(?P<pieces>[0-9]", "(?P<length>[0-9")


_OF = rf"(?:\s*(?:{_PIECES}|[x×]))?\s*"
_TOTAL = rf"(?:(?P<total>[0-9]{{1,9}})\s*(?:{_PIECES}|PRS?\.?|PAIRS?)?\s*[(\[:=,-]?\s*)?"
_L_NUMBER, _R_NUMBER = r"(?P<left>[0-9]{1,9})", r"(?P<right>[0-9]{1,9})"
_END = r"\s*[)\]]?"
FORMS = (
    _form(_NUMBER, _plain),
    _form(rf"(?P<number>{_NUMBER})\s*(?P<unit>[^0-9\s(][^0-9(]*)", _with_unit),
    _form(r"[(\[x×]\s*([0-9]{1,9})\s*[)\]]?", _times),
    _form(r"([0-9]{1,9})\s*(?:[x×]|off|total|tot\.?)", _times),
    _form(r"(?:QTY|QUANTITY|NO)[.:]?\s*([0-9]{1,9})", _times),
    _form(rf"(?P<unit>[A-Z]{{2,8}})[.:]?\s*(?P<number>{_NUMBER})", _with_unit),
    _form(rf"{_TOTAL}{_L_NUMBER}{_OF}{_LEFT}{_AND}{_R_NUMBER}{_OF}{_RIGHT}{_END}", _hands),
    _form(rf"{_TOTAL}{_R_NUMBER}{_OF}{_RIGHT}{_AND}{_L_NUMBER}{_OF}{_LEFT}{_END}", _hands),
    _form(
        rf"{_TOTAL}{_LEFT}\s*[:=-]?\s*{_L_NUMBER}{_AND}{_RIGHT}\s*[:=-]?\s*{_R_NUMBER}{_END}",
        _hands,
    ),
    _form(
        rf"{_TOTAL}{_L_NUMBER}{_OF}(?P<one>[A-Z])\.?{_AND}{_R_NUMBER}{_OF}(?P<two>[A-Z])\.?{_END}",
        _hands_by_letters,
    ),
    _form(rf"\(?{_WHOLE}\)?\s*(?:{_PIECES}\s+)?({_LEFT}|{_RIGHT})", _one_hand),
    _form(rf"{_WHOLE}\s*(?:{_PIECES})?\s*(?:EACH|PER)\s+(?:SIDE|HAND)", _each_side),
    _form(rf"{_WHOLE}\s*[(\[]\s*{_LEFT}\s*(?:[/&+]|AND)\s*{_RIGHT}\s*[)\]]", _of_both),
    _form(rf"{_WHOLE}\s*[(\[]\s*{_RIGHT}\s*(?:[/&+]|AND)\s*{_LEFT}\s*[)\]]", _of_both),
    _form(rf"{_WHOLE}\s*\+\s*{_WHOLE}", _sum),
    _form(rf"{_WHOLE}\s*\+\s*{_WHOLE}\s*(?:SPARES?|EXTRAS?|SP\.?)", _with_spare),
    _form(
        rf"{_WHOLE}\s*(?:{_PIECES})?\s*[(,]?\s*(?:INCL?\.?(?:UDES|UDING)?)?\s*"
        rf"{_WHOLE}\s*(?:SPARES?|EXTRAS?)\s*\)?",
        _of_which_spare,
    ),
    _form(
        rf"{_WHOLE}\s*(?:{_PIECES})?\s*[(,;/-]?\s*{_WHOLE}\s*(?:ON\s+)?{BACK_ORDER}\s*\)?",
        _of_which_to_follow,
    ),
    _form(
        rf"{_WHOLE}\s*(?:{_PIECES})?\s*[(,;/-]?\s*{BACK_ORDER}\s*[:=-]?\s*{_WHOLE}\s*\)?",
        _of_which_to_follow,
    ),
    _form(rf"{BACK_ORDER}\s*[:=-]?\s*{_WHOLE}", _to_follow),
    _form(rf"{_WHOLE}\s*(?:{_PIECES})?\s*\(?(?:ON\s+)?{BACK_ORDER}\)?", _to_follow),
    _form(
        rf"{_WHOLE}\s*{_PACK}\s*(?:OF|@|/|X|AT|[(\[-])?\s*{_WHOLE}\s*(?:{_PIECES})?"
        r"(?:\s*(?:EACH|EA\.?|PER(?: \w+)?))?\s*[)\]]?",
        _packages,
    ),
    _form(rf"{_WHOLE}\s*([CMHDX]{{1,2}})\s*\(?\s*(100|1000)\s*\)?", _hundreds),
    _form(
        rf"(?P<pieces>[0-9]{{1,5}})\s*(?:{_PIECES})?\s*(?:@|[x×]|OF|AT|,|\s)\s*(?P<length>[0-9.].*)",
        _sticks,
    ),
    _form(
        rf"(?P<length>[0-9.].*?)\s*(?:IN|AS|[(,])\s*(?P<pieces>[0-9]{{1,5}})\s*{_PIECES}\s*\)?",
        _in_pieces,
    ),
    _form(r"(?P<length>[0-9.].*)", _length),
    _form(r"(?:~|±|ABOUT|APPROX(?:IMATELY)?\.?|CA\.?|ABT\.?)\s*([0-9]{1,9})", _about),
    _form(r"([0-9]{1,9})\s*(?:±|APPROX\.?|ABOUT|\+/-)", _about),
    _form(r"([0-9]{1,9})\s*OF\s*([0-9]{1,9})", _part_of),
    _form(rf"-\s*{_NUMBER}", _negative),
)
"""Tried in this order; the first that fits the whole text and reads is taken."""
FORMS_WITHOUT_NUMBER_FIRST = tuple(form for form in FORMS if not form[2])
"""Those that a text can fit whose first sign is no digit and no point."""
