"""The order list and the orders placed: on screen, as PDF, as a table."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from inventory.cli.amounts import quantity_words
from inventory.cli.show import HAND, PART, hand_word, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import named
from inventory.core.measures.lengths import show_length
from inventory.core.planning.order_list import OrderReason

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Sequence
    from pathlib import Path

    from inventory.documents.order_list import WantedLine
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.ordering import Placed, ToOrder

_WORDS = {
    OrderReason.CLAIM: "OWED: claim it",
    OrderReason.SCRAP: "replaces scrap",
    OrderReason.SHORT: "short",
    OrderReason.MINIMUM: "below the minimum",
    OrderReason.SPARE: "spare",
}


def show_to_order(lines: Sequence[ToOrder]) -> None:
    """Show the list on screen, a table for each supplier."""
    if not lines:
        say("nothing is to be ordered")
    columns = [
        Column("needed by"), Column("pieces", number=True), PART, HAND, Column("price"),
        Column("why", words=True),
    ]  # fmt: skip
    for supplier, group in groupby(lines, key=lambda each: each.line.supplier):
        say(supplier or "no supplier known")
        table(columns, [_row(each) for each in group])
        say()


def _row(each: ToOrder) -> tuple[object, ...]:
    line = each.line
    why = _WORDS[line.reason]
    steps = f" for {named(line.steps)}" if line.steps else ""
    sticks = f"; buy {_sticks(each)}" if each.sticks else ""
    order_by = f"; order by {each.order_by}" if each.order_by else ""
    return (
        line.needed_by or "", _quantity(each), line.printed or line.part, hand_word(line.hand),
        line.price or "", f"{why}{steps}{sticks}{order_by}",
    )  # fmt: skip


def _quantity(each: ToOrder) -> str:
    return quantity_words(each.line.quantity, each.line.measure, each.line.length)


def _sticks(each: ToOrder) -> str:
    return ", ".join(f"{number} x {show_length(length)}" for length, number in each.sticks)


def write_to_order(bench: Bench, lines: Iterable[ToOrder], path: Path) -> None:
    """Write the list as .pdf, .xlsx or .csv."""
    from inventory.cli.papers import page_head, write_table
    from inventory.documents.order_list import order_list_pdf, order_list_table

    wanted = [_wanted(each) for each in lines]
    head = page_head(bench)
    write_table(path, head, lambda: order_list_pdf(head, wanted), lambda: order_list_table(wanted))


def _wanted(each: ToOrder) -> WantedLine:
    from inventory.documents.order_list import WantedLine

    line = each.line
    return WantedLine(
        supplier=line.supplier,
        part=line.printed or line.part,
        description=line.description,
        hand=line.hand,
        quantity=_quantity(each),
        sticks=_sticks(each),
        why=_WORDS[line.reason],
        steps=named(line.steps),
        needed_by=line.needed_by,
        order_by=each.order_by,
        price=str(line.price or ""),
        claimed=each.claimed,
    )


def placed_rows(found: Iterable[Placed]) -> Iterator[tuple[object, ...]]:
    """Yield a row for each order: what is open, promised when, and how it stands."""
    for each in found:
        order = each.purchase
        promised = f"{order.promised or 'no date'}{f' to {order.latest}' if order.latest else ''}"
        price = f", {order.price} each" if order.price else ""
        left = f"{_words(each, order.pieces_open)} of {_words(each, order.pieces)}"
        yield (
            order.id, left, each.printed,
            hand_word(order.hand), promised if order.pieces_open else "",
            _state(each), f"{order.supplier} {order.reference}".strip() + price,
        )  # fmt: skip


def _words(each: Placed, quantity: int) -> str:
    return quantity_words(quantity, each.measure)


def _state(each: Placed) -> str:
    order = each.purchase
    words = [f"ordered {order.ordered_on}"]
    words += [
        f"{event.event} {event.on}{f' {_words(each, event.pieces)}' if event.pieces else ''}"
        f"{f': {event.words}' if event.words else ''}"
        for event in order.events
    ]
    return ("OVERDUE: " if each.overdue else "") + "; ".join(words)
