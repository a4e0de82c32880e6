"""Commands for deliveries: record one before signing, print its checklist, look at it."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Annotated, Any

import typer

from inventory.cli import context
from inventory.cli.options import Json, Output
from inventory.cli.paragraphs import hanging
from inventory.cli.receiving import delivery_options
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.receiving.delivery import Delivery, DeliveryFacts
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.photographs import RecordedPhoto

group = typer.Typer(
    no_args_is_help=True, help="Record a delivery before signing, and print its checklist."
)

Which = Annotated[int, typer.Argument(metavar="N", help="Its number, if there are several.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="delivery")


@group.command("record")
def record(
    number: Annotated[int, typer.Argument(metavar="N", help="One to mend; else a new one.")] = 0,
    supplier: delivery_options.Supplier = None,
    carrier: delivery_options.Carrier = None,
    carriage: delivery_options.Carriage = None,
    sale: delivery_options.Sale = None,
    order: delivery_options.Order = None,
    invoice: delivery_options.Invoice = None,
    bill_of_lading: delivery_options.BillOfLading = None,
    pro_number: delivery_options.ProNumber = None,
    delivered: delivery_options.Delivered = "",
    place: delivery_options.PlaceName = None,
    country: delivery_options.Country = None,
    region: delivery_options.Region = None,
    advised: delivery_options.Advised = None,
    counted: delivery_options.Counted = None,
    seals: delivery_options.Seals = None,
    window: delivery_options.Window = "",
    event: delivery_options.Event = None,
    list_: delivery_options.Lists = None,
    *,
    late: delivery_options.Late = None,
) -> None:
    """Record a delivery, or with its number what is known better; what isn't said stays.

    Example: kitwright delivery record --carriage us-truck --delivered today --advised 3
    """
    slip = context.new_slip()
    said = {
        "supplier": supplier, "carrier": carrier, "carriage": carriage, "sale": sale,
        "order": order, "invoice": invoice, "bill_of_lading": bill_of_lading,
        "pro_number": pro_number, "place": place, "country": country, "region": region,
        "packages_advised": advised, "packages_counted": counted, "seals": seals, "late": late,
    }  # fmt: skip
    days = delivery_options.days_said(delivered, window, event or [], slip.happened_on)
    _record(lambda facts: _changed(facts, said, days), slip, number, list_ or [])


def _record(
    change: Callable[[DeliveryFacts], DeliveryFacts], slip: Slip, number: int, lists: list[int]
) -> None:
    from inventory.jobs.receiving.deliveries import record_delivery

    bench = context.open_bench()
    _show_one(bench, record_delivery(bench, change, slip, number, lists))


def _changed(
    facts: DeliveryFacts, said: dict[str, Any], days: delivery_options.Days
) -> DeliveryFacts:
    known = {name: value for name, value in said.items() if value is not None}
    dates = {event: day for event, day in {**facts.dates, **days.dates}.items() if day is not None}
    return replace(facts, **known, **days.facts, dates=dates)


@group.command("exception")
def exception(
    words: Annotated[str, typer.Argument(metavar="WORDS", help="What is wrong, concretely.")],
    number: Annotated[int, typer.Option("--delivery", metavar="N", help="Which delivery.")] = 0,
    crate: Annotated[str, typer.Option(metavar="CRATE", help="Which crate.")] = "",
    *,
    missing: Annotated[bool, typer.Option("--missing", help="The crate never came.")] = False,
    harmed: Annotated[bool, typer.Option("--harmed", help="Open, wet or broken.")] = False,
    on_receipt: Annotated[
        bool, typer.Option("--on-receipt", help="The words stand on the driver's paper.")
    ] = False,
) -> None:
    """Record what is wrong with a package, in words that also stand on the driver's paper.

    Example: kitwright delivery exception "end panel punctured" --crate 2 --harmed --on-receipt
    """
    from inventory.core.receiving.delivery import PackageException, PackageState
    from inventory.jobs.receiving.deliveries import except_package

    if missing and harmed:
        raise InventoryError("a crate that never came isn't harmed", remedy="Say one of both.")
    state = PackageState.MISSING if missing else PackageState.HARMED if harmed else None
    told = PackageException(
        crate=crate, state=state or PackageState.OTHER, words=words, on_receipt=on_receipt
    )
    named = except_package(context.open_bench(), number, told, context.new_slip())
    where = f"crate {named.crate}" if named.crate else "the delivery"
    say(f"recorded of {where}: {named.words}")
    if not on_receipt:
        note("write it on BOTH copies of the driver's paper before you sign, then say --on-receipt")


@group.command("photo")
def photo(
    files: Annotated[list[Path], typer.Argument(metavar="FILE...", help="JPEG or PNG.")],
    number: Annotated[int, typer.Option("--delivery", metavar="N", help="Of a delivery.")] = 0,
    crate: Annotated[str, typer.Option(metavar="CRATE", help="Of a crate.")] = "",
    part: Annotated[str, typer.Option(metavar="PART", help="Of a part.")] = "",
    caption: Annotated[str, typer.Option(metavar="WORDS", help="What it shows.")] = "",
) -> None:
    """Keep photographs: pixels only, without place, time or camera; they go into reports.

    Example: kitwright delivery photo lid.jpg seal.jpg --crate 2 --caption "lid and seal"
    """
    from inventory.jobs.receiving.deliveries import delivery_named
    from inventory.jobs.receiving.photographs import PhotoOf, photograph, read_file

    bench = context.open_bench()
    if not (crate or part):
        number = delivery_named(bench, number).number
    of = PhotoOf(caption=caption, delivery=number or None, crate=crate, part=part)
    pictures = [read_file(each) for each in files]
    kept = photograph(bench, pictures, of, context.new_slip())
    for each in kept:
        say(f"kept {each.name}: {each.width} x {each.height}, {each.sha256[:12]}")


@group.command("lists")
def lists(
    number: Annotated[int, typer.Argument(metavar="N", help="The delivery.")],
    came: Annotated[list[int], typer.Argument(metavar="LIST...", help="Packing lists.")],
) -> None:
    """Say which packing lists came with a delivery; their findings then run by its clock.

    Example: kitwright delivery lists 1 1 2
    """
    from inventory.jobs.receiving.deliveries import add_lists

    bench = context.open_bench()
    _show_one(bench, add_lists(bench, number, came, context.new_slip()))


@group.command("show")
def show(
    number: Annotated[int, typer.Argument(metavar="N", help="One of them.")] = 0,
    *,
    json: Json = False,
) -> None:
    """Show the deliveries, or all that is known of one.

    Example: kitwright delivery show 1
    """
    from inventory.jobs.receiving.deliveries import deliveries, delivery_named

    bench = context.open_bench()
    found = [delivery_named(bench, number)] if number else deliveries(bench)
    if json:
        document("deliveries", found)
    elif number or len(found) == 1:
        _show_one(bench, found[0])
    else:
        table(
            [
                Column("no.", number=True),
                Column("delivered"),
                Column("supplier", words=True),
                Column("carriage"),
                Column("packages"),
                Column("lists"),
            ],
            [
                (
                    each.number,
                    each.facts.delivered_on or "not yet",
                    each.facts.supplier,
                    each.facts.carriage,
                    f"{each.facts.packages_counted} of {each.facts.packages_advised}",
                    ", ".join(map(str, each.lists)),
                )
                for each in found
            ],
        )


@group.command("match")
def match(
    number: Annotated[int, typer.Argument(metavar="LIST", help="The later list.")],
    *,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show only; store nothing.")] = False,
    json: Json = False,
) -> None:
    """Match a later list line by line: what it closes that was open, and which steps it frees.

    Example: kitwright delivery match 2 --dry-run
    """
    from inventory.cli.receiving.match_words import match_lines
    from inventory.jobs.lists.later_lists import match_list, record_match

    bench = context.open_bench()
    found = (
        match_list(bench, number) if dry_run else record_match(bench, number, context.new_slip())
    )
    if json:
        document("match", found)
        return
    for line in match_lines(found):
        say(line)
    note("dry run: nothing was stored" if dry_run else "recorded; count what came as ever")


@group.command("checklist")
def checklist(output: Output, number: Which = 0) -> None:
    """Print what to look at while the driver waits, and in the days after, on one page.

    Example: kitwright delivery checklist -o checklist.pdf
    """
    from inventory.cli.receiving.receiving_papers import write_checklist
    from inventory.jobs.receiving.deliveries import deliveries, delivery_named

    bench = context.open_bench()
    known = deliveries(bench)
    write_checklist(bench, delivery_named(bench, number) if known or number else None, output)
    note(f"written: {output}")


def _show_one(bench: Bench, whole: Delivery) -> None:
    from inventory.cli.receiving.delivery_words import delivery_lines
    from inventory.jobs.receiving.photographs import photographs

    taken = [each for each in photographs(bench) if each.of.delivery == whole.number]
    lines = [*delivery_lines(whole), *(f"  {'photograph':<15} {_photo(each)}" for each in taken)]
    for line in lines:
        for shown in hanging(line, 18):
            say(shown)


def _photo(each: RecordedPhoto) -> str:
    of = each.of
    told = (f"crate {of.crate}" if of.crate else "", of.part, of.caption)
    words = ", ".join(word for word in told if word)
    return f"{each.kept.name}: {words}" if words else each.kept.name
