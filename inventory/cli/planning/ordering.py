"""Commands for what is to be ordered: the list, offers, minimum stock, and orders placed."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount_typed, of_part, quantity_words, say_movements
from inventory.cli.asking import asked
from inventory.cli.exits import Exit
from inventory.cli.options import (
    Amount,
    AmountMaybe,
    Check,
    HandText,
    Json,
    Length,
    NewPart,
    PartMaybe,
    PartText,
    Table,
)
from inventory.cli.planning.order_words import placed_rows, show_to_order, write_to_order
from inventory.cli.receiving.delivery_options import day_of
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError
from inventory.core.items import part_key

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping
    from datetime import date

    from inventory.core.items import Measure
    from inventory.core.measures.money import Price
    from inventory.jobs.planning.buying import Ordering

group = typer.Typer(help="Show what is to be ordered or claimed; keep offers, minimums, orders.")

Supplier = Annotated[str, typer.Option("--from", metavar="SUPPLIER", help="Who sells it.")]
Reference = Annotated[
    str, typer.Option("--ref", metavar="WORDS", help="The order's own number or letter.")
]
Every = Annotated[
    bool, typer.Option("--all", help="Everything on this supplier's list but the claims.")
]
PriceText = Annotated[str, typer.Option("--price", metavar="PRICE", help="Of one, as `12.50 EUR`.")]
Promised = Annotated[str, typer.Option(metavar="DATE", help="By when it is promised.")]
Latest = Annotated[str, typer.Option(metavar="DATE", help="The late end, if it is a range.")]
Number = Annotated[int, typer.Argument(metavar="ORDER", help="Its number: `to-order placed`.")]
Words = Annotated[str, typer.Option("--words", metavar="WORDS", help="What they said.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="to-order")


@group.callback(invoke_without_command=True)
def to_order(
    asking: typer.Context,
    supplier: Annotated[
        str, typer.Option(metavar="WORDS", help="Of suppliers so named only.")
    ] = "",
    output: Table = None,
    *,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show everything to order or claim: by supplier, with needed-by dates and prices if known.

    Example: kitwright to-order -o order.pdf
    """
    if asking.invoked_subcommand is not None:
        return Exit.DONE
    from inventory.jobs.planning.ordering import to_order as to_order_

    bench = context.open_bench()
    lines = to_order_(bench, _today(), supplier)
    if output is not None:
        write_to_order(bench, lines, output)
        note(f"written: {output}")
    if json:
        document("to order", lines)
    elif output is None:
        show_to_order(lines)
    return Exit.FINDINGS if check and lines else Exit.DONE


def _today() -> date:
    from inventory.jobs.planning.shelf_lives import this_day

    return context.happened_on(this_day())


def _price(text: str) -> Price | None:
    from inventory.core.measures.money import parse_price

    return parse_price(text) if text else None


def _day(text: str) -> date | None:
    return day_of(text, _today()) if text else None


