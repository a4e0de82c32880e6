"""What the headings of a plan's columns mean."""

from __future__ import annotations

import re
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.sheets.formats.book import Row


class PlanColumn(StrEnum):
    """What a column of a plan can hold, in the words a message names it by."""

    STEP = "step"
    TITLE = "title"
    SECTION = "section"
    SUB_ASSEMBLY = "sub-assembly"
    AFTER = "after"
    MAKES = "makes"
    MAKES_HAND = "makes hand"
    DAYS = "days"
    PART = "part number"
    DESCRIPTION = "description"
    HAND = "hand"
    QUANTITY = "quantity"
    UNIT = "unit"
    KIND = "kind"
    CUT_LENGTH = "cut length"
    SHEET = "drawing sheet"
    FIND = "find number"
    REVISION = "part revision"
    SPARE = "spare"
    ONE_OF = "one of"
    PREPARED = "prepared"
    THICKNESS = "thickness"
    WIDTH = "width"
    LENGTH = "length"
    PART_LENGTH = "part length"
    HOLES = "holes"


_HEADINGS = {
    PlanColumn.STEP: "step|step code|step no|step number|operation|operation no|op|op no|task",
    PlanColumn.TITLE: "title|step title|work|what is done|task description|step description",
    PlanColumn.SECTION: "section|chapter|section title",
    PlanColumn.SUB_ASSEMBLY: "sub-assembly|subassembly|sub assembly|sub-assy|assembly|assy",
    PlanColumn.AFTER: "after|comes after|follows|predecessor|predecessors|depends on|waits for"
    "|after step|after steps",
    PlanColumn.MAKES: "makes|completes|produces|makes part|makes part number|result",
    PlanColumn.MAKES_HAND: "makes hand|hand made",
    PlanColumn.DAYS: "days|duration|duration days|days of work",
    PlanColumn.PART: "part number|part no|part|p/n|pn|part nr|number of part|part or stock number"
    "|stock number|stock no",
    PlanColumn.DESCRIPTION: "description|nomenclature|part description|part name|name",
    PlanColumn.HAND: "hand|side|l/r|lh/rh|left/right",
    PlanColumn.QUANTITY: "quantity|qty|pieces|pcs|qty required|quantity required|qty per step"
    "|required|number off|count",
    PlanColumn.UNIT: "unit|u/m|uom|um|unit of measure|units",
    PlanColumn.KIND: "kind|type|use",
    PlanColumn.CUT_LENGTH: "cut length|length to cut|piece length|cut to",
    PlanColumn.SHEET: "drawing sheet|drawing|dwg|dwg sheet|plan sheet|plan page|manual page|page"
    "|sheet|drawing page",
    PlanColumn.FIND: "find number|find no|find|item no|item number|item|balloon",
    PlanColumn.REVISION: "part revision|part rev|revision|rev|rev level|issue",
    PlanColumn.SPARE: "spare|spares|spare allowance|allowance|extra",
    PlanColumn.ONE_OF: "one of|alternate group|alternates|alternate|one of these|group",
    PlanColumn.PREPARED: "prepared|preparation|prep|must be|finish",
    PlanColumn.THICKNESS: "thickness|thk|part thickness|gauge|gage",
    PlanColumn.WIDTH: "width|part width",
    PlanColumn.LENGTH: "length",
    PlanColumn.PART_LENGTH: "part length|length of part|overall length",
    PlanColumn.HOLES: "holes|number of holes|hole count|no of holes",
}
_MEANING = {name: column for column, names in _HEADINGS.items() for name in names.split("|")}
_UNIT_OF_COLUMN = re.compile(r"^(.+?)[\s,]*[(\[]?\b(mm|cm|m|in|ft)\b\.?[)\]]?$")
_STEPS = {PlanColumn.TITLE, PlanColumn.AFTER, PlanColumn.SECTION, PlanColumn.DAYS}


@frozen
class PlanTable:
    """The columns of one table, and the unit that a length without one is meant in."""

    columns: Mapping[PlanColumn, int]
    """Counted from 0."""
    units: Mapping[PlanColumn, str]
    unread: tuple[str, ...] = ()
    """Headings that mean nothing here."""

    @property
    def holds_needs(self) -> bool:
        """Say whether its rows can be needs: otherwise they are steps."""
        return PlanColumn.PART in self.columns

    @property
    def names_steps(self) -> bool:
        """Say whether each row names its step: otherwise headings between the rows do."""
        return PlanColumn.STEP in self.columns

    @property
    def tells_steps(self) -> bool:
        """Say whether a row may be about a step and no part."""
        return not self.holds_needs or bool(_STEPS & set(self.columns))


def table_of(row: Row) -> PlanTable | None:
    """Return the table that this row heads; None where it is no head of a plan's table."""
    found: dict[PlanColumn, int] = {}
    units: dict[PlanColumn, str] = {}
    unread: list[str] = []
    for place, text in enumerate(row.texts):
        if text:
            column, unit = _meaning(text)
            if column is None or column in found:
                unread.append(text)
            else:
                found[column] = place
                units |= {column: unit} if unit else {}
    if not _is_head(found, unread):
        return None
    return PlanTable(*_settled(found, units), tuple(unread))


def _is_head(found: Mapping[PlanColumn, int], unread: list[str]) -> bool:
    known = set(found)
    steps = PlanColumn.STEP in known and bool(known & _STEPS)
    needs = {PlanColumn.PART, PlanColumn.QUANTITY} <= known
    return (steps or needs) and len(known) >= len(unread)


def _meaning(heading: str) -> tuple[PlanColumn | None, str]:
    plain = " ".join(heading.replace("\n", " ").replace(".", " ").casefold().split()).strip(" :*")
    plain = plain.replace("#", "no").replace("nr", "no")
    found = _MEANING.get(plain)
    if found is not None:
        return found, ""
    with_unit = _UNIT_OF_COLUMN.fullmatch(plain)
    column = _MEANING.get(with_unit[1].strip()) if with_unit else None
    return column, with_unit[2] if with_unit and column else ""


def _settled(
    found: dict[PlanColumn, int], units: dict[PlanColumn, str]
) -> tuple[dict[PlanColumn, int], dict[PlanColumn, str]]:
    """Decide what a bare heading means: description of a step or part, length cut or of a part."""
    renamed = {
        PlanColumn.LENGTH: PlanColumn.PART_LENGTH
        if PlanColumn.CUT_LENGTH in found
        else PlanColumn.CUT_LENGTH
    }
    if PlanColumn.PART not in found and PlanColumn.TITLE not in found:
        renamed[PlanColumn.DESCRIPTION] = PlanColumn.TITLE
    return (
        {renamed.get(column, column): place for column, place in found.items()},
        {renamed.get(column, column): unit for column, unit in units.items()},
    )
