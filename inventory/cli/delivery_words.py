"""A delivery in words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.deadlines import CARRIAGES, SALES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.delivery import Delivery, DeliveryFacts


def delivery_lines(whole: Delivery) -> Iterator[str]:
    """Return the lines that show all that is known of a delivery; what isn't known is left out."""
    facts = whole.facts
    yield f"delivery {whole.number}: {_when(facts)}"
    for word, value in _named(facts):
        if value:
            yield f"  {word:<15} {value}"
    if whole.lists:
        yield f"  {'packing lists':<15} {', '.join(map(str, whole.lists))}"
    for one in whole.exceptions:
        crate = f"crate {one.crate} " if one.crate else ""
        where = "on the receipt" if one.on_receipt else "NOT on the receipt"
        yield f"  {'exception':<15} {crate}{one.state}: {one.words} ({where})"


def _when(facts: DeliveryFacts) -> str:
    if facts.delivered_on is None:
        return "not delivered yet"
    place = ", ".join(word for word in (facts.place, facts.region, facts.country) if word)
    late = ", late" if facts.late else ""
    return f"delivered on {facts.delivered_on}{late}" + (f" at {place}" if place else "")


def _named(facts: DeliveryFacts) -> Iterator[tuple[str, str]]:
    yield "supplier", facts.supplier
    yield "carrier", facts.carrier
    yield "carriage", CARRIAGES.get(facts.carriage, "not said: no period can be shown")
    yield "sale", SALES.get(facts.sale, "")
    yield "order", facts.order
    yield "invoice", facts.invoice
    yield "bill of lading", facts.bill_of_lading
    yield "PRO number", facts.pro_number
    yield "packages", _packages(facts)
    yield "seals", facts.seals
    window = f"{facts.window_days} {facts.window_count} days" if facts.window_days else ""
    yield "supplier's own", window
    yield "holidays", "" if facts.country else "no country said: dates stay one day earlier"
    for event, day in facts.dates.items():
        yield event, str(day)


def _packages(facts: DeliveryFacts) -> str:
    if not facts.packages_advised and not facts.packages_counted:
        return ""
    counted, advised = facts.packages_counted, facts.packages_advised
    told = f"{counted} counted, {advised} advised"
    return f"{told}: {advised - counted} MISSING" if 0 < counted < advised else told
