"""Lengths in whole nanometres: read as people write them, printed either way."""

from __future__ import annotations

import re
from fractions import Fraction

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.patterns import pattern

MILLIMETRE = 1_000_000
"""Nanometres."""
INCH = 25_400_000
"""Nanometres; 25.4 mm exactly (16 CFR 500.19)."""
_DOZEN = 12
"""Inches in a foot."""
FOOT = _DOZEN * INCH

UNITS = {"mm": MILLIMETRE, "cm": 10 * MILLIMETRE, "m": 1000 * MILLIMETRE, "in": INCH, "ft": FOOT}
"""Nanometres in one of each unit that a length may be written in."""

_LONGEST = 10**15
"""A million metres: more is a slip of the keyboard."""
_REMEDY = "Write it with its unit, for instance 1830 mm, 6 ft, 6'-0\" or 72-1/2 in"

_NUMBER = r"(?:[0-9]+[- ][0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+\.?)"
_FEET_MARK = r"(?:'|feet|foot|ft\.?)"
_INCH_MARK = r'(?:"|inches|inch|in\.?)'
_METRIC = pattern(rf"({_NUMBER})\s*(mm|cm|m)\.?", re.IGNORECASE)
_IMPERIAL = pattern(
    rf"(?:({_NUMBER})\s*({_FEET_MARK})(?:\s*-\s*|\s*))?(?:({_NUMBER})\s*{_INCH_MARK})?",
    re.IGNORECASE,
)
_VULGAR = {
    "½": "1/2", "⅓": "1/3", "⅔": "2/3", "¼": "1/4", "¾": "3/4", "⅕": "1/5", "⅖": "2/5",
    "⅗": "3/5", "⅘": "4/5", "⅙": "1/6", "⅚": "5/6", "⅛": "1/8", "⅜": "3/8", "⅝": "5/8", "⅞": "7/8",
}  # fmt: skip
_VULGAR_SIGN = pattern("[" + "".join(_VULGAR) + "]")
_MARKS = str.maketrans({"′": "'", "’": "'", "″": '"', "”": '"', "⁄": "/", "\u00a0": " "})
_DASHES = pattern("[\u2010-\u2015\u2212]")
_SECTION_BREAK = pattern(r"\s*[xX×]\s*")
_KEYWORDS = pattern(
    r"\b(?:OD|ID|WALL|THK|THICK|ANGLE|TUBE|TUBING|STRIP|BAR|ROD|SHEET)\b", re.IGNORECASE
)
_LONG_UNIT = pattern(rf"[0-9.]\s*(?:m|{_FEET_MARK})(?![a-z])", re.IGNORECASE)
_WITH_UNIT = pattern(rf"({_NUMBER})\s*(?:mm|cm|m|{_FEET_MARK}|{_INCH_MARK})\.?", re.IGNORECASE)


@frozen
class Section:
    """The sizes of a stock section, and its length where one stands on it in feet."""

    sizes: tuple[int, ...]
    """Nanometres, in the order printed; which is wall or leg the order doesn't say."""
    length: int = 0
    """Nanometres of the last size, where it alone carries a unit of length; else 0."""


def plain_marks(text: str) -> str:
    """Return the text with one kind of foot, inch, dash and fraction mark."""
    text = _DASHES.sub("-", text.translate(_MARKS)).replace("''", '"')
    return _VULGAR_SIGN.sub(_spelled_out, text)


def _spelled_out(sign: re.Match[str]) -> str:
    before = sign.string[: sign.start()]
    return ("-" if before[-1:].isdigit() else "") + _VULGAR[sign.group()]


def parse_length(text: str, *, unit: str = "", decimal_comma: bool = False) -> int:
    """Return the length in nanometres; `unit` is what a number without one is meant in.

    Grammar: `1.2 m`, `6 ft 3 in`, `4'6-1/2"`, `1½"`, `.125 in`. Refused in words: no unit, a
    comma whose meaning nobody has said, a tenth of a foot written with a foot mark, 12 inches
    or more after feet, negative, and what isn't a whole number of nanometres. Inch and foot by
    16 CFR 500.19 (exact).
    """
    plain = plain_marks(text).strip()
    if decimal_comma:
        plain = plain.replace(",", ".")
    elif "," in plain:
        raise _refusal(text, "the comma can be a decimal comma or part a thousand")
    if re.fullmatch(_NUMBER, plain) and unit:
        return _whole(text, _number(text, plain) * UNITS[unit])
    metric = _METRIC.fullmatch(plain)
    if metric:
        return _whole(text, _number(text, metric[1]) * UNITS[metric[2].lower()])
    imperial = _IMPERIAL.fullmatch(plain)
    if imperial is None or not (imperial[1] or imperial[3]):
        raise _refusal(text, _why_not(plain))
    return _whole(text, _imperial(text, imperial))


