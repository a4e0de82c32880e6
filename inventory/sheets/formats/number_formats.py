"""Numbers as a spreadsheet shows them: leading zeros, units in the format, dates."""

from __future__ import annotations

import datetime as dt
import math
import re
from decimal import ROUND_HALF_UP, Decimal
from fractions import Fraction

from inventory.core.frozen import frozen
from inventory.core.patterns import pattern

BUILT_IN = {
    1: "0", 2: "0.00", 3: "#,##0", 4: "#,##0.00", 9: "0%", 10: "0.00%", 11: "0.00E+00",
    12: "# ?/?", 13: "# ??/??", 14: "m/d/yyyy", 15: "d-mmm-yy", 16: "d-mmm", 17: "mmm-yy",
    18: "h:mm AM/PM", 19: "h:mm:ss AM/PM", 20: "h:mm", 21: "h:mm:ss", 22: "m/d/yyyy h:mm",
    37: "#,##0 ;(#,##0)", 38: "#,##0 ;[Red](#,##0)", 39: "#,##0.00;(#,##0.00)",
    40: "#,##0.00;[Red](#,##0.00)", 45: "mm:ss", 46: "[h]:mm:ss", 47: "mm:ss.0", 48: "##0.0E+0",
    49: "@",
}  # fmt: skip
"""Formats that a workbook names by number only (ECMA-376 part 1, 18.8.30)."""

_BRACKETS = pattern(r"\[[^\]]*\]")
_ELAPSED = pattern(r"\[(?:h+|m+|s+)\]", re.IGNORECASE)
_LITERAL = pattern(r'"([^"]*)"|\\(.)|_(.)|\*(.)', re.DOTALL)
_DIGITS = pattern(r"[0#?][0#?,]*(?:\.[0#?]*)?(?:E[+-]?0+)?|\.[0#?]+", re.IGNORECASE)
_FRACTION = pattern(r"(?:#\s*)?\?+\s*/\s*(\?+|[0-9]+)")
_EPOCH = dt.datetime(1899, 12, 30)  # noqa: DTZ001 - a spreadsheet's dates have no zone
_EPOCH_1904 = dt.datetime(1904, 1, 1)  # noqa: DTZ001
_LAST_SERIAL = 2_958_466
_NEVER = 60
"""29 February 1900, which never was."""


@frozen
class Shown:
    """What a number looks like, and what it is."""

    text: str
    date: bool = False
    error: bool = False


def plain_number(stored: str) -> str:
    """Return a stored number without rounding noise: `7.0` is 7, `0.30000000000000004` is 0.3."""
    if stored.isascii() and stored.isdigit() and (stored[0] != "0" or stored == "0"):
        return stored
    number = float(stored)
    if number.is_integer() and abs(number) < 1e21:  # noqa: PLR2004 - beyond it zeros mean nothing
        return str(int(number))
    return f"{number:.15g}"


def is_date_format(number_format: str) -> bool:
    """Say whether a format shows a date or a time."""
    section = number_format.split(";", 1)[0]
    if _ELAPSED.search(section):
        return True
    letters = _BRACKETS.sub("", _LITERAL.sub("", section)).lower()
    return "general" not in letters and re.search(r"[ymdhs]", letters) is not None


def shown_number(stored: str, number_format: str, *, epoch_1904: bool = False) -> Shown:
    """Return how a stored number is shown in its format; the value itself is never rounded."""
    number = float(stored)
    if not math.isfinite(number):
        return Shown("#NUM!", error=True)
    if is_date_format(number_format):
        return _shown_date(number, number_format, epoch_1904=epoch_1904)
    section, number = _section(number, number_format)
    if not section or "general" in section.lower() or "@" in section:
        return Shown(_with_literals(section, plain_number(_stored(number, stored))))
    return Shown(_in_section(number, section))


def _stored(number: float, stored: str) -> str:
    return stored if number == float(stored) else repr(number)


