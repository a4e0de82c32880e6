"""The short way for rows with nothing to ask: the same lines as the long way, at less cost."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.hand_words import (
    Strength,
    counterpart,
    hand_in_text,
    hand_of_column,
    hand_of_number,
    plain_hand,
)
from inventory.core.items import Hand, Measure, part_key
from inventory.core.mark_words import NO_MARKS, read_marks
from inventory.core.packing import ListedHand, PackingLine
from inventory.core.part_numbers import read_part_number
from inventory.core.units import find_unit
from inventory.sheets.profiles import is_part_like
from inventory.sheets.stock_lengths import length_in

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.sheets.list_evidence import Evidence
    from inventory.sheets.packing_tables import Table
    from inventory.sheets.row_results import PartRow

_LONGEST_AMOUNT = 6
_PLAIN_AMOUNTS = frozenset({"quantity", "ordered", "shipped", "back_ordered"})
_JOINED = re.compile(r"[/&+,\n]")
"""Signs that join two numbers to one."""
_BARE = re.compile(r"(?=[^0-9]*[0-9])[A-HJ-NP-Z][A-HJ-NP-Z0-9]*-[A-HJ-NP-Z0-9.-]{4,}[0-9]")
"""Numbers that can't be anything else: no O or I in them, no letter at the end, no date."""
_SINGLE = {ListedHand.LEFT, ListedHand.RIGHT, ListedHand.EITHER, ListedHand.NONE}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Plan:
    """Where a table keeps what a plain row has; -1 where it has no such column."""

    part: int
    description: int
    hand: int
    lone: int
    ordered: int
    shipped: int
    waiting: int
    unit: int
    length: int
    revision: int
    item: int
    remark: int
    known: frozenset[int]
    blanks: tuple[str, ...]
    """As many blank cells as the table is wide, and one."""


def _plan(table: Table) -> _Plan | None:
    """Return the plan of a table; None where its rows need the long way."""
    amounts = {column.meaning for column in table.amounts}
    several = any(len(table.places(name)) > 1 for name in ("description", "remark", "part"))
    lone = "quantity" in amounts and not amounts & {"ordered", "shipped"}
    both = amounts >= {"ordered", "shipped"} and "quantity" not in amounts
    if several or not (lone or both) or not amounts <= _PLAIN_AMOUNTS or table.quantity_unit:
        return None
    return _Plan(
        part=table.place("part"),
        description=table.place("description"),
        hand=table.place("hand"),
        lone=table.place("quantity"),
        ordered=table.place("ordered"),
        shipped=table.place("shipped"),
        waiting=table.place("back_ordered"),
        unit=table.place("unit"),
        length=table.place("length"),
        revision=table.place("revision"),
        item=table.place("item"),
        remark=table.place("remark"),
        known=frozenset(column.place for column in table.columns),
        blanks=("",) * (table.span[1] + 2),
    )