@group.command("placed")
def placed(
    *,
    overdue: Annotated[bool, typer.Option("--overdue", help="Only what should have come.")] = False,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show what was ordered apart from the kit: promised when, answered how, overdue or come.

    Example: kitwright to-order placed --overdue
    """
    from inventory.jobs.planning.ordering import placed as placed_

    every = placed_(context.open_bench(), _today())
    found = [each for each in every if each.overdue] if overdue else every
    if json:
        document("orders", found)
    elif found:
        columns = [
            Column("order", number=True), Column("open", number=True), PART, HAND,
            Column("promised"), Column("state", words=True), Column("from", words=True),
        ]  # fmt: skip
        table(columns, placed_rows(found))
    else:
        say("nothing is overdue" if overdue else "no order is recorded")
    return Exit.FINDINGS if check and any(each.overdue for each in every) else Exit.DONE


@group.command("place")
def place(
    part: PartMaybe = "",
    amount: AmountMaybe = "",
    supplier: Supplier = "",
    reference: Reference = "",
    price: PriceText = "",
    promised: Promised = "",
    latest: Latest = "",
    hand: HandText = "",
    length: Length = "",
    *,
    every: Every = False,
    new_part: NewPart = False,
) -> None:
    """Record pieces as ordered: from now on they are due, and no longer on the list.

    Example: kitwright to-order place AN3-5A 20 --from "Heron Hardware" --ref "mail of 3 May"
    """
    from inventory.jobs.planning.buying import Ordering, place_orders
    from inventory.jobs.planning.measures import measures
    from inventory.jobs.planning.ordering import all_of

    bench = context.open_bench()
    if every:
        orders = all_of(bench, _today(), supplier, reference)
    elif part and amount:
        one = Ordering(
            asked=asked(part, hand, None, length, new=new_part),
            pieces=amount_typed(bench, part, amount),
            supplier=supplier,
            reference=reference,
            price=_price(price),
            promised=_day(promised),
            latest=_day(latest),
        )
        orders = [one]
    else:
        raise InventoryError("what was ordered?", remedy="Say PART and AMOUNT, or --all.")
    numbers = place_orders(bench, orders, context.new_slip(reference))
    _say_placed(zip(numbers, orders, strict=True), measures(bench))


def _say_placed(placed: Iterable[tuple[int, Ordering]], known: Mapping[str, Measure]) -> None:
    for number, order in placed:
        told = f"{order.asked.part} {hand_word(order.asked.hand or 'none')}".rstrip()
        say(f"order {number}: {of_part(order.pieces, part_key(order.asked.part), known)} x {told}")


@group.command("answered")
def answered(
    order: Number, promised: Promised = "", latest: Latest = "", words: Words = ""
) -> None:
    """Record what the supplier answered to an order: the day promised, or words.

    Example: kitwright to-order answered 1 --promised 2026-05-20 --words "in two parcels"
    """
    _event(order, "answered", promised, latest, words)


@group.command("cancelled")
def cancelled(order: Number, words: Words = "") -> None:
    """Record that an order was given up, or won't be delivered.

    Example: kitwright to-order cancelled 1 --words "no longer made"
    """
    _event(order, "cancelled", "", "", words)


def _event(order: int, event: str, promised: str, latest: str, words: str) -> None:
    from inventory.jobs.planning import buying

    slip = context.new_slip(words)
    told = buying.answer(event, slip.happened_on, _day(promised), _day(latest), words)
    done = buying.answered(context.open_bench(), order, told, slip)
    day = f", promised for {done.promised}" if done.promised else ""
    say(f"{buying.order_words(done)}: {event}{day}")


@group.command("came")
def came(
    order: Number,
    amount: Amount,
    to: Annotated[str, typer.Option("--to", metavar="BIN", help="The bin they go into.")],
    lot: Annotated[str, typer.Option("--lot", metavar="LOT", help="Lot or batch number.")] = "",
) -> None:
    """Record pieces of an order as come, and put them into a bin.

    Example: kitwright to-order came 1 20 --to D-01
    """
    from inventory.jobs.planning.buying import came as came_
    from inventory.jobs.planning.buying import order_of
    from inventory.jobs.planning.measures import measures

    bench = context.open_bench()
    pieces = amount_typed(bench, order_of(bench, order).part, amount)
    done = came_(bench, order, pieces, (to, lot), context.new_slip())
    say_movements(bench, [done.movement])
    left = of_part(done.purchase.pieces_open, done.purchase.part, measures(bench))
    told = f": {left} still to come" if done.purchase.pieces_open else " is complete"
    say(f"order {order}{told}")


@group.command("offer")
def offer(
    part: PartText,
    supplier: Supplier = "",
    price: PriceText = "",
    length: Length = "",
    days: Annotated[int, typer.Option(metavar="N", help="From order to arrival.")] = 0,
) -> None:
    """Keep what a supplier asks for a part, or for a stock length of it.

    Example: kitwright to-order offer T2-ST-0075 --from "Heron Metals" --length 4ft --price 12.50
    """
    from inventory.core.measures.lengths import parse_length, show_length
    from inventory.jobs.planning import buying

    kept = buying.keep_offer(
        context.open_bench(),
        buying.offer_of(part, supplier, parse_length(length) if length else 0, _price(price), days),
        context.new_slip(),
    )
    words = f"for a stick of {show_length(kept.length)}" if kept.length else "each"
    say(f"{kept.part} of {kept.supplier}: {kept.price or 'no price'} {words}")


@group.command("minimum")
def minimum(
    part: Annotated[str, typer.Argument(metavar="PART", help="Else all are shown.")] = "",
    amount: Annotated[
        str, typer.Argument(metavar="AMOUNT", help="What should be left over; 0: none.")
    ] = "",
    *,
    json: Json = False,
) -> None:
    """Keep how many of a part should be left when all steps are done; below it is to be ordered.

    Example: kitwright to-order minimum MS20470AD4-4 100
    """
    from inventory.jobs.planning.buying import all_minimums, keep_minimum
    from inventory.jobs.planning.measures import measures

    bench = context.open_bench()
    if part and amount:
        pieces = amount_typed(bench, part, amount)
        kept = keep_minimum(bench, part, pieces)
        left = f"{quantity_words(pieces, kept.measure)} should be left" if pieces else "no minimum"
        say(f"{kept.printed}: {left}")
        return
    found = all_minimums(bench)
    if json:
        document("minimums", found)
    elif found:
        known = measures(bench)
        rows = [(part, of_part(found[part], part, known)) for part in sorted(found)]
        table([PART, Column("minimum", number=True)], rows)
    else:
        say("no minimum is kept")
