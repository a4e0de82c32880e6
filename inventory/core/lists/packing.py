"""The packing list: what the supplier says is in the crates."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, Measure

if TYPE_CHECKING:
    from inventory.core.errors import Problem


class RowClass(StrEnum):
    """What a row of the supplier's sheet is; every row is exactly one of these."""

    HEAD = "head"
    HEADING = "heading"
    PART = "part"
    NOTE = "note"
    TOTAL = "total"
    BLANK = "blank"
    UNKNOWN = "unknown"


class CountRule(StrEnum):
    """How the pieces of a line are counted."""

    COUNTED = "counted"
    AS_REQUIRED = "as-required"
    """AR: there or not there, never a number."""
    REFERENCE = "reference"
    """REF: shown on the list, not in the crate."""


class ListedHand(StrEnum):
    """What a row says about hand, before a pair is split in two."""

    LEFT = "left"
    RIGHT = "right"
    PAIR = "pair"
    """Left and right on one row."""
    EITHER = "either"
    NONE = "none"
    UNKNOWN = "unknown"
    """A hand may be meant, and a person is asked."""


@frozen
class SourceRow:
    """One row of the sheet as it came, with the class it was given and why.

    Where two tables stand side by side, each gives one of these for a row that both fill.
    """

    sheet: str
    row: int
    """Counted from 1, as the spreadsheet counts."""
    row_class: RowClass
    why: str
    cells: tuple[str, ...]
    table: int = 0
    """Which of the tables side by side, counted from 0 at the left."""


@frozen(kw_only=True)
class PackingLine:
    """One part of one hand on the list; a handed pair on one row makes two lines."""

    sheet: str
    row: int
    part: str
    printed: str
    """The part number as the supplier prints it."""
    description: str = ""
    hand: Hand = Hand.NONE
    ordered: int
    shipped: int
    back_ordered: int = 0
    measure: Measure = Measure.PIECES
    unit: str = "EA"
    """UN/ECE Rec 20 code where there is one, else the printed word."""
    length: int = 0
    """Nanometres of each stock length; 0 where the line isn't stock."""
    count_rule: CountRule = CountRule.COUNTED
    crate: str = ""
    bag: str = ""
    sub_kit: str = ""
    revision: str = ""
    remark: str = ""
    table: int = 0
    """Which of the tables side by side on the sheet, counted from 0 at the left."""
    unit_word: str = ""
    """The unit as printed; empty where none is."""
    item_number: str = ""
    """The line's own number on the list, as printed."""
    paired: bool = False
    """True where the row lists both hands and this is one of them."""
    rounded: bool = False
    """True where a mass, volume or area wasn't a whole number and was rounded once."""


@frozen(kw_only=True)
class HeldLine:
    """A part row that waits for an answer: what is known of it so far."""

    line: PackingLine
    """Never counted on; quantities named in `unknown` stand at 0 in it."""
    hand: ListedHand
    unknown: frozenset[str]
    """Of part, hand, ordered, shipped, back_ordered, unit: what isn't settled."""
    questions: tuple[str, ...]
    """Ids of the questions that hold the row."""


@frozen
class Reading:
    """One way to understand a doubtful row, and what it would do."""

    answer: str
    """What the person types to take this reading."""
    effect: str


@frozen
class Question:
    """A doubt about a row that only a person may settle."""

    sheet: str
    row: int
    """The first row it is about; 0 where it is about the whole list."""
    what: str
    readings: tuple[Reading, ...]
    id: str = ""
    """What an answer names it by; the same for the same file read again."""
    rows: tuple[tuple[str, int], ...] = ()
    """Every sheet and row it holds."""
    open_answer: bool = False
    """True where another answer than the readings may be typed (a part number, a quantity)."""


@frozen
class ColumnRead:
    """A column of the sheet, and what it was understood as."""

    sheet: str
    column: str
    """Its letters."""
    heading: str
    meaning: str
    """Empty where the column isn't used."""


@frozen(kw_only=True)
class PackingList:
    """A supplier's list, read: every source row, the lines in them, and what is in doubt."""

    source: str
    """The file's name."""
    sha256: str
    supplier: str = ""
    order: str = ""
    revision: str = ""
    rows: tuple[SourceRow, ...] = ()
    lines: tuple[PackingLine, ...] = ()
    questions: tuple[Question, ...] = ()
    problems: tuple[Problem, ...] = ()
    held: tuple[HeldLine, ...] = ()
    """Part rows that are in no line yet, because something is asked about them."""
    columns: tuple[ColumnRead, ...] = ()
    form: str = ""
    """xlsx, xls, ods, csv, text or pdf."""
    remarks: tuple[str, ...] = ()
    """What is worth knowing and needs no answer."""
    layout: str = ""
    """Name of the supplier layout it was read by; empty where it was read without one."""