class PlainRows:
    """Makes the lines of plain rows; each text is judged once."""

    def __init__(self, evidence: Evidence) -> None:
        """Judge by what the whole list shows."""
        self._evidence = evidence
        self._plans: dict[int, _Plan | None] = {}
        self._numbers: dict[str, tuple[str, ListedHand] | None] = {}
        self._hands: dict[str, ListedHand | None] = {"": ListedHand.NONE}
        self._descriptions: dict[str, ListedHand | None] = {"": ListedHand.NONE}
        self._remarks: dict[str, bool] = {"": True}
        self._units: dict[str, str] = {"": "EA"}

    def line(self, part: PartRow) -> PackingLine | None:
        """Return the line of a plain row; None where the row needs the long way."""
        view, row = part.view, part.view.row
        plan = self._plan_of(view.table)
        usual = not (row.marks or view.merged or part.lines_below or part.several)
        if plan is None or not usual or not plan.known.issuperset(view.filled):
            return None
        texts = row.texts + plan.blanks[len(row.texts) :]
        printed, unit_word, remark = texts[plan.part], texts[plan.unit], texts[plan.remark]
        number, amounts = self._number(printed), _amounts(texts, plan)
        unit = self._unit(unit_word)
        if number is None or amounts is None or not unit or not self._remark(remark):
            return None
        hand = self._hand(texts[plan.hand], number[1], texts[plan.description])
        if hand is None or texts[plan.length] or row.numbers >> plan.part & 1:
            return None
        return PackingLine(
            sheet=part.sheet, row=row.number, part=number[0], printed=printed,
            description=texts[plan.description], hand=hand, ordered=amounts[0],
            shipped=amounts[1], back_ordered=amounts[2], unit=unit, crate=part.crate,
            bag=part.bag, sub_kit=part.sub_kit, revision=texts[plan.revision], remark=remark,
            table=view.table.number, unit_word=unit_word, item_number=texts[plan.item],
        )  # fmt: skip

    def _plan_of(self, table: Table) -> _Plan | None:
        key = id(table)
        if key not in self._plans:
            self._plans[key] = _plan(table)
        return self._plans[key]

    def _number(self, printed: str) -> tuple[str, ListedHand] | None:
        """Return the key of a number that is plain, and the hand its end says for certain."""
        if printed not in self._numbers:
            self._numbers[printed] = self._read_number(printed)
        return self._numbers[printed]

    def _read_number(self, printed: str) -> tuple[str, ListedHand] | None:
        if _BARE.fullmatch(printed):
            return printed, ListedHand.NONE
        read, said = read_part_number(printed), hand_of_number(printed)
        plain = read.part == part_key(printed) and not (read.doubt or read.footnote)
        if not plain or not is_part_like(printed) or _JOINED.search(printed):
            return None
        if said.strength not in {Strength.NOT_SAID, Strength.WORD}:
            other = counterpart(printed)
            return (read.part, said.hand) if other in self._evidence.parts else None
        return read.part, said.hand

    def _unit(self, word: str) -> str:
        """Return the code of a unit that counts single pieces; empty for any other."""
        if word not in self._units:
            unit = find_unit(word)
            single = unit is not None and unit.measure is Measure.PIECES and unit.size == 1
            self._units[word] = unit.code if unit and single and not unit.packed else ""
        return self._units[word]

    def _remark(self, text: str) -> bool:
        """Say whether a remark says nothing of delivery or hand."""
        if text not in self._remarks:
            said = hand_of_column(text)
            silent = said is None or said.hand is ListedHand.NONE
            numbers = any(map(str.isdigit, text)) and "L" in text.upper() and "R" in text.upper()
            self._remarks[text] = read_marks(text) == NO_MARKS and silent and not numbers
        return self._remarks[text]

    def _hand(self, column: str, number: ListedHand, description: str) -> Hand | None:
        """Return the one hand that column, number and description agree on."""
        if column not in self._hands:
            said = hand_of_column(column)
            self._hands[column] = said.hand if said and said.hand in _SINGLE else None
        if description not in self._descriptions:
            self._descriptions[description] = self._described(description)
        by_column, by_text = self._hands[column], self._descriptions[description]
        if by_column is None or by_text is None:
            return None
        hands = {by_column, by_text, number} - {ListedHand.NONE}
        if len(hands) > 1 or (hands and column and by_column is ListedHand.NONE):
            return None
        return plain_hand(hands.pop()) if hands else Hand.NONE

    def _described(self, description: str) -> ListedHand | None:
        said = hand_in_text(description, port_is_left=self._evidence.port_is_left)
        weak = said.strength not in {Strength.NOT_SAID, Strength.WORD}
        if weak or said.hand not in _SINGLE or "(" in description or length_in(description):
            return None
        return said.hand if "\n" not in description else None


def _amounts(texts: Sequence[str], plan: _Plan) -> tuple[int, int, int] | None:
    """Return ordered, shipped and to follow where they are whole numbers that add up."""
    waiting = texts[plan.waiting] or "0"
    ordered = texts[plan.lone] if plan.lone >= 0 else texts[plan.ordered]
    shipped = ordered if plan.lone >= 0 else texts[plan.shipped]
    if not (_is_whole(ordered) and _is_whole(shipped) and _is_whole(waiting)):
        return None
    three = int(ordered), int(shipped), int(waiting)
    adds_up = three[0] == three[1] + three[2] and (plan.lone < 0 or not three[2])
    return three if adds_up else None


def _is_whole(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= _LONGEST_AMOUNT
