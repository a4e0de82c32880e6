"""Single cells of a plan, read without guessing: each gives a value or says what is wrong."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.errors import InventoryError
from inventory.core.items import Hand, Measure
from inventory.core.measures.lengths import parse_length
from inventory.core.measures.units import EACH, amount_of, find_unit, meanings
from inventory.core.planning.plan import NeedKind
from inventory.sheets.formats.book import CellKind

if TYPE_CHECKING:
    from inventory.core.measures.units import Unit
    from inventory.sheets.formats.book import Cell

_AS_REQUIRED = re.compile(r"a\s*/?\s*r\.?|as\s+req(?:uired|'?d|\.)?\.?", re.IGNORECASE)
_NUMBER = re.compile(
    r"x?\s*(-?(?:[0-9]+[\s-]+[0-9]+/[0-9]+|[0-9]+/[0-9]+|[0-9]*\.[0-9]+|[0-9]+\.?))\s*x?(?:\s*([^\s0-9.,/-].*))?",
    re.IGNORECASE,
)
_HANDS = {
    Hand.LEFT: "l lh left left-hand lefthand port l/h",
    Hand.RIGHT: "r rh right right-hand righthand starboard stbd r/h",
    Hand.EITHER: "either any e",
    Hand.NONE: "none - n/a na",
}
_HAND = {word: hand for hand, words in _HANDS.items() for word in words.split()}
_BOTH = re.compile(r"l\s*[/&+,]\s*r|lh\s*[/&+,]\s*rh|left\s*(?:[/&+,]|and)\s*right|both|pair")
_KINDS = {
    NeedKind.PART: "part parts p",
    NeedKind.HARDWARE: "hardware hw fastener fasteners rivet rivets",
    NeedKind.CUT: "cut cut-piece stock piece bar",
    NeedKind.CONSUMABLE: "consumable consumables",
    NeedKind.TOOL: "tool tools jig",
}
_KIND = {word: kind for kind, words in _KINDS.items() for word in words.split()}


class Doubt(ValueError):  # noqa: N818  it is a doubt, turned into a Problem by the caller
    """A cell that can't be read: what is wrong, and what to write instead."""

    def __init__(self, what: str, remedy: str) -> None:
        super().__init__(what)
        self.what = what
        self.remedy = remedy


class Quantity(NamedTuple):
    """What a quantity cell says, with its unit."""

    amount: int
    measure: Measure
    as_required: bool


def plain_text(cell: Cell) -> str:
    """Return the cell's text; a date or an error is no text and raises `Doubt`."""
    if cell.kind is CellKind.DATE:
        raise Doubt(
            f"the cell holds a date ({cell.text}): the spreadsheet took a code or a size for one",
            "Give the cell the format text and write it again",
        )
    if cell.kind is CellKind.ERROR:
        raise Doubt(
            f"the cell holds {cell.text or 'a formula without a result'}",
            "Write the value itself, or save the file where its formulas are worked out",
        )
    return cell.text


def number_in(cell: Cell) -> str:
    """Return a number as the file stores it rather than as its format rounds it."""
    stored = cell.mark.value if cell.kind is CellKind.NUMBER else ""
    return stored or plain_text(cell)


def quantity_of(cell: Cell, unit_text: str) -> Quantity:
    """Return what a quantity cell and its unit cell say."""
    text = number_in(cell).strip()
    if _AS_REQUIRED.fullmatch(text):
        return Quantity(0, Measure.PIECES, as_required=True)
    found = _NUMBER.fullmatch(text)
    if found is None:
        raise Doubt(
            f"{text!r} is no quantity" if text else "there is no quantity",
            "Write a number in plain digits, or AR (as required)",
        )
    unit = _unit(found[2] or unit_text)
    number = _fraction(found[1])
    if number < 0:
        raise Doubt(f"the quantity {text} is negative", "Write 1 or more, or AR (as required)")
    amount = amount_of(number, unit)
    if amount is None:
        raise Doubt(f"{text} {unit.word} isn't whole", "Write whole pieces, or another unit")
    return Quantity(amount.quantity, unit.measure, as_required=False)