def _imperial(text: str, found: re.Match[str]) -> Fraction:
    feet = _number(text, found[1] or "0")
    inches = _number(text, found[3] or "0")
    if found[1] and inches >= _DOZEN:
        raise _refusal(text, "there are 12 inches or more after the feet")
    if feet.denominator != 1 and (found[3] or found[2] == "'"):
        raise _refusal(text, "feet with a fraction can be meant as feet and inches")
    return feet * FOOT + inches * INCH


def _number(text: str, number: str) -> Fraction:
    whole, _, fraction = number.replace("-", " ").rpartition(" ")
    if re.search(r"/0+$", fraction):
        raise _refusal(text, "the fraction is over zero")
    return Fraction(whole or 0) + Fraction(fraction)


def _whole(text: str, nanometres: Fraction) -> int:
    if nanometres.denominator != 1:
        raise _refusal(text, "it isn't a whole number of nanometres")
    if nanometres > _LONGEST:
        raise _refusal(text, "it is longer than 1000 km")
    return int(nanometres)


def _why_not(plain: str) -> str:
    if re.fullmatch(_NUMBER, plain):
        return "it has no unit"
    if plain.startswith("-"):
        return "it is negative"
    return "it isn't a length"


def _refusal(text: str, why: str) -> InventoryError:
    return InventoryError(f"{text.strip()[:40]!r} can't be read as a length: {why}", remedy=_REMEDY)


def parse_section(text: str, *, unit: str = "in") -> Section:
    """Return the sizes of `3/4 OD x .035 WALL x 6 FT`; numbers without a unit are in `unit`.

    The last size is the stock length where it alone carries a unit, or it alone is in feet or
    metres; `.032 x 48" x 144"` is a sheet and has none.
    """
    parts = _SECTION_BREAK.split(_KEYWORDS.sub(" ", plain_marks(text)).strip())
    if not all(part.strip() for part in parts):
        raise _refusal(text, "a size is missing beside an x")
    sizes = tuple(parse_length(part.strip(), unit=unit) for part in parts)
    *cross, last = [_unit_rank(part) for part in parts]
    stock = bool(cross) and last > max(cross)
    return Section(sizes, sizes[-1] if stock else 0)


def _unit_rank(part: str) -> int:
    """Return 0 without a unit, 1 with a small one, 2 with one that lengths are sold in."""
    if not _WITH_UNIT.search(part):
        return 0
    return 2 if _LONG_UNIT.search(part) else 1


def show_length(nanometres: int, unit: str = "in") -> str:
    """Return the length in words, exactly: `72 in`, `6 ft 1/2 in`, `1830 mm`.

    What isn't a whole number of 64ths, nor of 10,000ths of an inch, is shown in millimetres.
    """
    if unit in {"in", "ft"}:
        inches = Fraction(nanometres, INCH)
        feet, rest = divmod(inches, _DOZEN)
        if unit == "ft" and feet and _shown_inches(rest):
            return f"{feet} ft" + (f" {_shown_inches(rest)} in" if rest else "")
        shown = _shown_inches(inches)
        if shown:
            return f"{shown} in"
        unit = "mm"
    return f"{_decimal(Fraction(nanometres, UNITS[unit]), 9)} {unit}"


def _shown_inches(inches: Fraction) -> str:
    whole, rest = divmod(inches, 1)
    if 64 % inches.denominator == 0:
        return f"{whole}-{rest}" if whole and rest else str(inches)
    return _decimal(inches, 4) if 10_000 % inches.denominator == 0 else ""


def _decimal(number: Fraction, places: int) -> str:
    digits = f"{int(number * 10**places):0{places + 1}d}"
    return f"{digits[:-places]}.{digits[-places:]}".rstrip("0").rstrip(".")
