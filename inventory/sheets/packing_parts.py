"""A part row to packing lines: one, or a left and a right; or a line that waits for an answer."""

from __future__ import annotations

from dataclasses import dataclass, replace
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.hand_words import is_standard_hardware, plain_hand
from inventory.core.items import Hand, Measure
from inventory.core.packing import CountRule, HeldLine, ListedHand, PackingLine
from inventory.core.units import amount_of
from inventory.sheets.amount_cells import read_amounts, unit_of
from inventory.sheets.amounts import ALL, Amounts, settle_amounts
from inventory.sheets.hand_cells import hand_of
from inventory.sheets.open_row import OpenRow, open_row
from inventory.sheets.pair_split import (
    Sides,
    checked_sides,
    halves_of,
    hand_by_amounts,
    split,
    split_shipped,
    with_remark,
)
from inventory.sheets.part_cells import part_of
from inventory.sheets.row_marks import marks_of
from inventory.sheets.stock_lengths import length_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.printed_quantity import PrintedQuantity
    from inventory.core.units import Unit
    from inventory.sheets.amount_cells import UnitRead
    from inventory.sheets.asking import Asking
    from inventory.sheets.list_evidence import Evidence
    from inventory.sheets.part_cells import NumberRead
    from inventory.sheets.row_marks import RowMarks
    from inventory.sheets.row_results import PartRow


@dataclass(frozen=True, slots=True, kw_only=True)
class _Read:
    """What one part row says, before it becomes lines."""

    number: NumberRead
    hand: ListedHand
    parts: tuple[str, str] | None
    amounts: Amounts
    """In smallest units."""
    unit: UnitRead
    length: int
    marks: RowMarks
    ordered: Sides | None = None
    """By side, in smallest units, where the row is a pair."""
    shipped: Sides | None = None


def lines_of_row(
    part: PartRow, evidence: Evidence, asking: Asking
) -> tuple[tuple[PackingLine, ...], HeldLine | None]:
    """Return the lines of a part row; or, where something is asked, what is known so far."""
    row = open_row(part, evidence, asking)
    read = _read(row)
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


def _read(row: OpenRow) -> _Read:
    number = part_of(row)
    cells = with_remark(read_amounts(row), row)
    unit = unit_of(row, cells)
    hand = hand_of(row, number)
    marks = marks_of(row, number.footnote)
    listed, said = hand_by_amounts(hand, cells, row.asking)
    amounts = _times(settle_amounts(row, cells, marks.marks), unit.content)
    amounts = _times_boxes(row, amounts)
    if marks.not_coming:
        amounts = replace(amounts, shipped=Fraction(0), back_ordered=Fraction(0))
    read = _Read(
        number=replace(number, part=marks.part) if marks.part else number,
        hand=listed,
        parts=hand.parts,
        amounts=amounts,
        unit=unit,
        length=length_of(row, cells, unit.unit),
        marks=marks,
    )
    if amounts.rule is not CountRule.COUNTED or "ordered" in row.asking.unknown:
        return _uncounted(read)
    if listed is ListedHand.PAIR:
        return _as_pair(row, read, cells, said)
    return _as_one(row, read, cells)


def _uncounted(read: _Read) -> _Read:
    """Return a row without numbers; of a pair, both sides are as required."""
    nothing = Sides(Fraction(0), Fraction(0)) if read.hand is ListedHand.PAIR else None
    return replace(read, ordered=nothing, shipped=nothing)


def _times_boxes(row: OpenRow, amounts: Amounts) -> Amounts:
    """Ask whether the contents of several like bags are listed for one or for all of them."""
    box = row.part.several
    if box is None or amounts.rule is not CountRule.COUNTED:
        return amounts
    answer = row.asking.about_list(
        f"contents of {box.kind.replace('_', '-')} {box.name}",
        f"there are {box.pieces} of {box.name}: are its contents listed for one or for all?",
        {"one": f"each quantity is taken {box.pieces} times", "all": "as printed"},
    )
    if answer is None:
        row.asking.unknown.update(ALL)
    return _times(amounts, box.pieces if answer == "one" else 1)


def _times(amounts: Amounts, times: int) -> Amounts:
    return (
        amounts
        if times == 1
        else replace(
            amounts,
            ordered=amounts.ordered * times,
            shipped=amounts.shipped * times,
            back_ordered=amounts.back_ordered * times,
        )
    )


