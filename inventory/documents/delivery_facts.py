"""The facts of a delivery in words."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.receiving.deadlines import CARRIAGES, SALES

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.receiving.delivery import DeliveryFacts


def when_words(facts: DeliveryFacts) -> str:
    """Return when it was delivered, where, and whether late."""
    if facts.delivered_on is None:
        return "not delivered yet"
    place = ", ".join(word for word in (facts.place, facts.region, facts.country) if word)
    late = ", late" if facts.late else ""
    return f"delivered on {facts.delivered_on}{late}" + (f" at {place}" if place else "")


def named_facts(facts: DeliveryFacts) -> Iterator[tuple[str, str]]:
    """Yield word and value of every fact; the value is empty where nobody said it."""
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
