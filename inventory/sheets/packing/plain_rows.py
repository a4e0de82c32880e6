"""The short way for rows with nothing to ask: the same lines as the long way, at less cost."""

from __future__ import annotations

import re
from itertools import count
from operator import itemgetter
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure, part_key
from inventory.core.lists.hand_of_numbers import counterpart, hand_of_number
from inventory.core.lists.hand_words import hand_of_column, plain_hand
from inventory.core.lists.hands_abroad import in_english
from inventory.core.lists.mark_words import NO_MARKS, read_marks
from inventory.core.lists.packing import ListedHand, PackingLine
from inventory.core.lists.said_hands import NOT_SAID, Strength
from inventory.core.measures.units import EACH, find_unit
from inventory.core.parts.part_numbers import read_part_number
from inventory.sheets.packing.judged import Judged
from inventory.sheets.packing.list_evidence import of_text
from inventory.sheets.packing.ordinary_rows import padding
from inventory.sheets.packing.profiles import is_part_like
from inventory.sheets.packing.stock_lengths import length_in

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from inventory.sheets.packing.list_evidence import Evidence
    from inventory.sheets.packing.packing_tables import Table
    from inventory.sheets.packing.row_results import PartRow

_LONGEST_AMOUNT = 6
_PLAIN_AMOUNTS = frozenset({"quantity", "ordered", "shipped", "back_ordered"})
_JOINED = re.compile(r"[/&+,\n]")
"""Signs that join two numbers to one."""
_BARE = re.compile(r"(?=[^0-9]*[0-9])[A-HJ-NP-Z][A-HJ-NP-Z0-9]*-[A-HJ-NP-Z0-9.-]{4,}[0-9]")
"""Numbers that can't be anything else: no O or I in them, no letter at the end, no date."""
_SINGLE = {ListedHand.LEFT, ListedHand.RIGHT, ListedHand.EITHER, ListedHand.NONE}


_NO_HAND = ListedHand.NONE
_CELLS = (
    *("part", "unit", "remark", "hand", "description", "length", "revision", "item"),
    *("ordered", "shipped", "back_ordered"),
)


@frozen
class _Plan:
    """Where a table keeps what a plain row has."""

    cells: Callable[[Sequence[str]], tuple[str, ...]]
    """Takes the cells named in `_CELLS` from a row that is wide enough."""
    padding: tuple[str, ...]
    part: int
    known: frozenset[int]
    every: int
    """So many columns from the first on are all known."""
    lone: bool
    """True where one quantity stands for ordered and shipped."""


def _plan(table: Table) -> _Plan | None:
    """Return the plan of a table; None where its rows need the long way."""
    amounts = {column.meaning for column in table.amounts}
    several = any(len(table.places(name)) > 1 for name in ("description", "remark", "part"))
    lone = "quantity" in amounts and not amounts & {"ordered", "shipped"}
    both = amounts >= {"ordered", "shipped"} and "quantity" not in amounts
    if several or not (lone or both) or not amounts <= _PLAIN_AMOUNTS or table.quantity_unit:
        return None
    instead = {"ordered": "quantity", "shipped": "quantity"} if lone else {}
    known = frozenset(column.place for column in table.columns)
    return _Plan(
        cells=itemgetter(*(table.place(instead.get(name, name)) for name in _CELLS)),
        padding=padding(table),
        part=table.place("part"),
        known=known,
        every=next(place for place in count() if place not in known),
        lone=lone,
    )