def _as_one(row: OpenRow, read: _Read, cells: Mapping[str, PrintedQuantity]) -> _Read:
    """Settle a row of one hand or none: whole numbers, pairs of unhanded parts asked."""
    unit = read.unit.unit
    if unit.measure is Measure.PIECES and halves_of(cells) and not _no_fraction(row, read):
        return read
    whole = _in_smallest(read.amounts, unit)
    if whole is None:
        _ask_whole(row, read)
        return read
    settled = replace(read, amounts=whole)
    if unit.word == "pair" and read.hand is ListedHand.NONE:
        return _unhanded_pair(row, read, settled)
    return settled


def _no_fraction(row: OpenRow, read: _Read) -> bool:
    """Ask what `2/2` means where no pair is listed; say whether it is settled."""
    answer = row.asking.about_row(
        "quantity",
        f"{row.view.part}: two numbers in one quantity, and no left and right listed",
        {f"{read.amounts.ordered}": f"the quantity is {read.amounts.ordered}"},
    )
    if answer is None:
        row.asking.unknown.update(ALL)
    return answer is not None


def _unhanded_pair(row: OpenRow, read: _Read, settled: _Read) -> _Read:
    """Ask whether a pair of a part without hand is a left and a right, or two alike."""
    if is_standard_hardware(row.printed):
        return settled
    answer = row.asking.about_list(
        "pair of a part without hand",
        f"{row.printed}: is a pair one left and one right, or two alike?",
        {"left and right": "one left and one right each", "alike": "two pieces alike each"},
    )
    if answer is None:
        row.asking.unknown.add("hand")
        return replace(settled, hand=ListedHand.UNKNOWN)
    if answer == "alike":
        return settled
    number = read.amounts.ordered
    return _with_sides(row, replace(read, hand=ListedHand.PAIR), Sides(number, number))


def _ask_whole(row: OpenRow, read: _Read) -> None:
    answer = row.asking.about_row(
        "quantity",
        f"{read.amounts.ordered} {read.unit.unit.word} isn't a whole number of pieces",
        {},
    )
    if answer is None:
        row.asking.unknown.update(ALL)


def _in_smallest(amounts: Amounts, unit: Unit) -> Amounts | None:
    ordered = amount_of(amounts.ordered, unit)
    shipped = amount_of(amounts.shipped, unit)
    waiting = amount_of(amounts.back_ordered, unit)
    if ordered is None or shipped is None or waiting is None:
        return None
    return Amounts(
        ordered=Fraction(ordered.quantity),
        shipped=Fraction(shipped.quantity),
        back_ordered=Fraction(waiting.quantity),
        rounded=ordered.rounded or shipped.rounded,
    )


def _as_pair(
    row: OpenRow, read: _Read, cells: Mapping[str, PrintedQuantity], said: Sides | None
) -> _Read:
    """Settle a row of both hands: how many left, how many right, ordered and shipped."""
    ordered = checked_sides(row, said, read.amounts, read.unit.unit) if said else None
    if said is None:
        ordered = split(row, read.amounts, cells, read.unit.unit)
    if ordered is None:
        return _unsplit(read)
    return _with_sides(row, read, ordered)


def _unsplit(read: _Read) -> _Read:
    whole = _in_smallest(read.amounts, read.unit.unit)
    return read if whole is None else replace(read, amounts=whole)


def _with_sides(row: OpenRow, read: _Read, ordered: Sides) -> _Read:
    printed = read.amounts.ordered
    factor = ordered.total / printed if printed else Fraction(1)
    shipped_total = read.amounts.shipped * factor
    shipped = split_shipped(ordered, shipped_total, read.marks.marks, row.asking)
    amounts = replace(
        read.amounts,
        ordered=ordered.total,
        shipped=shipped_total,
        back_ordered=read.amounts.back_ordered * factor,
    )
    sides = (*_numbers(ordered), *(_numbers(shipped) if shipped else ()))
    if any(number.denominator != 1 for number in sides):
        _ask_whole(row, read)
        return read
    return replace(read, amounts=amounts, ordered=ordered, shipped=shipped)


def _numbers(sides: Sides) -> tuple[Fraction, Fraction]:
    return sides.left, sides.right


def _pair_lines(part: PartRow, read: _Read) -> tuple[PackingLine, ...]:
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


def _line(part: PartRow, read: _Read, amounts: Amounts, hand: Hand = Hand.NONE) -> PackingLine:
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
