"""A row that lists both hands: how many of its pieces are left and how many right."""

from __future__ import annotations

from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.hand_words import numbers_of_sides
from inventory.core.lists.packing import ListedHand
from inventory.core.measures.printed_quantity import PrintedQuantity, QuantityKind
from inventory.core.measures.quantities import parse_quantity

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.lists.mark_words import Marks
    from inventory.core.measures.units import Unit
    from inventory.sheets.packing.amounts import Amounts
    from inventory.sheets.packing.hand_cells import HandRead
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking

_BOTH = {"left", "right"}


@frozen
class Sides:
    """A quantity of left and of right pieces."""

    left: Fraction
    right: Fraction

    @property
    def total(self) -> Fraction:
        """Both together."""
        return self.left + self.right


def hand_by_amounts(
    hand: HandRead, cells: Mapping[str, PrintedQuantity], asking: RowAsking
) -> tuple[ListedHand, Sides | None]:
    """Return the hand once the amounts had their say: `2L 2R`, or columns for left and right."""
    said = _said_sides(cells)
    if said is None:
        ticked = hand.hand is ListedHand.NONE and _ticks(cells) == [True, True]
        return (ListedHand.PAIR if ticked else hand.hand), None
    unhanded = cells.get("unhanded")
    if unhanded is not None and unhanded.number:
        return _asked_columns(said, unhanded.number, asking), None
    by_amounts = ListedHand.PAIR
    if not said.left or not said.right:
        by_amounts = ListedHand.LEFT if said.left else ListedHand.RIGHT
    if hand.hand in {ListedHand.NONE, ListedHand.PAIR, by_amounts}:
        return (by_amounts if said.total else hand.hand), said
    if hand.hand is ListedHand.UNKNOWN:
        return hand.hand, None
    answer = asking.about_row(
        "hand",
        f"the row says {hand.hand}, its quantities say {by_amounts}",
        {"quantities": f"it is {by_amounts}", "words": f"it is {hand.hand}"},
    )
    if answer is None:
        asking.unknown.add("hand")
        return ListedHand.UNKNOWN, None
    return (by_amounts, said) if answer == "quantities" else (hand.hand, None)


def _asked_columns(said: Sides, unhanded: Fraction, asking: RowAsking) -> ListedHand:
    """Ask about a row that has pieces of both hands and pieces without."""
    answer = asking.about_row(
        "hand",
        f"{said.left} left, {said.right} right and {unhanded} without a hand on one row",
        {"none": "all of them are without a hand"},
    )
    if answer is None:
        asking.unknown.add("hand")
        return ListedHand.UNKNOWN
    return ListedHand.NONE


def _said_sides(cells: Mapping[str, PrintedQuantity]) -> Sides | None:
    columns = [cells.get(side) for side in ("left", "right")]
    if any(cell is not None and cell.kind is QuantityKind.NUMBER for cell in columns):
        left, right = (Fraction(cell.number) if cell else Fraction(0) for cell in columns)
        return Sides(left, right) if left or right else None
    ticks = _ticks(cells)
    lone = next((cells[name] for name in ("quantity", "ordered", "shipped") if name in cells), None)
    if any(ticks) and lone is not None and ticks != [True, True]:
        return Sides(*(lone.number if tick else Fraction(0) for tick in ticks))
    for cell in cells.values():
        if cell.left is not None and cell.right is not None:
            return Sides(Fraction(cell.left), Fraction(cell.right))
    return None


def _ticks(cells: Mapping[str, PrintedQuantity]) -> list[bool]:
    """Return whether left and whether right is ticked."""
    return [side in cells and cells[side].kind is QuantityKind.TICK for side in ("left", "right")]


def with_remark(cells: dict[str, PrintedQuantity], row: OpenRow) -> dict[str, PrintedQuantity]:
    """Add what a remark says about both hands and nothing else, `(2 LH, 2 RH)`, or a description.

    A description may say more beside it: `GUSSET, 3 LH + 3 RH`.
    """
    said = [numbers_of_sides(row.view.description)]
    said += [numbers_of_sides(text) or _sides_alone(text) for text in row.view.beside]
    for left, right in filter(None, said):
        cells["remark"] = PrintedQuantity(left=left, right=right)
    return cells


def _sides_alone(text: str) -> tuple[int, int] | None:
    said = parse_quantity(text.strip("() "), decimal_comma=False)
    if said.left is None or said.right is None or said.doubt:
        return None
    return said.left, said.right


def checked_sides(row: OpenRow, said: Sides, amounts: Amounts, unit: Unit) -> Sides | None:
    """Return the sides a row names where they make its quantity; else ask which is meant."""
    total = amounts.ordered * unit.size
    if said.total in {total, amounts.ordered}:
        return said
    answer = row.asking.about_row(
        "left and right",
        f"{said.left} left and {said.right} right don't make {total}",
        {"sides": f"{said.left} left and {said.right} right"},
        lambda typed: typed_sides(typed) is not None,
    )
    if answer is None:
        row.asking.unknown.update({*_BOTH, "ordered", "shipped", "back_ordered"})
        return None
    return said if answer == "sides" else typed_sides(answer)


