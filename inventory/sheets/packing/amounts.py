"""Ordered, shipped and to follow of one row, from whichever of them the list prints."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.lists.packing import CountRule
from inventory.core.measures.printed_quantity import PrintedQuantity, QuantityKind
from inventory.sheets.packing.no_amounts import NAME, WHAT, columns_to_choose

if TYPE_CHECKING:
    from collections.abc import Mapping

    from inventory.core.lists.mark_words import Marks
    from inventory.sheets.packing.list_evidence import Evidence
    from inventory.sheets.packing.open_row import OpenRow
    from inventory.sheets.packing.row_asking import RowAsking
    from inventory.sheets.packing.row_views import RowView

ALL = {"ordered", "shipped", "back_ordered"}
_NUMBERED = {QuantityKind.NUMBER, QuantityKind.NOTHING}
_RULES = {
    QuantityKind.AS_REQUIRED: CountRule.AS_REQUIRED,
    QuantityKind.REFERENCE: CountRule.REFERENCE,
}


@frozen(kw_only=True)
class Amounts:
    """The three quantities of a row in its own unit."""

    ordered: Fraction = Fraction(0)
    shipped: Fraction = Fraction(0)
    back_ordered: Fraction = Fraction(0)
    rule: CountRule = CountRule.COUNTED
    rounded: bool = False
    """True where a mass, volume or area was rounded once."""


@frozen
class _Stated:
    """What the cells say; None where nothing is said."""

    ordered: Fraction | None
    shipped: Fraction | None
    waiting: Fraction | None
    before: Fraction = Fraction(0)
    """Shipped earlier."""


def settle_amounts(row: OpenRow, cells: Mapping[str, PrintedQuantity], marks: Marks) -> Amounts:
    """Return the amounts of a row; what doesn't add up, or isn't said, is asked."""
    view, asking = row.view, row.asking
    rule = next((_RULES[cell.kind] for cell in cells.values() if cell.kind in _RULES), None)
    if rule is not None:
        return Amounts(rule=rule)
    if "ordered" in asking.unknown:
        return Amounts()
    stated = _stated(row, cells, marks)
    if stated is None or "ordered" in asking.unknown:
        asking.unknown.update(ALL)
        return Amounts()
    return _completed(view, stated, asking)


def _counted(cell: PrintedQuantity | None) -> Fraction | None:
    """Return the number of a cell that has to hold one: a dash there says nothing."""
    return cell.number if cell is not None and cell.kind is QuantityKind.NUMBER else None


def _number(cell: PrintedQuantity | None) -> Fraction | None:
    return cell.number if cell is not None and cell.kind in _NUMBERED else None


def _stated(row: OpenRow, cells: Mapping[str, PrintedQuantity], marks: Marks) -> _Stated | None:
    evidence, asking = row.evidence, row.asking
    lone = _counted(_lone(cells, asking))
    ordered, shipped = _counted(cells.get("ordered")), _number(cells.get("shipped"))
    if lone is None and ordered is None and shipped is None:
        lone = _of_hands(cells)
    if lone is not None and (ordered is not None or shipped is not None):
        ordered, shipped, lone = (
            (lone, shipped, None) if ordered is None else (ordered, shipped or lone, None)
        )
    waiting = _waiting(cells, ordered if ordered is not None else lone)
    before = _number(cells.get("shipped_before")) or Fraction(0)
    stated = _Stated(ordered, shipped, waiting, before)
    if lone is not None:
        stated = _from_lone(lone, waiting, evidence)
    if marks.to_follow:
        return _with_marks(stated, lone, marks, evidence, asking)
    if stated.ordered is None and stated.shipped is None:
        return _from_waiting(row.view, cells, stated, asking)
    return stated


def _lone(cells: Mapping[str, PrintedQuantity], asking: RowAsking) -> PrintedQuantity | None:
    """Return the one quantity of a list that doesn't tell ordered from shipped."""
    quantity, total = cells.get("quantity"), cells.get("extended")
    if total is None:
        return quantity or cells.get("per_assembly")
    if quantity is None:
        return _product(cells, total, asking)
    if quantity.number == total.number:
        return total
    answer = asking.about_list(
        "quantity or total",
        "the list has a quantity and a total: which of them is in the crate?",
        {"total": "the total is what was ordered", "quantity": "the quantity is"},
    )
    if answer is None:
        asking.unknown.update(ALL)
    return quantity if answer == "quantity" else total


