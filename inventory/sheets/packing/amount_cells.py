"""The amounts of a row: what each cell says, in which unit, and what is asked about it."""

from __future__ import annotations

import re
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Measure
from inventory.core.measures.days_beside import without_day
from inventory.core.measures.printed_quantity import PrintedQuantity, QuantityKind
from inventory.core.measures.quantities import COMMA_DOUBT, parse_quantity
from inventory.core.measures.units import EACH, UNITS, find_unit, meanings
from inventory.sheets.formats.book import CellKind
from inventory.sheets.formats.xlsx_cells import NEVER_CALCULATED
from inventory.sheets.packing.decimal_sign import thousand_or_one
from inventory.sheets.packing.packing_vocabulary import COUNTED
from inventory.sheets.packing.row_views import COUNTING, quantity_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.measures.units import Unit
    from inventory.sheets.formats.book import Mark
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking

_MOST = 10_000_000
"""Pieces on one line; more is a slip of the keyboard."""
_PACKED = re.compile(r"([A-Z]{1,8})\.?\s*[(/\[]\s*([0-9]{1,5})\s*[)\]]?", re.IGNORECASE)
_SPOKEN = {
    "quantity": "quantity",
    "ordered": "ordered",
    "shipped": "shipped",
    "back_ordered": "back-ordered",
    "left": "left",
    "right": "right",
    "unhanded": "unhanded",
    "extended": "total",
    "per_assembly": "quantity per assembly",
    "shipped_before": "shipped before",
    "assemblies": "number of assemblies",
    "per_package": "pieces per package",
}


POINT_DOUBT = "the point can be a decimal point or part a thousand"
_THOUSANDS = {COMMA_DOUBT: ",", POINT_DOUBT: "."}
"""Doubts that one answer settles for the whole list, with the sign each is about."""


@frozen
class UnitRead:
    """The unit of a row's amounts."""

    unit: Unit
    word: str
    """As printed; empty where none is."""
    known: bool = True
    """False where the word stands for several units and nobody has said which."""
    content: int = 1
    """Pieces in each package that the quantity counts: `BX (100)`."""


def read_amounts(row: OpenRow) -> dict[str, PrintedQuantity]:
    """Return what the amount cells say; those that can't be taken as they stand are asked."""
    view, asking = row.view, row.asking
    found: dict[str, PrintedQuantity] = {}
    marked = view.row.marks
    for column in view.table.columns:
        if column.meaning not in COUNTED or column.meaning in found:
            continue
        text = view.row.text(column.place)
        if not text:
            continue
        if column.meaning == "back_ordered":
            text = without_day(text)
        quantity = _by_sign(text, quantity_of(text), row)
        mark = marked.get(column.place)
        if mark is not None:
            quantity = _marked(quantity, mark)
        if _plain(quantity) or _marks_a_column(column.meaning, quantity):
            found[column.meaning] = quantity
        else:
            asked = _asked(column.meaning, text, quantity, asking)
            if asked is not None:
                found[column.meaning] = asked
    return found


def _by_sign(text: str, quantity: PrintedQuantity, row: OpenRow) -> PrintedQuantity:
    """Take 1,200 and 1.000 for what the list's own decimals make of them; else they are asked."""
    point = thousand_or_one(text) == "."
    if not (point and _counts_pieces(row)) and quantity.doubt != COMMA_DOUBT:
        return quantity
    sign = row.evidence.decimal_sign()
    if not sign:
        return replace(quantity, doubt=POINT_DOUBT) if point else quantity
    return _with_sign(text, sign)


def _with_sign(text: str, decimal: str) -> PrintedQuantity:
    """Read an amount whose decimals are parted by this sign, its thousands by the other."""
    plain = text.replace("." if decimal == "," else ",", "")
    return parse_quantity(plain, decimal_comma=decimal == ",")


def _counts_pieces(row: OpenRow) -> bool:
    word = row.view.text("unit") or row.view.table.quantity_unit
    unit = find_unit(word) if word else EACH
    return unit is None or unit.measure is Measure.PIECES


def _plain(quantity: PrintedQuantity) -> bool:
    usual = quantity.kind is not QuantityKind.UNREADABLE and not quantity.doubt
    return usual and quantity.kind is not QuantityKind.TICK and quantity.number <= _MOST


def _marks_a_column(meaning: str, quantity: PrintedQuantity) -> bool:
    """Say whether a tick says all that its column asks: to follow, left, right."""
    return meaning in {"back_ordered", "left", "right"} and quantity.kind is QuantityKind.TICK


def _marked(quantity: PrintedQuantity, mark: Mark) -> PrintedQuantity:
    """Take the number a cell stores for what its format shows, and say what is wrong with it."""
    if mark.kind in {CellKind.ERROR, CellKind.DATE, CellKind.BOOLEAN}:
        why = {
            CellKind.ERROR: "the formula was never calculated, or is broken",
            CellKind.DATE: "it became a date",
        }.get(mark.kind, "it is true or false, not a number")
        never = mark.value == NEVER_CALCULATED
        return PrintedQuantity(
            kind=QuantityKind.UNREADABLE,
            doubt="the formula was never calculated" if never else why,
        )
    if mark.part_struck:
        return replace(quantity, doubt="a part of it is struck out")
    if mark.kind is CellKind.NUMBER and mark.value:
        stored = Fraction(Decimal(mark.value))
        if quantity.number != stored:
            return PrintedQuantity(number=stored, unit=quantity.unit)
    if mark.formula and quantity.kind is QuantityKind.NUMBER and quantity.number == 0:
        return replace(quantity, doubt="the formula gives 0; it may never have been calculated")
    return quantity


