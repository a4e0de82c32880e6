"""A list written as a person writes one: `4 x T2-101  Rib (LH)`, a line for each part."""

from __future__ import annotations

import re
from functools import partial
from typing import TYPE_CHECKING

from inventory.core.measures.printed_quantity import QuantityKind
from inventory.core.measures.quantities import parse_quantity
from inventory.sheets.formats.plain_text import row_of
from inventory.sheets.packing.packing_vocabulary import VOCABULARY
from inventory.sheets.packing.profiles import is_part_like

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.formats.book import Row

Cells = tuple[str, str, str]
"""How many, part number, other words."""

_QUOTED = re.compile(r"^(?:>\s?)+")
_BULLET = re.compile(
    r"^\s*(?:(?:[-*•·–]|\(?[0-9]{1,3}[.)])\s+)?(?:(?:item|part|p/?n|no\.?)[:.]?\s+)?", re.IGNORECASE
)
_WORD = re.compile(r"[^\s,;:]+")
_NAMED = re.compile(r"(?P<part>[^\s,;:]+)(?P<words>(?:[\s,;:–-].*)?)")
_LAST = re.compile(
    r"(?P<words>.*?)(?:^|[\s,;:(–-]+)(?P<pieces>(?:qty|[x×])?\.?\s*[0-9]+(?:\s*[a-z×.]+)?"
    r"(?:[\s,/+&]+[0-9]+\s*(?:LH?|RH?|LEFT|RIGHT)\.?)?)\)?",
    re.IGNORECASE,
)
_GERMAN_PIECES = re.compile(r"stk\.?", re.IGNORECASE)
_TIMES = re.compile(
    r"(?P<pieces>[0-9]{1,5}\s?(?:[x×]|off|ea|pcs?)\.?)\s+(?P<words>.*\s)(?P<part>\S+)",
    re.IGNORECASE,
)
_FAR_BEHIND = re.compile(r"(?P<words>.*?) {2,}(?P<pieces>[0-9]{1,6})")
"""A bare number set apart at the end, as in a column of its own."""
_WIDE_GAP = re.compile(r"\s{2,}")
_EDGES = " \t,;:–-"
_FARTHEST = 6
"""The part number is at most so many words from the line's beginning."""
_FEW = 3
_SHARE = 0.4
"""Of all lines with a digit, so many must count a part; the rest is greeting and titles."""
_SAMPLE = 400
"""Lines looked at to tell whether a text is of this kind."""


def counted_rows(lines: Sequence[str], name: str) -> list[Row] | None:
    """Return rows of pieces, part number and words; None where too few lines are of this kind."""
    if any(map(_names_columns, lines[:_SAMPLE])):
        return None
    sample = [_cells(line) for line in lines[:_SAMPLE] if any(map(str.isdigit, line))]
    counted = sum(bool(pieces and part) for pieces, part, _ in sample)
    if counted < _FEW or counted < _SHARE * len(sample):
        return None
    rows = [row_of(number, _cells(line), name) for number, line in enumerate(lines, 1)]
    while rows and rows[-1].blank:
        rows.pop()
    return rows


def _names_columns(line: str) -> bool:
    """Say whether a line names columns set apart by wide gaps: a table follows, not a note."""
    pieces = _WIDE_GAP.split(_QUOTED.sub("", line).strip())
    meanings = {VOCABULARY.meaning(piece) for piece in pieces} - {""}
    enough = len(meanings) >= _FEW and len(meanings) == len(pieces)
    return enough and all(meanings & group for group in VOCABULARY.needed)


def _cells(line: str) -> Cells:
    text = _BULLET.sub("", _QUOTED.sub("", line)).rstrip()
    for form in (_pieces_first, _pieces_last, partial(_pieces_last, named=False), _named):
        found = form(text)
        if found is not None:
            return found
    return "", "", text.strip()


def _pieces_first(text: str) -> Cells | None:
    """Read `1 bag of 50 AN365-1032A nuts`: all before the part number says how many."""
    if not text[:1].isdigit():
        return None
    for word in list(_WORD.finditer(text))[1:_FARTHEST]:
        pieces = text[: word.start()].rstrip(_EDGES)
        if is_part_like(word[0]) and _counts(pieces):
            return pieces, word[0], text[word.end() :].strip(_EDGES)
    return _named_behind(text)


def _named_behind(text: str) -> Cells | None:
    """Read `2 x cotter pin P380-2-2`: the last word is the part number."""
    found = _TIMES.fullmatch(text)
    if found is None or not is_part_like(found["part"]):
        return None
    return found["pieces"], found["part"], found["words"].strip(_EDGES)


def _pieces_last(text: str, *, named: bool = True) -> Cells | None:
    """Read `T2-101 rib - 4 off`, or without a part number `angle, 4 ft, 3 lengths`."""
    head = _NAMED.fullmatch(text) if named else None
    if named and not (head and is_part_like(head["part"])):
        return None
    rest = head["words"] if head else text
    found = (_FAR_BEHIND.fullmatch(rest) if head else None) or _LAST.fullmatch(rest)
    if found is None or not (found.re is _FAR_BEHIND or _counts(found["pieces"])):
        return None
    return found["pieces"].strip(), head["part"] if head else "", found["words"].strip(_EDGES)


def _named(text: str) -> Cells | None:
    """Read `T2-101 to follow`, and `3 T2-101`, which may be the line's own number; it is asked."""
    _, gap, behind = text.partition(" ")
    found = _NAMED.fullmatch(text)
    if found and is_part_like(found["part"]):
        return "", found["part"], found["words"].strip(_EDGES)
    return _named(behind) if gap and text[: -len(behind) - 1].isdigit() else None


def _counts(text: str) -> bool:
    """Say whether a text is a number of pieces: with a word, as it may be the line's own number."""
    said = parse_quantity(_GERMAN_PIECES.sub("pcs", text))
    return not text.strip().isdigit() and said.kind is QuantityKind.NUMBER and not said.doubt
