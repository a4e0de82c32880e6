"""A part row to packing lines: one, or a left and a right; or a line that waits for an answer."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.core.lists.hand_words import plain_hand
from inventory.core.lists.packing import HeldLine, PackingLine
from inventory.sheets.packing.open_row import open_row
from inventory.sheets.packing.pair_split import Sides
from inventory.sheets.packing.row_understanding import read_row

if TYPE_CHECKING:
    from inventory.sheets.packing.amount_cells import UnitRead
    from inventory.sheets.packing.amounts import Amounts
    from inventory.sheets.packing.asking import Asking
    from inventory.sheets.packing.list_evidence import Evidence
    from inventory.sheets.packing.row_read import RowRead
    from inventory.sheets.packing.row_results import PartRow


def lines_of_row(
    part: PartRow, evidence: Evidence, asking: Asking, held_by: str = ""
) -> tuple[tuple[PackingLine, ...], HeldLine | None]:
    """Return the lines of a part row; or, where something is asked, what is known so far."""
    row = open_row(part, evidence, asking, held_by)
    read = read_row(row)
    if row.asking.open:
        return (), HeldLine(
            line=_line(part, read, read.amounts),
            hand=read.hand,
            unknown=frozenset(row.asking.unknown),
            questions=tuple(dict.fromkeys(row.asking.open)),
        )
    if read.ordered is None:
        return (_line(part, read, read.amounts, plain_hand(read.hand)),), None
    return _pair_lines(part, read), None


def _pair_lines(part: PartRow, read: RowRead) -> tuple[PackingLine, ...]:
    ordered = read.ordered or Sides(Fraction(0), Fraction(0))
    shipped = read.shipped or ordered
    waiting = read.amounts.back_ordered > 0
    numbers = read.parts or (read.number.part, read.number.part)
    lines = []
    for number, hand, listed, sent in (
        (numbers[0], Hand.LEFT, ordered.left, shipped.left),
        (numbers[1], Hand.RIGHT, ordered.right, shipped.right),
    ):
        amounts = replace(
            read.amounts,
            ordered=listed,
            shipped=sent,
            back_ordered=listed - sent if waiting else Fraction(0),
        )
        side = replace(read, number=replace(read.number, part=number))
        lines.append(replace(_line(part, side, amounts, hand), paired=True))
    return tuple(lines)


def _unit_code(unit: UnitRead) -> str:
    if not unit.known:
        return unit.word
    return unit.unit.code or unit.word or unit.unit.word


def _line(part: PartRow, read: RowRead, amounts: Amounts, hand: Hand = Hand.NONE) -> PackingLine:
    view = part.view
    return PackingLine(
        sheet=part.sheet,
        row=view.row.number,
        table=view.table.number,
        part=read.number.part,
        printed=view.part if not view.ditto else part.above,
        description=" ".join(view.description.split()),
        hand=hand,
        ordered=int(amounts.ordered),
        shipped=int(amounts.shipped),
        back_ordered=int(amounts.back_ordered),
        measure=read.unit.unit.measure,
        unit=_unit_code(read.unit),
        unit_word=read.unit.word,
        length=read.length,
        count_rule=amounts.rule,
        crate=part.crate,
        bag=part.bag,
        sub_kit=part.sub_kit,
        revision=view.text("revision") or read.number.revision,
        remark=read.marks.remark,
        item_number=view.text("item"),
        rounded=amounts.rounded,
    )