def _section(number: float, number_format: str) -> tuple[str, float]:
    sections = _split_sections(number_format)
    if number < 0 and len(sections) > 1:
        return _BRACKETS.sub("", sections[1]), -number
    if number == 0 and len(sections) > 2:  # noqa: PLR2004 - the third section is for zero
        return _BRACKETS.sub("", sections[2]), number
    return _BRACKETS.sub("", sections[0]), number


def _split_sections(number_format: str) -> list[str]:
    sections, quoted = [""], False
    for sign in number_format:
        quoted ^= sign == '"'
        if sign == ";" and not quoted:
            sections.append("")
        else:
            sections[-1] += sign
    return sections


def _with_literals(section: str, number: str) -> str:
    bare = re.sub("general|@", "\0", section, flags=re.IGNORECASE)
    return _LITERAL.sub(_literal, bare).replace("\0", number) if section else number


def _literal(found: re.Match[str]) -> str:
    if found[1] is not None:
        return found[1]
    return found[2] or (" " if found[3] else "")


def _in_section(number: float, section: str) -> str:
    kept: list[str] = []

    def keep(found: re.Match[str]) -> str:
        kept.append(_literal(found))
        return chr(0xE000 + len(kept) - 1)

    bare = _LITERAL.sub(keep, section)
    shown = _FRACTION.sub(lambda f: _fraction(number, f[1], whole="#" in f[0]), bare, count=1)
    if shown == bare:
        scaled = number * 100 if "%" in bare else number
        shown = _DIGITS.sub(lambda found: _digits(scaled, found[0]), bare, count=1)
    return re.sub(r"[\ue000-\uf8ff]", lambda sign: kept[ord(sign[0]) - 0xE000], shown).strip()


def _digits(number: float, pattern: str) -> str:
    mantissa, _, exponent = pattern.upper().partition("E")
    whole, _, places = mantissa.partition(".")
    if exponent:
        return f"{number:.{len(places)}E}"
    rounded = Decimal(repr(number)).quantize(Decimal(1).scaleb(-len(places)), ROUND_HALF_UP)
    digits = f"{rounded:,f}" if "," in whole else f"{rounded:f}"
    before, _, after = digits.lstrip("-").partition(".")
    after = after[: places.count("0")] + after[places.count("0") :].rstrip("0")
    before = before.zfill(whole.count("0")) if "," not in whole else before
    if not whole and before == "0":
        before = ""
    sign = "-" if rounded < 0 else ""
    return f"{sign}{before}" + (f".{after}" if after else "")


def _fraction(number: float, below: str, *, whole: bool) -> str:
    if below.isdigit():
        value = Fraction(round(number * int(below)), int(below))
    else:
        value = Fraction(number).limit_denominator(10 ** len(below) - 1)
    if not whole or abs(value) < 1:
        return str(value)
    units, rest = divmod(value, 1)
    return f"{units} {rest}" if rest else str(units)


def _shown_date(number: float, number_format: str, *, epoch_1904: bool) -> Shown:
    if not 0 <= number < _LAST_SERIAL or (int(number) == _NEVER and not epoch_1904):
        return Shown("#NUM!", date=True, error=True)
    if number < 1 and not epoch_1904:
        return Shown((_EPOCH + dt.timedelta(days=number)).strftime("%H:%M:%S"), date=True)
    early = number < _NEVER and not epoch_1904
    moment = (_EPOCH_1904 if epoch_1904 else _EPOCH) + dt.timedelta(days=number + early)
    return Shown(_in_date_format(moment, number_format.split(";", 1)[0]), date=True)


def _in_date_format(moment: dt.datetime, section: str) -> str:
    letters = _BRACKETS.sub("", _LITERAL.sub("", section)).lower()
    if "h" in letters or "s" in letters or _ELAPSED.search(section):
        return moment.isoformat(" ", "minutes")
    month = f"{moment:%b}" if "mmm" in letters else str(moment.month)
    if "y" not in letters:
        day_first = letters.find("d") < letters.find("m")
        mark = "-" if "-" in letters else "/"
        return mark.join((str(moment.day), month) if day_first else (month, str(moment.day)))
    if "d" not in letters:
        return f"{month}-{moment:%y}"
    return moment.date().isoformat()