def _product(
    cells: Mapping[str, PrintedQuantity], total: PrintedQuantity, asking: RowAsking
) -> PrintedQuantity:
    """Return the total where it is what one set or assembly takes times how many there are."""
    each, times = _counted(cells.get("per_assembly")), _counted(cells.get("assemblies"))
    if each is None or times is None or each * times == total.number:
        return total
    answer = asking.about_row(
        "total",
        f"{each} for each and {times} of them don't make the {total.number} in all",
        {f"{total.number}": "the total counts", f"{each * times}": "the product counts"},
    )
    if answer is None:
        asking.unknown.update(ALL)
    return total if answer != f"{each * times}" else replace(total, number=each * times)


def _of_hands(cells: Mapping[str, PrintedQuantity]) -> Fraction | None:
    numbers = [_number(cells.get(side)) for side in ("left", "right", "unhanded")]
    known = [number for number in numbers if number is not None]
    return sum(known, Fraction(0)) if known else None


def _waiting(cells: Mapping[str, PrintedQuantity], whole: Fraction | None) -> Fraction | None:
    cell = cells.get("back_ordered")
    if cell is not None and cell.kind in {QuantityKind.TICK, QuantityKind.BACK_ORDERED}:
        return whole
    if cell is not None:
        return _number(cell)
    inside = [cell.back_ordered for cell in cells.values() if cell.back_ordered is not None]
    return inside[0] if inside else None


def _from_lone(lone: Fraction, waiting: Fraction | None, evidence: Evidence) -> _Stated:
    if waiting is not None and evidence.quantity_is_shipped:
        return _Stated(lone + waiting, lone, waiting)
    if waiting is not None and waiting > lone:
        return _Stated(lone + waiting, lone, waiting)
    return _Stated(lone, lone - (waiting or 0), waiting)


def _with_marks(
    stated: _Stated,
    lone: Fraction | None,
    marks: Marks,
    evidence: Evidence,
    asking: RowAsking,
) -> _Stated | None:
    """Take what a remark says is to follow, where it fits what the columns say."""
    number = None if marks.number is None else Fraction(marks.number)
    if stated.waiting is not None:
        return stated if number in {None, stated.waiting} else _contradiction(stated, asking)
    if marks.how_many:
        return _how_many(asking)
    if lone is not None and evidence.quantity_is_shipped:
        return _Stated(lone + number, lone, number) if number else _how_many(asking)
    if lone is None and stated.ordered is not None and stated.shipped is not None:
        rest = stated.ordered - stated.shipped - stated.before
        fits = rest > 0 and number in {None, rest}
        whole = _Stated(stated.ordered, stated.shipped, rest)
        return whole if fits else _contradiction(stated, asking)
    return _of_whole(stated, number, asking)


def _of_whole(stated: _Stated, number: Fraction | None, asking: RowAsking) -> _Stated | None:
    """Part what was ordered into shipped and to follow; of shipped alone, add what follows."""
    whole = stated.ordered
    if whole is not None:
        waiting = whole if number is None else number
        fits = waiting <= whole
        return _Stated(whole, whole - waiting, waiting) if fits else _how_many(asking)
    if number is None:
        return _how_many(asking)
    shipped = stated.shipped or Fraction(0)
    return _Stated(shipped + number, shipped, number)