def _fraction(text: str) -> Fraction:
    sign = -1 if text.startswith("-") else 1
    whole, _, part = text.lstrip("-").replace("-", " ").rpartition(" ")
    if re.search(r"/0+$", part):
        raise Doubt(f"{text!r} is over zero", "Write a number in plain digits")
    return sign * (Fraction(whole.strip() or 0) + Fraction(part.rstrip(".")))


def _unit(word: str) -> Unit:
    if not word.strip():
        return EACH
    unit = find_unit(word)
    if unit is None:
        means = meanings(word)
        raise Doubt(
            f"the unit {word!r} can mean {' or '.join(means)}"
            if means
            else f"the unit {word!r} is unknown",
            "Write the unit out",
        )
    if unit.word == "pair":
        raise Doubt(
            "a pair can be one left and one right, or two alike",
            "Write single pieces: one row for the left and one for the right",
        )
    return unit


def spare_of(cell: Cell, needed: int, unit_text: str) -> int:
    """Return the spare allowance; a per cent of the quantity is rounded up to whole units."""
    text = number_in(cell).strip()
    if not text or text == "-":
        return 0
    share = re.fullmatch(r"([0-9]+(?:\.[0-9]+)?)\s*%", cell.text.strip())
    if share:
        return -(-needed * Fraction(share[1]) // 100)
    spare = quantity_of(cell, unit_text)
    if spare.as_required:
        raise Doubt("a spare allowance can't be as-required", "Write a number, or nothing")
    return spare.amount


def hand_of(text: str) -> Hand:
    """Return the hand that a cell names; an empty one names none."""
    plain = " ".join(text.casefold().replace(".", "").split())
    if _BOTH.fullmatch(plain):
        raise Doubt(
            f"{text!r} names both hands, and not how many of each",
            "Write one row for the left and one for the right",
        )
    hand = _HAND.get(plain, None if plain else Hand.NONE)
    if hand is None:
        raise Doubt(f"{text!r} is no hand", "Write LH, RH or EITHER, or leave it empty")
    return hand


def kind_of(text: str, *, cut: bool, measure: Measure) -> NeedKind:
    """Return the kind; without a word a row with a length is cut, one by volume a consumable."""
    plain = text.casefold().strip()
    if not plain:
        if cut:
            return NeedKind.CUT
        liquid = measure in {Measure.MASS, Measure.VOLUME}
        return NeedKind.CONSUMABLE if liquid else NeedKind.PART
    if plain not in _KIND:
        raise Doubt(
            f"{text!r} is no kind of need", f"Write {', '.join(NeedKind)}, or leave it empty"
        )
    return _KIND[plain]


def length_of(cell: Cell, unit: str) -> int:
    """Return a length in nanometres; 0 for an empty cell."""
    text = number_in(cell).strip()
    if not text or text == "-":
        return 0
    try:
        length = parse_length(text, unit=unit)
    except InventoryError as refusal:
        raise Doubt(refusal.what, refusal.remedy) from refusal
    return length


def whole_of(cell: Cell) -> int | None:
    """Return a whole number of 0 or more; None for an empty cell."""
    text = number_in(cell).strip()
    if not text or text == "-":
        return None
    if not re.fullmatch(r"[0-9]{1,9}(?:\.0*)?", text):
        raise Doubt(f"{text!r} isn't a whole number", "Write 0 or more in plain digits")
    return int(text.partition(".")[0])


def codes_of(text: str) -> tuple[str, ...]:
    """Return the step codes that a cell lists, by comma, semicolon or line."""
    parts = (" ".join(part.split()) for part in re.split(r"[,;\n]|\band\b|&", text))
    return tuple(dict.fromkeys(part for part in parts if part and part not in {"-", "none"}))