def _asked(
    meaning: str, text: str, quantity: PrintedQuantity, asking: RowAsking
) -> PrintedQuantity | None:
    if quantity.doubt in _THOUSANDS:
        return _asked_thousand(meaning, text, quantity.doubt, asking)
    spoken = _SPOKEN[meaning]
    guess = f"{quantity.number}" if quantity.number > 0 else ""
    answer = asking.about_row(
        "quantity" if meaning == "quantity" else f"{spoken} quantity",
        f"{text[:40]!r} as {spoken}: {_why(quantity)}",
        {guess: f"{spoken} {guess}"} if guess else {},
        is_quantity,
    )
    if answer is None:
        leave_open(meaning, asking)
        return None
    return parse_quantity(answer, decimal_comma=False)


def is_quantity(answer: str) -> bool:
    """Say whether a typed answer can be taken for a quantity."""
    quantity = parse_quantity(answer, decimal_comma=False)
    return quantity.kind in COUNTING and not quantity.doubt


def _why(quantity: PrintedQuantity) -> str:
    if quantity.doubt:
        return quantity.doubt
    if quantity.kind is QuantityKind.TICK:
        return "it is a tick, not a number"
    return "it is too much for one line" if quantity.number else "it isn't a quantity"


def _asked_thousand(
    meaning: str, text: str, doubt: str, asking: RowAsking
) -> PrintedQuantity | None:
    sign = _THOUSANDS[doubt]
    name = "comma" if sign == "," else "point"
    answer = asking.about_list(
        name,
        f"is {text[:20]!r} a number over a thousand, or has it a decimal {name}?",
        {"thousand": f"1{sign}200 is 1200", "decimal": f"1{sign}200 is 1.2"},
    )
    if answer is None:
        leave_open(meaning, asking)
        return None
    other = "." if sign == "," else ","
    return _with_sign(text, sign if answer == "decimal" else other)


def leave_open(meaning: str, asking: RowAsking) -> None:
    """Note that an amount isn't known; a lone quantity leaves all of them open."""
    known = {"ordered", "shipped", "back_ordered"}
    asking.unknown.update({meaning} if meaning in known else known)


def unit_of(row: OpenRow, amounts: Mapping[str, PrintedQuantity]) -> UnitRead:
    """Return the unit of a row: the amount's own, else its column's, else the heading's, else each.

    A word that stands for units of different size, or for none, is asked about once.
    """
    view, asking = row.view, row.asking
    own = next((q for q in amounts.values() if q.unit), None)
    column = view.text("unit")
    if own is not None and own.content:
        return UnitRead(EACH, own.unit)
    word = own.unit if own is not None else column or view.table.quantity_unit
    if not word or word.isdigit():
        return UnitRead(EACH, "")
    packed = _PACKED.fullmatch(word)
    if packed:
        return _packed(word, packed)
    unit = _abroad(word, row) or _unit(word, asking)
    if unit is not None and own is not None and column and not column.isdigit():
        unit = _one_of(unit, _unit(column, asking) or unit, asking)
    return UnitRead(unit or EACH, word, known=unit is not None)


def _packed(word: str, found: re.Match[str]) -> UnitRead:
    """Read a unit that says its own size: `M (1000)`, `C/100`, `BX (50)`."""
    size = int(found[2])
    named = {100: "hundred", 1000: "thousand"}.get(size)
    unit = find_unit(found[1])
    if named and (named in meanings(found[1]) or unit is UNITS[named]):
        return UnitRead(UNITS[named], word)
    return UnitRead(EACH, word, content=size)


_ABROAD = {"m": UNITS["metre"], "st": UNITS["piece"]}
"""Where a hand is said in another language: neither a thousand nor a sheet. Common practice."""


def _abroad(word: str, row: OpenRow) -> Unit | None:
    return _ABROAD.get(word.strip(" .")) if row.evidence.abroad else None


def _unit(word: str, asking: RowAsking) -> Unit | None:
    unit = find_unit(word)
    if unit is not None:
        return unit
    possible = meanings(word)
    readings = {name: f"each of them is one {name}" for name in possible}
    answer = asking.about_list(
        f"unit {word[:20]}",
        f"what does the unit {word[:20]!r} stand for?",
        readings or {"each": "it counts single pieces"},
        lambda typed: _named(typed) is not None,
    )
    found = _named(answer) if answer else None
    if found is None:
        asking.unknown.add("unit")
    return found


def _named(word: str) -> Unit | None:
    return UNITS.get(word.casefold()) or find_unit(word)


def _one_of(own: Unit, column: Unit, asking: RowAsking) -> Unit:
    """Take the amount's own unit where the unit column agrees in size; else ask."""
    if own.size == column.size and own.measure is column.measure:
        return own
    answer = asking.about_row(
        "unit",
        f"the quantity is in {own.word}, the unit column says {column.word}",
        {own.word: f"the quantity is in {own.word}", column.word: f"it counts {column.word}"},
    )
    if answer is None:
        asking.unknown.add("unit")
    return UNITS[answer] if answer else own
