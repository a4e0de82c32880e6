"""One row of a plan's table: a step, a need, or a part's sizes."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, TypeVar

from inventory.core.errors import Problem
from inventory.core.frozen import frozen
from inventory.core.items import Hand, part_key
from inventory.core.planning.plan import Need, NeedKind, PartSize, Step
from inventory.sheets.formats.book import BLANK, Cell, cell_name
from inventory.sheets.plan.plan_cells import (
    Doubt,
    Quantity,
    codes_of,
    hand_of,
    kind_of,
    length_of,
    plain_text,
    quantity_of,
    spare_of,
    whole_of,
)
from inventory.sheets.plan.plan_columns import PlanColumn

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping

    from inventory.sheets.formats.book import Row
    from inventory.sheets.plan.plan_columns import PlanTable

T = TypeVar("T")
_NOTHING = Cell("", BLANK)


@frozen
class PlanRow:
    """One row, with the columns of its table and what merged cells and rows above say for it."""

    sheet: str
    row: Row
    table: PlanTable
    above: Mapping[PlanColumn, str]
    problems: list[Problem] = field(default_factory=list)
    """What is found wrong while the row is read."""

    def cell(self, column: PlanColumn) -> Cell:
        """Return the cell of a column, or an empty one where the table hasn't that column."""
        place = self.table.columns.get(column)
        return _NOTHING if place is None else self.row.cell(place)

    def text(self, column: PlanColumn) -> str:
        """Return what the row says in a column, or what was said above for it."""
        return self.read(column, plain_text, "") or self.above.get(column, "")

    def at(self, column: PlanColumn) -> str:
        """Name the cell of a column: `Needs!D14`."""
        place = self.table.columns.get(column, 0)
        return f"{self.sheet}!{cell_name(self.row.number, place)}"

    def read(self, column: PlanColumn, parse: Callable[[Cell], T], otherwise: T) -> T:
        """Return what a cell says; a doubt becomes a problem with its place."""
        try:
            return parse(self.cell(column))
        except Doubt as doubt:
            self.problems.append(Problem(doubt.what, self.at(column), doubt.remedy))
            return otherwise

    def words(self, column: PlanColumn, parse: Callable[[str], T], otherwise: T) -> T:
        """Return what a text cell says."""
        return self.read(column, lambda cell: parse(plain_text(cell)), otherwise)


def step_of(row: PlanRow, code: str) -> Step:
    """Return the step that a row describes."""
    return Step(
        code=code,
        title=row.text(PlanColumn.TITLE),
        section=row.text(PlanColumn.SECTION),
        sub_assembly=row.text(PlanColumn.SUB_ASSEMBLY),
        after=row.words(PlanColumn.AFTER, codes_of, ()),
        makes=part_key(row.text(PlanColumn.MAKES)),
        makes_hand=row.words(PlanColumn.MAKES_HAND, hand_of, Hand.NONE),
        days=row.read(PlanColumn.DAYS, whole_of, None) or 0,
        row=row.row.number,
        where=row.at(PlanColumn.STEP),
    )


def need_of(row: PlanRow, step: str) -> Need | None:
    """Return the need that a row describes; None where its quantity can't be read."""
    unit = row.text(PlanColumn.UNIT)
    quantity = row.read(PlanColumn.QUANTITY, lambda cell: _quantity(cell, unit), None)
    length = _length(row, PlanColumn.CUT_LENGTH)
    if quantity is None:
        return None
    printed = row.text(PlanColumn.PART)
    return Need(
        step=step,
        part=part_key(printed),
        printed=printed,
        description=row.text(PlanColumn.DESCRIPTION),
        hand=row.words(PlanColumn.HAND, hand_of, Hand.NONE),
        quantity=quantity.amount,
        spare=row.read(PlanColumn.SPARE, lambda cell: spare_of(cell, quantity.amount, unit), 0),
        measure=quantity.measure,
        kind=row.words(
            PlanColumn.KIND,
            lambda text: kind_of(text, cut=bool(length), measure=quantity.measure),
            NeedKind.PART,
        ),
        length=length,
        one_of=row.text(PlanColumn.ONE_OF),
        as_required=quantity.as_required,
        sheet=row.text(PlanColumn.SHEET),
        find_number=row.text(PlanColumn.FIND),
        revision=row.text(PlanColumn.REVISION),
        prepared=row.text(PlanColumn.PREPARED),
        row=row.row.number,
        where=row.at(PlanColumn.PART),
    )


def _quantity(cell: Cell, unit: str) -> Quantity | None:
    return quantity_of(cell, unit)


def size_of(row: PlanRow, need: Need) -> PartSize | None:
    """Return what the row says its part measures; None where it says nothing."""
    size = PartSize(
        part=need.part,
        hand=need.hand,
        thickness=_length(row, PlanColumn.THICKNESS),
        width=_length(row, PlanColumn.WIDTH),
        length=_length(row, PlanColumn.PART_LENGTH),
        holes=row.read(PlanColumn.HOLES, whole_of, None),
    )
    said = size.thickness or size.width or size.length or size.holes is not None
    return size if said else None


def _length(row: PlanRow, column: PlanColumn) -> int:
    unit = row.table.units.get(column, "")
    return row.read(column, lambda cell: length_of(cell, unit), 0)
