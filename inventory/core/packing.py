"""The packing list: what the supplier says is in the crates."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TYPE_CHECKING

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


@dataclass(frozen=True, slots=True)
class SourceRow:
    """One row of the sheet as it came, with the class it was given and why."""

    sheet: str
    row: int
    """Counted from 1, as the spreadsheet counts."""
    row_class: RowClass
    why: str
    cells: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True)
class Reading:
    """One way to understand a doubtful row, and what it would do."""

    answer: str
    """What the person types to take this reading."""
    effect: str


@dataclass(frozen=True, slots=True)
class Question:
    """A doubt about a row that only a person may settle."""

    sheet: str
    row: int
    what: str
    readings: tuple[Reading, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
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
