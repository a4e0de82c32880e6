"""A part number as printed, and what of it is the number: marks, revision, damage told apart."""

from __future__ import annotations

import re
import unicodedata

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.patterns import pattern


@frozen(kw_only=True)
class PrintedNumber:
    """What a part-number cell says."""

    part: str
    """The number's key, without marks and revision; empty where the cell holds no number."""
    revision: str = ""
    level: int = 0
    """Leading dots: how deep the part stands in an assembly or bag."""
    footnote: str = ""
    doubt: str = ""
    """Why a person must say which number is meant; empty where it is plain."""
    guesses: tuple[str, ...] = ()
    """Numbers that may be meant, none of them taken."""


_ORDINARY = pattern(r"[A-Z0-9]+(?:[-.][A-Z0-9]+)*")
_REVISION = pattern(
    r"(?P<part>.+?)[\s,/(-]*\(?\b(?:REV(?:ISION)?|ISSUE|ISS)\b[.:\s#-]*(?P<revision>[A-Z0-9]{1,3})\)?"
)
_DRESSING = pattern(r"^(?:P/?N\b[:.#\s]*|PART NO\b[:.\s]*|[\"'`´‘’“”]+)|[\"'`´‘’“”]+$")
_DOTS = pattern(r"^((?:[.·•>]\s*)+)(?=[^\s.])")
_FOOTNOTE = pattern(r"\s*([*†‡§]+)$")
_MONTHS = (
    *("JAN", "FEB", "MAR", "APR", "MAY", "JUN"),
    *("JUL", "AUG", "SEP", "OCT", "NOV", "DEC"),
)
_DAY_MONTH = pattern(
    rf"(?:([0-9]{{1,2}})-({'|'.join(_MONTHS)})|({'|'.join(_MONTHS)})-([0-9]{{1,2}}))"
)
_ISO_DATE = pattern(r"[0-9]{4}-([0-9]{2})-([0-9]{2})(?:[ T]00:00(?::00)?)?")
_SCIENTIFIC = pattern(r"([0-9])\.([0-9]*)E\+([0-9]{2,3})")
_TWO_NUMBERS = pattern(
    r"(?P<one>[A-Z0-9][A-Z0-9.-]{3,})\s*(?:\n|\s/\s|/|\s+OR\s+|\s*[,;]\s*|\s+\(|\s+=\s+)\s*"
    r"(?P<two>[A-Z0-9][A-Z0-9.-]{3,})\)?"
)
_LOOKALIKES = str.maketrans("АВЕКМНОРСТУХΑΒΕΖΗΙΚΜΝΟΡΤΥΧ", "ABEKMHOPCTYXABEZHIKMNOPTYX")
"""Cyrillic and Greek capitals that print like Latin ones."""
_DIGITS_WITH_LETTERS = pattern(
    r"(?<![A-Z0-9])(?=[0-9OI]*[0-9])(?=[0-9OI]*[OI])[0-9OI]{3,}(?![A-Z0-9])"
    r"|(?<=[0-9])[OI]+(?=[0-9])"
)
_A_HAND = pattern(
    r"(?:[LR]\.?/?H\.?|LHS|RHS|LEFT|RIGHT|PORT|STBD|STARBOARD|PAIR)"
    r"(?:\s*[/&+]\s*(?:[LR]\.?/?H\.?|LEFT|RIGHT|PORT|STBD))?"
)
_AS_DIGITS = str.maketrans("OI", "01")


def read_part_number(text: str) -> PrintedNumber:
    """Return what a part-number cell says; nothing is repaired, what is doubtful is said."""
    plain = part_key(text)
    if _ORDINARY.fullmatch(plain) and not _looks_spoilt(plain):
        return PrintedNumber(part=plain)
    return _dressed(text, plain)


def _looks_spoilt(plain: str) -> bool:
    spoilt = _DAY_MONTH.fullmatch(plain) or _ISO_DATE.fullmatch(plain) or _A_HAND.fullmatch(plain)
    return bool(spoilt or mixed_digits(plain))