def split(
    row: OpenRow, amounts: Amounts, cells: Mapping[str, PrintedQuantity], unit: Unit
) -> Sides | None:
    """Return the ordered pieces of a pair by side; None where a person has to say.

    Even totals are halved (1+1, 2+2), `1/1` and pairs count each side, odd totals are asked.
    """
    evidence, asking = row.evidence, row.asking
    halves = halves_of(cells)
    if halves:
        return _halves(halves, asking)
    total = amounts.ordered * unit.size
    if unit.word == "pair":
        return Sides(amounts.ordered, amounts.ordered)
    if unit.packed or total % 2:
        return _asked(total, asking, each=evidence.pairs_mostly_odd)
    if evidence.pairs_mostly_odd:
        each = _each_side(asking)
        return None if each is None else _by_convention(total, each=each)
    return Sides(total / 2, total / 2)


def halves_of(cells: Mapping[str, PrintedQuantity]) -> tuple[int, int] | None:
    """Return the two numbers of the first amount that is printed as `1/1` or `1+1`."""
    return next((cell.halves for cell in cells.values() if cell.halves), None)


def _halves(halves: tuple[int, int], asking: RowAsking) -> Sides | None:
    left, right = map(Fraction, halves)
    if left == right:
        return Sides(left, right)
    answer = asking.about_row(
        "left and right",
        f"{halves[0]}/{halves[1]} for a pair: which is left?",
        {
            "left first": f"{halves[0]} left and {halves[1]} right",
            "right first": f"{halves[1]} left and {halves[0]} right",
        },
    )
    if answer is None:
        asking.unknown.update(_BOTH)
        return None
    return Sides(left, right) if answer == "left first" else Sides(right, left)


def _each_side(asking: RowAsking) -> bool | None:
    answer = asking.about_list(
        "quantity of a pair",
        "does the quantity of a left-and-right row count both sides together, or each side?",
        {"together": "2 is 1 left and 1 right", "each side": "2 is 2 left and 2 right"},
    )
    if answer is None:
        asking.unknown.update(_BOTH)
        return None
    return answer == "each side"


def _by_convention(total: Fraction, *, each: bool) -> Sides:
    return Sides(total, total) if each else Sides(total / 2, total / 2)


def _asked(total: Fraction, asking: RowAsking, *, each: bool) -> Sides | None:
    if each:
        each_side = _each_side(asking)
        if each_side is None:
            return None
        if each_side:
            return Sides(total, total)
    answer = asking.about_row(
        "left and right",
        f"a left and a right on one row, but the quantity is {total}",
        {
            "each side": f"{total} left and {total} right",
            f"{total} left": f"{total} left and no right",
            f"{total} right": f"{total} right and no left",
        },
        lambda typed: typed_sides(typed) is not None,
    )
    if answer is None:
        asking.unknown.update(_BOTH)
        return None
    return Sides(total, total) if answer == "each side" else typed_sides(answer)


def typed_sides(answer: str) -> Sides | None:
    """Return what `2 left 1 right` says; None where it says nothing of the kind."""
    quantity = parse_quantity(answer, decimal_comma=False)
    if quantity.left is None or quantity.right is None:
        return None
    return Sides(Fraction(quantity.left), Fraction(quantity.right))


def split_shipped(
    ordered: Sides, shipped: Fraction, marks: Marks, asking: RowAsking
) -> Sides | None:
    """Return the shipped pieces by side: as a remark names the hand, else even numbers halved.

    What was shipped stands on the same row of both hands as what was ordered, so 2 is 1 and 1
    here too; an odd number is asked.
    """
    plain = _shipped_plainly(ordered, shipped, marks)
    if plain is not None:
        return plain
    answer = asking.about_row(
        "shipped by hand",
        f"{shipped} of {ordered.left} left and {ordered.right} right were shipped: which?",
        {},
        lambda typed: (sides := typed_sides(typed)) is not None and sides.total == shipped,
    )
    if answer is None:
        asking.unknown.update({"shipped", "back_ordered"})
        return None
    return typed_sides(answer)


def _shipped_plainly(ordered: Sides, shipped: Fraction, marks: Marks) -> Sides | None:
    missing = ordered.total - shipped
    if not missing or not shipped:
        return ordered if shipped else Sides(Fraction(0), Fraction(0))
    if marks.hand is ListedHand.RIGHT and missing <= ordered.right:
        return Sides(ordered.left, ordered.right - missing)
    if marks.hand is ListedHand.LEFT and missing <= ordered.left:
        return Sides(ordered.left - missing, ordered.right)
    if shipped % 2 == 0 and shipped / 2 <= min(ordered.left, ordered.right):
        return Sides(shipped / 2, shipped / 2)
    return None
