"""The part-number cell of a row: the number as meant, or a question what is meant."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import lru_cache
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.lists.hand_of_numbers import numbers_of_two_dashes
from inventory.core.parts.part_numbers import PrintedNumber, numbers_of_date, read_part_number
from inventory.sheets.formats.book import PLAIN_TEXT, CellKind, Mark

if TYPE_CHECKING:
    from inventory.sheets.packing.list_evidence import Evidence
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking

_NO_NUMBER = re.compile(
    r"[-–—.?_]+|N\.?/?A\.?|NONE|TBD|TBA|NO (?:P/?N|NUMBER|PART NO\.?)", re.IGNORECASE
)
"""What stands in a part-number cell for: it has none."""
_MOST_DIGITS = 15
"""Digits a spreadsheet's number keeps; longer part numbers lose their end."""


@frozen
class NumberRead:
    """What the part-number cell gives."""

    part: str
    revision: str = ""
    footnote: str = ""
    two: tuple[str, str] | None = None
    """Two dash numbers printed as one: `0412-1/-2`."""


@lru_cache(maxsize=65536)
def _printed(text: str) -> PrintedNumber:
    return read_part_number(text)


def part_of(row: OpenRow) -> NumberRead:
    """Return the number of a row; a spoilt or doubtful one is asked, never repaired."""
    view, evidence, asking = row.view, row.evidence, row.asking
    text = row.printed
    if not text or _NO_NUMBER.fullmatch(text):
        return _without_number(row)
    printed = _printed(text)
    place = view.table.place("part")
    mark = PLAIN_TEXT if view.ditto else view.row.mark(place)
    spoilt = _struck(text, mark)
    if spoilt is None and mark.kind is not CellKind.TEXT:
        spoilt = _spoilt(text, mark, evidence)
    doubt = spoilt or (printed if printed.doubt else None)
    two = numbers_of_two_dashes(text) if "/" in text or "&" in text or "," in text else None
    if doubt is None or two:
        return NumberRead(printed.part, printed.revision, printed.footnote, two)
    if printed.guesses and part_key(text) == printed.guesses[-1] and _stands_alone(doubt, evidence):
        doubt = replace(doubt, doubt=f"{doubt.doubt}; no other number on the list is written so")
    return _asked(printed, doubt, asking)


def _is_number(answer: str) -> bool:
    return bool(part_key(answer))


def _stands_alone(doubt: PrintedNumber, evidence: Evidence) -> bool:
    return bool(doubt.guesses) and doubt.guesses[0] not in evidence.parts


def _asked(printed: PrintedNumber, doubt: PrintedNumber, asking: RowAsking) -> NumberRead:
    readings = {guess: f"the part is {guess}" for guess in doubt.guesses}
    answer = asking.about_row("part", f"{printed.part!r}: {doubt.doubt}", readings, _is_number)
    if answer is None:
        asking.unknown.add("part")
        return NumberRead(printed.part, printed.revision, printed.footnote)
    return NumberRead(part_key(answer), printed.revision, printed.footnote)


def _without_number(row: OpenRow) -> NumberRead:
    view, asking = row.view, row.asking
    name = part_key(view.description)
    if not view.table.places("part"):
        return NumberRead(name)
    readings = {name: "the part is known by its description"} if name else {}
    if row.part.above:
        readings[part_key(row.part.above)] = "the part of the row above"
    answer = asking.about_row(
        "part",
        f"{view.description[:40]!r} has a quantity but no part number",
        readings,
        _is_number,
    )
    if answer is None:
        asking.unknown.add("part")
    return NumberRead(part_key(answer or name))


def _spoilt(text: str, mark: Mark, evidence: Evidence) -> PrintedNumber | None:
    """Return why a cell that isn't text may not hold the number as it was typed."""
    match mark.kind:
        case CellKind.DATE:
            return _date(text, mark)
        case CellKind.ERROR | CellKind.BOOLEAN:
            return PrintedNumber(part=text, doubt=f"the cell holds {text}, not a number")
        case CellKind.NUMBER:
            return _odd_number(text, mark) or _number(text, evidence)
        case CellKind.TEXT | CellKind.BLANK:
            return None


def _odd_number(text: str, mark: Mark) -> PrintedNumber | None:
    shown_as = mark.number_format.upper()
    if "E" in shown_as and "GENERAL" not in shown_as:
        short = text.upper().replace("E+0", "E").replace("E+", "E").replace(".00", "")
        return PrintedNumber(
            part=text, doubt="it became a number with an exponent", guesses=(short, mark.value)
        )
    if not text.isdigit() or (mark.value and mark.value != text and not _only_zeros(text, mark)):
        return PrintedNumber(part=text, doubt="it is a number, not text; ends may be lost")
    if len(text) > _MOST_DIGITS:
        return PrintedNumber(part=text, doubt="the spreadsheet rounds numbers this long")
    return None


def _struck(text: str, mark: Mark) -> PrintedNumber | None:
    """Return the doubt about a number of which a part is struck out."""
    if not mark.part_struck:
        return None
    rest = part_key(text.replace(mark.part_struck, " "))
    guesses = (rest, part_key(mark.part_struck)) if rest else (part_key(mark.part_struck),)
    return PrintedNumber(part=text, doubt="a part of the cell is struck out", guesses=guesses)


def _only_zeros(text: str, mark: Mark) -> bool:
    """Say whether the shown text is the number with the leading zeros its format gives it."""
    return text.lstrip("0") == mark.value.lstrip("0")


def _number(text: str, evidence: Evidence) -> PrintedNumber | None:
    if evidence.plain_digits and len(text) < evidence.plain_digits:
        filled = text.zfill(evidence.plain_digits)
        if text != filled:
            return PrintedNumber(
                part=text, doubt="leading zeros may be lost", guesses=(filled, text)
            )
    if evidence.few_plain_numbers:
        return PrintedNumber(
            part=text,
            doubt="it is a plain number among numbers with letters; it may have been changed",
            guesses=(text,),
        )
    return None


def _date(text: str, mark: Mark) -> PrintedNumber:
    printed = read_part_number(text)
    guesses = printed.guesses
    digits = [int(run) for run in text.replace("/", "-").split("-") if run.isdigit()]
    if not guesses and len(digits) == 2 and mark.number_format:  # noqa: PLR2004 - day and month
        guesses = numbers_of_date(digits[0], digits[1])
    return PrintedNumber(part=text, doubt="it became a date", guesses=guesses)