def _how_many(asking: RowAsking) -> _Stated | None:
    answer = asking.about_row(
        "to follow", "how many are to follow isn't said", {}, lambda typed: typed.isdigit()
    )
    if answer is None:
        return None
    return _Stated(Fraction(answer), Fraction(0), Fraction(answer))


def _contradiction(stated: _Stated, asking: RowAsking) -> _Stated | None:
    answer = asking.about_row(
        "to follow",
        "the remark says that some are to follow, the columns say otherwise",
        {
            "columns": "the columns hold, the remark is out of date",
            "nothing shipped": "all of the line is to follow",
        },
    )
    if answer is None:
        return None
    if answer == "columns":
        return stated
    whole = stated.ordered if stated.ordered is not None else stated.shipped
    return _Stated(whole, Fraction(0), whole)


def _from_waiting(
    view: RowView,
    cells: Mapping[str, PrintedQuantity],
    stated: _Stated,
    asking: RowAsking,
) -> _Stated | None:
    if stated.waiting:
        return _Stated(stated.waiting, Fraction(0), stated.waiting)
    known = view.table.amounts or asking.about_list(NAME, WHAT, columns_to_choose(view.table))
    if not known:
        return None
    written = ", ".join(filter(None, map(view.text, cells)))[:30]
    answer = asking.about_row(
        "quantity",
        f"no quantity can be read in {written!r}" if written else "no quantity can be read",
        {"0": "nothing of it was ordered or shipped"},
        lambda typed: typed.isdigit(),
    )
    return None if answer is None else _Stated(Fraction(answer), Fraction(answer), None)


def _completed(view: RowView, stated: _Stated, asking: RowAsking) -> Amounts:
    ordered, shipped, waiting = stated.ordered, stated.shipped, stated.waiting
    if ordered is None:
        ordered = (shipped or Fraction(0)) + (waiting or 0)
    if shipped is None:
        shipped = _unsaid_shipped(view, ordered, waiting, stated.before, asking)
    rest = ordered - shipped - stated.before
    if waiting is None:
        waiting = _rest(view, rest, asking) if rest > 0 else Fraction(0)
    elif waiting not in {rest, 0} or (waiting == 0 and rest < 0):
        _doesnt_add_up(ordered, shipped, waiting, asking)
    return Amounts(ordered=ordered, shipped=shipped, back_ordered=waiting)


def _unsaid_shipped(
    view: RowView,
    ordered: Fraction,
    waiting: Fraction | None,
    before: Fraction,
    asking: RowAsking,
) -> Fraction:
    if waiting is not None or not view.table.places("shipped") or "shipped" in asking.unknown:
        return max(ordered - (waiting or 0) - before, Fraction(0))
    answer = asking.about_row(
        "shipped quantity",
        "nothing is said about how many were shipped",
        {f"{ordered}": "all of them were shipped", "0": "none was shipped"},
        lambda typed: typed.isdigit(),
    )
    if answer is None:
        asking.unknown.update({"shipped", "back_ordered"})
    return Fraction(answer) if answer else Fraction(0)


def _rest(view: RowView, rest: Fraction, asking: RowAsking) -> Fraction:
    """Ask whether what was ordered and not shipped is to follow: the list doesn't say."""
    if "shipped" in asking.unknown:
        return Fraction(0)
    answer = asking.about_list(
        "fewer shipped than ordered",
        f"{view.part}: {rest} fewer shipped than ordered, and not said to follow",
        {"to follow": "the rest is back-ordered", "nothing follows": "the rest isn't coming"},
    )
    if answer is None:
        asking.unknown.add("back_ordered")
    return rest if answer == "to follow" else Fraction(0)


def _doesnt_add_up(
    ordered: Fraction, shipped: Fraction, waiting: Fraction, asking: RowAsking
) -> None:
    answer = asking.about_row(
        "amounts",
        f"{ordered} ordered, {shipped} shipped and {waiting} to follow don't add up",
        {"as printed": "the three amounts stay as they are printed"},
    )
    if answer is None:
        asking.unknown.update(ALL)
