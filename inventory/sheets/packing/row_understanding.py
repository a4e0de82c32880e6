"""A part row understood step by step, each doubt asked where it comes up."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.items import Measure
from inventory.core.lists.hand_of_numbers import is_standard_hardware
from inventory.core.lists.packing import CountRule, ListedHand
from inventory.sheets.packing.amount_cells import read_amounts, unit_of
from inventory.sheets.packing.amounts import ALL, Amounts, settle_amounts
from inventory.sheets.packing.hand_cells import hand_of
from inventory.sheets.packing.pair_split import Sides, halves_of, hand_by_amounts, with_remark
from inventory.sheets.packing.part_cells import part_of
from inventory.sheets.packing.row_marks import marks_of
from inventory.sheets.packing.row_pairs import as_pair, with_sides
from inventory.sheets.packing.row_read import RowRead, ask_whole, in_smallest
from inventory.sheets.packing.stock_lengths import length_of

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.measures.printed_quantity import PrintedQuantity
    from inventory.sheets.packing.open_row import OpenRow


def read_row(row: OpenRow) -> RowRead:
    """Return what a part row says; what stays in doubt is open in its `asking`."""
    number = part_of(row)
    cells = with_remark(read_amounts(row), row)
    unit = unit_of(row, cells)
    hand = hand_of(row, number)
    marks = marks_of(row, number.footnote)
    listed, said = hand_by_amounts(hand, cells, row.asking)
    amounts = _times(settle_amounts(row, cells, marks.marks), unit.content)
    amounts = _times_columns(row, amounts, cells)
    amounts = _times_boxes(row, amounts)
    if marks.not_coming:
        amounts = replace(amounts, shipped=Fraction(0), back_ordered=Fraction(0))
    read = RowRead(
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
        return as_pair(row, read, cells, said)
    return _as_one(row, read, cells)


def _uncounted(read: RowRead) -> RowRead:
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


def _times_columns(row: OpenRow, amounts: Amounts, cells: Mapping[str, PrintedQuantity]) -> Amounts:
    """Ask whether quantities per assembly or per package are to be multiplied."""
    for name, spoken in (("assemblies", "assembly"), ("per_package", "package")):
        times = cells[name].number if name in cells else 1
        counted = name == "per_package" or "per_assembly" in cells
        if times <= 1 or "extended" in cells or not counted:
            continue
        answer = row.asking.about_list(
            f"quantity per {spoken}",
            f"the list has a quantity and {times} beside it per {spoken}: are they multiplied?",
            {"multiply": f"the two are multiplied: {amounts.ordered * times}", "no": "as printed"},
        )
        if answer is None:
            row.asking.unknown.update(ALL)
        amounts = _times(amounts, int(times)) if answer == "multiply" else amounts
    return amounts


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


def _as_one(row: OpenRow, read: RowRead, cells: Mapping[str, PrintedQuantity]) -> RowRead:
    """Settle a row of one hand or none: whole numbers, pairs of unhanded parts asked."""
    unit = read.unit.unit
    if unit.measure is Measure.PIECES and halves_of(cells) and not _no_fraction(row, read):
        return read
    whole = in_smallest(read.amounts, unit)
    if whole is None:
        ask_whole(row, read)
        return read
    settled = replace(read, amounts=whole)
    if unit.word == "pair" and read.hand is ListedHand.NONE:
        return _unhanded_pair(row, read, settled)
    if unit.word == "pair" and read.hand in {ListedHand.LEFT, ListedHand.RIGHT}:
        return _pair_of_one_hand(row, read, settled)
    return settled


def _pair_of_one_hand(row: OpenRow, read: RowRead, settled: RowRead) -> RowRead:
    """Ask what a pair of left parts is: two left, or a left and a right."""
    answer = row.asking.about_row(
        "hand",
        f"{row.printed}: a pair, and the row says {read.hand}",
        {f"{read.hand}": f"each pair is two {read.hand}", "pair": "each is a left and a right"},
    )
    if answer is None:
        row.asking.unknown.add("hand")
        return replace(settled, hand=ListedHand.UNKNOWN)
    if answer != "pair":
        return settled
    number = read.amounts.ordered
    return with_sides(row, replace(read, hand=ListedHand.PAIR), Sides(number, number))


def _no_fraction(row: OpenRow, read: RowRead) -> bool:
    """Ask what `2/2` means where no pair is listed; say whether it is settled."""
    answer = row.asking.about_row(
        "quantity",
        f"{row.view.part}: two numbers in one quantity, and no left and right listed",
        {f"{read.amounts.ordered}": f"the quantity is {read.amounts.ordered}"},
    )
    if answer is None:
        row.asking.unknown.update(ALL)
    return answer is not None


def _unhanded_pair(row: OpenRow, read: RowRead, settled: RowRead) -> RowRead:
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
    return with_sides(row, replace(read, hand=ListedHand.PAIR), Sides(number, number))