class PlainRows:
    """Makes the lines of plain rows; each text is judged once."""

    def __init__(self, evidence: Evidence) -> None:
        """Judge by what the whole list shows."""
        self._evidence = evidence
        self._plans: dict[int, _Plan | None] = {}
        self._table: Table | None = None
        self._plan: _Plan | None = None
        self._numbers = Judged(self._read_number)
        self._amounts = Judged(_amounts)
        self._hands = Judged(self._hand_of_column)
        self._descriptions = Judged(self._described)
        self._remarks = Judged(_is_silent)
        self._units = Judged(_single_unit)
        self._unnumbered = Judged(self._hand_without_number)

    def line(self, part: PartRow) -> PackingLine | None:
        """Return the line of a plain row; None where the row needs the long way."""
        row, table = part.row, part.table
        plan = self._plan if table is self._table else self._plan_of(table)
        if plan is None or row.marks or part.merged or part.lines_below or part.several:
            return None
        if part.waiting:
            return None
        if len(row.texts) > plan.every and not plan.known.issuperset(part.view.filled):
            return None
        cells = plan.cells(row.texts + plan.padding)
        printed, unit_word, remark, column, description, length, revision, item = cells[:8]
        number, amounts = self._numbers[printed], self._amounts[plan.lone, cells[8:]]
        unit = self._units[unit_word]
        if number is None or amounts is None or not unit or not self._remarks[remark]:
            return None
        if number[1] is _NO_HAND:
            hand = self._unnumbered[column, description]
        else:
            hand = self._agreed(column, number[1], description)
        if hand is None or length or row.numbers >> plan.part & 1:
            return None
        return PackingLine(
            sheet=part.sheet, row=row.number, part=number[0], printed=printed,
            description=description, hand=hand, ordered=amounts[0],
            shipped=amounts[1], back_ordered=amounts[2], unit=unit, crate=part.crate,
            bag=part.bag, sub_kit=part.sub_kit, revision=revision, remark=remark,
            table=table.number, unit_word=unit_word, item_number=item,
        )  # fmt: skip

    def _plan_of(self, table: Table) -> _Plan | None:
        key = id(table)
        if key not in self._plans:
            self._plans[key] = None if key in self._evidence.unticked else _plan(table)
        self._table, self._plan = table, self._plans[key]
        return self._plan

    def _read_number(self, printed: str) -> tuple[str, ListedHand] | None:
        """Return the key of a number that is plain, and the hand its end says for certain."""
        if _BARE.fullmatch(printed):
            return printed, _NO_HAND
        read, said = read_part_number(printed), hand_of_number(printed)
        plain = read.part == part_key(printed) and not (read.doubt or read.footnote)
        if not plain or not is_part_like(printed) or _JOINED.search(printed):
            return None
        if said.strength not in {Strength.NOT_SAID, Strength.WORD}:
            other = counterpart(printed)
            return (read.part, said.hand) if other in self._evidence.parts else None
        return read.part, said.hand

    def _hand_without_number(self, said: tuple[str, str]) -> Hand | None:
        return self._agreed(said[0], _NO_HAND, said[1])

    def _agreed(self, column: str, number: ListedHand, description: str) -> Hand | None:
        """Return the one hand that column, number and description agree on."""
        by_column, by_text = self._hands[column], self._descriptions[description]
        if by_column is None or by_text is None:
            return None
        hands = {by_column, by_text, number}
        hands.discard(_NO_HAND)
        if not hands:
            return Hand.NONE
        if len(hands) > 1 or (column and by_column is _NO_HAND):
            return None
        return plain_hand(hands.pop())

    def _hand_of_column(self, text: str) -> ListedHand | None:
        """Return the one hand a column says, none among them; None for anything else."""
        said = hand_of_column(in_english(text, self._evidence.side_letters)) if text else NOT_SAID
        return said.hand if said and said.hand in _SINGLE else None

    def _described(self, description: str) -> ListedHand | None:
        if not description:
            return ListedHand.NONE
        evidence = self._evidence
        said = of_text(description, port_is_left=evidence.port_is_left, abroad=evidence.abroad)
        weak = said.strength not in {Strength.NOT_SAID, Strength.WORD}
        if weak or said.hand not in _SINGLE or "(" in description or length_in(description):
            return None
        return said.hand if "\n" not in description else None


def _single_unit(word: str) -> str:
    """Return the code of a unit that counts single pieces; empty for any other."""
    unit = find_unit(word) if word else EACH
    single = unit is not None and unit.measure is Measure.PIECES and unit.size == 1
    return unit.code if unit and single and not unit.packed else ""


def _is_silent(remark: str) -> bool:
    """Say whether a remark says nothing of delivery or hand."""
    if not remark:
        return True
    said = hand_of_column(remark)
    silent = said is None or said.hand is ListedHand.NONE
    numbers = any(map(str.isdigit, remark)) and "L" in remark.upper() and "R" in remark.upper()
    return read_marks(remark) == NO_MARKS and silent and not numbers


def _amounts(said: tuple[bool, tuple[str, ...]]) -> tuple[int, int, int] | None:
    """Return ordered, shipped and to follow where they are whole numbers that add up."""
    lone, (ordered, shipped, waiting) = said
    waiting = waiting or "0"
    if not (_is_whole(ordered) and _is_whole(shipped) and _is_whole(waiting)):
        return None
    three = int(ordered), int(shipped), int(waiting)
    adds_up = three[0] == three[1] + three[2] and not (lone and three[2])
    return three if adds_up else None


def _is_whole(text: str) -> bool:
    return text.isascii() and text.isdigit() and len(text) <= _LONGEST_AMOUNT
