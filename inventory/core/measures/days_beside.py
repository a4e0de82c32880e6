"""The day or week that stands beside a quantity to follow: 6 (wk 37), 2 due 4/2026."""

from __future__ import annotations

import re

from inventory.core.patterns import pattern

_WEEK = r"(?:W(?:EE)?K|KW|V|VECKA|UGE|UKE|SEM(?:AINE|ANA)?|SETT|TYDZ|TÝDEN|VKO)"
_WORD = (
    rf"(?:DUE|ETA|EXP(?:ECTED)?|BY|BIS|UNTIL|DO|VOR|PREV(?:ISTO)?|PR[ÉE]VU|LE|IL|EL|AM|ON|{_WEEK})"
)
_DAY = r"(?:[0-9]{1,4}(?:[-./] ?[0-9]{1,4}){1,2}\.?|[0-9]{1,2}\.? ?[A-Z]{3,9}\.?(?: ?[0-9]{2,4})?)"
_WHEN = rf"(?:{_WORD}[\s.:]*)+{_DAY}|(?:{_WORD}[\s.:]*)*{_WEEK}[\s.:]*[0-9]{{1,2}}"
_BESIDE = pattern(
    rf"(?P<number>[0-9]{{1,6}})\s*(?:[,;]?\s*\((?:{_WHEN}|{_DAY})\)|[,;]?\s+(?:{_WHEN}))",
    re.IGNORECASE,
)


def without_day(text: str) -> str:
    """Return the quantity alone where a day or a week follows it; any other text as it is."""
    if " " not in text and "(" not in text:
        return text
    found = _BESIDE.fullmatch(" ".join(text.split()))
    return found["number"] if found else text