def _dressed(text: str, plain: str) -> PrintedNumber:
    dots = _DOTS.match(plain)
    level = sum(not sign.isspace() for sign in dots[1]) if dots else 0
    plain = _DRESSING.sub("", _DRESSING.sub("", plain[dots.end() :] if dots else plain)).strip()
    footnote = _FOOTNOTE.search(plain)
    plain = plain[: footnote.start()] if footnote else plain
    revision = _REVISION.fullmatch(plain)
    part = revision["part"].rstrip(" ,/(-") if revision else plain
    doubt, guesses = _doubt(part, text)
    return PrintedNumber(
        part=part,
        revision=revision["revision"] if revision else "",
        level=level,
        footnote=footnote[1] if footnote else "",
        doubt=doubt,
        guesses=guesses,
    )


def _doubt(part: str, text: str) -> tuple[str, tuple[str, ...]]:
    for find in (_date, _hand_alone, _scientific, _foreign_letters, _two_numbers, _mixed):
        found = find(part, text)
        if found is not None:
            return found
    return "", ()


def _date(part: str, _: str) -> tuple[str, tuple[str, ...]] | None:
    found = _DAY_MONTH.fullmatch(part)
    if found:
        month = _MONTHS.index(found[2] or found[3]) + 1
        return "it became a date", numbers_of_date(int(found[1] or found[4]), month)
    iso = _ISO_DATE.fullmatch(part)
    return ("it became a date", numbers_of_date(int(iso[2]), int(iso[1]))) if iso else None


def _hand_alone(part: str, _: str) -> tuple[str, tuple[str, ...]] | None:
    """Doubt a number that is nothing but a hand: cells have slipped, or it belongs to another."""
    return ("it says a hand, and no number", (part,)) if _A_HAND.fullmatch(part) else None


def numbers_of_date(day: int, month: int) -> tuple[str, ...]:
    """Return the part numbers that a spreadsheet may have turned into this date."""
    return (
        f"{day}-{month}", f"{month}-{day}", f"{day:02d}-{month:02d}", f"{month:02d}-{day:02d}",
        f"{day}/{month}", f"{month}/{day}",
    )  # fmt: skip


def _scientific(part: str, _: str) -> tuple[str, tuple[str, ...]] | None:
    found = _SCIENTIFIC.fullmatch(part)
    if found is None:
        return None
    digits, power = found[1] + found[2].rstrip("0"), int(found[3])
    short = f"{digits}E{power - len(digits) + 1}"
    return "it became a number with an exponent", (short, digits.ljust(power + 1, "0"))


def _foreign_letters(part: str, _: str) -> tuple[str, tuple[str, ...]] | None:
    foreign = [
        sign for sign in part
        if sign.isalpha() and not unicodedata.name(sign, "").startswith("LATIN")
    ]  # fmt: skip
    if foreign:
        name = unicodedata.name(foreign[0], "an unknown sign").lower()
        latin = part.translate(_LOOKALIKES)
        return f"it holds {name}", (latin,) if latin.isascii() else ()
    return ("it holds a sign that can't be printed", ()) if "⟨U+" in part else None


def _two_numbers(_: str, text: str) -> tuple[str, tuple[str, ...]] | None:
    found = _TWO_NUMBERS.fullmatch(text.strip().upper())
    if found is None or not all(re.search("[0-9]", found[each]) for each in ("one", "two")):
        return None
    return "two part numbers stand in one cell", (part_key(found["one"]), part_key(found["two"]))


def mixed_digits(part: str) -> str:
    """Return the number with O read as 0 and I as 1 inside its digits; empty where none stands."""
    repaired = _DIGITS_WITH_LETTERS.sub(lambda run: run[0].translate(_AS_DIGITS), part)
    return "" if repaired == part else repaired


def _mixed(part: str, _: str) -> tuple[str, tuple[str, ...]] | None:
    repaired = mixed_digits(part)
    if not repaired:
        return None
    return "a letter O or I stands among its digits", (repaired, part)
