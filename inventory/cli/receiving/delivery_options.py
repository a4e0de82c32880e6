"""Options of `delivery record`, and what the ones about days mean."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING, Annotated, Any

import typer

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from datetime import date

Text = str | None
Supplier = Annotated[Text, typer.Option(metavar="NAME", help="Who sent it.")]
Carrier = Annotated[Text, typer.Option(metavar="NAME", help="Who brought it.")]
Carriage = Annotated[
    Text,
    typer.Option(
        metavar="MODE",
        help="us-truck, us-rail, us-air, us-sea, air, road, rail, sea, forwarder, swiss or parcel.",
    ),
]
Sale = Annotated[Text, typer.Option(metavar="KIND", help="sale-us or sale-international.")]
Order = Annotated[Text, typer.Option(metavar="NO", help="Our order.")]
Invoice = Annotated[Text, typer.Option(metavar="NO", help="Invoice number and date.")]
BillOfLading = Annotated[Text, typer.Option(metavar="NO", help="Bill of lading or waybill.")]
ProNumber = Annotated[
    Text, typer.Option("--pro", metavar="NO", help="The carrier's own number (PRO).")
]
Delivered = Annotated[str, typer.Option(metavar="DATE", help="2026-03-14, or today.")]
PlaceName = Annotated[Text, typer.Option(metavar="WORDS", help="Where it was handed over.")]
Country = Annotated[Text, typer.Option(metavar="XX", help="Of that place: US, DE. For holidays.")]
Region = Annotated[Text, typer.Option(metavar="XX", help="State or province: WA, HH.")]
Advised = Annotated[int | None, typer.Option(metavar="N", help="Packages on the papers.")]
Counted = Annotated[int | None, typer.Option(metavar="N", help="Packages counted by us.")]
Seals = Annotated[Text, typer.Option(metavar="WORDS", help="Seal numbers, crate by crate.")]
Window = Annotated[
    str,
    typer.Option(metavar="DAYS", help='The supplier\'s own window: 30, "10 business" or none.'),
]
Event = Annotated[
    list[str] | None, typer.Option(metavar="EVENT=DATE", help="discovery=2026-03-20; =none drops.")
]
Lists = Annotated[
    list[int] | None, typer.Option("--list", metavar="LIST", help="A packing list that came.")
]
Late = Annotated[bool | None, typer.Option("--late/--in-time", help="It came late.")]


@frozen
class Days:
    """What was said of days: facts of the delivery, and events with their day or None."""

    facts: dict[str, Any] = field(default_factory=dict)
    dates: dict[str, date | None] = field(default_factory=dict)


def days_said(delivered: str, window: str, events: list[str], today: date) -> Days:
    """Return what was typed about days; nothing is read where a date can be meant in two ways."""
    facts: dict[str, Any] = {}
    if delivered:
        facts["delivered_on"] = day_of(delivered, today)
    if window:
        facts["window_days"], facts["window_count"] = _window(window)
    dates: dict[str, date | None] = {}
    for each in events:
        event, equals, day = each.partition("=")
        if not equals:
            raise InventoryError(
                f"{each[:40]!r} is no event", where="--event", remedy="discovery=2026-03-20"
            )
        dates[event.strip()] = day_of(day, today)
    return Days(facts, dates)


def day_of(text: str, today: date) -> date | None:
    """Return the day that was typed; None for `none`."""
    from datetime import date

    plain = text.strip().casefold()
    if plain == "none":
        return None
    if plain == "today":
        return today
    try:
        return date.fromisoformat(plain)
    except ValueError:
        raise InventoryError(
            f"{text[:40]!r} is no date", remedy="Write it as 2026-03-14, or say today or none."
        ) from None


def _window(text: str) -> tuple[int, Any]:
    from inventory.core.measures.days import CountedDays

    number, _, kind = text.strip().casefold().partition(" ")
    kinds = {"": CountedDays.CALENDAR, "calendar": CountedDays.CALENDAR,
             "business": CountedDays.BUSINESS}  # fmt: skip
    if number == "none":
        return 0, CountedDays.CALENDAR
    if not number.isascii() or not number.isdigit() or int(number) == 0 or kind not in kinds:
        raise InventoryError(
            f"{text[:40]!r} is no window",
            where="--window",
            remedy='Write the days as the order\'s terms say: 30, or "10 business"; none drops it.',
        )
    return int(number), kinds[kind]
