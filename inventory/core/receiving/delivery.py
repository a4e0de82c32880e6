"""A delivery: what is written down before signing, and which clocks run from it."""

from __future__ import annotations

from dataclasses import field, fields
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.days import CountedDays
from inventory.core.receiving.claims import DELIVERY, Clock
from inventory.core.receiving.deadlines import CARRIAGES, SALES, notice_periods, supplier_window
from inventory.core.receiving.receipt import Packages

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Mapping

MOST_PACKAGES = 1000
_LONGEST_TEXT = 500
_OLDEST_DAYS = 50 * 365
"""A delivery longer ago than some fifty years is a slip of the keyboard."""


class PackageState(StrEnum):
    """What is wrong with a package."""

    MISSING = "missing"
    HARMED = "harmed"
    """Open, wet, broken: what lacks in it may have been lost on the way."""
    OTHER = "other"


@frozen(kw_only=True)
class PackageException:
    """One exception: which crate, what is wrong, and whether the driver's paper says so."""

    crate: str = ""
    """As the list names it; empty where it is about the whole delivery."""
    state: PackageState
    words: str
    on_receipt: bool = False


@frozen(kw_only=True)
class DeliveryFacts:
    """What is known of a delivery; whatever nobody said is empty."""

    supplier: str = ""
    carrier: str = ""
    carriage: str = ""
    """One of `CARRIAGES`."""
    sale: str = ""
    """One of `SALES`."""
    order: str = ""
    invoice: str = ""
    bill_of_lading: str = ""
    pro_number: str = ""
    """The carrier's progressive number."""
    delivered_on: dt.date | None = None
    place: str = ""
    country: str = ""
    """ISO 3166-1, two letters."""
    region: str = ""
    """The part behind the dash of an ISO 3166-2 code."""
    packages_advised: int = 0
    packages_counted: int = 0
    seals: str = ""
    late: bool = False
    window_days: int = 0
    """The supplier's own window as the order's terms say; 0 where none was entered."""
    window_count: CountedDays = CountedDays.CALENDAR
    dates: Mapping[str, dt.date] = field(default_factory=dict)
    """Days of other events that periods run from."""

    @property
    def shipment(self) -> str:
        """The numbers by which the carrier finds it."""
        named = (("bill of lading", self.bill_of_lading), ("PRO", self.pro_number))
        return ", ".join(f"{word} {number}" for word, number in named if number)


@frozen(kw_only=True)
class Delivery:
    """A delivery as it stands in the record."""

    number: int
    facts: DeliveryFacts
    exceptions: tuple[PackageException, ...] = ()
    lists: tuple[int, ...] = ()
    """Numbers of the packing lists that came with it."""

    @property
    def noted_on_receipt(self) -> str:
        """The exceptions that stand on the driver's paper, in one line."""
        noted = (one for one in self.exceptions if one.on_receipt)
        return "; ".join(f"crate {one.crate}: {one.words}" if one.crate else one.words
                         for one in noted)  # fmt: skip


def events() -> tuple[str, ...]:
    """Return the events that periods run from, besides the delivery itself."""
    return tuple(dict.fromkeys(rule.starts for rule in notice_periods() if rule.starts != DELIVERY))


def check_facts(facts: DeliveryFacts, today: dt.date) -> None:
    """Refuse what no delivery can be, with the words that help."""
    _known("carriage", facts.carriage, CARRIAGES)
    _known("sale", facts.sale, SALES)
    _check_days(facts, today)
    for number in (facts.packages_advised, facts.packages_counted):
        if not 0 <= number <= MOST_PACKAGES:
            raise InventoryError(
                f"{number} packages can't be",
                remedy=f"Count crates and boxes, 0 to {MOST_PACKAGES}.",
            )
    if facts.window_days:
        supplier_window(facts.window_days, facts.window_count)
    for each in fields(facts):
        value = getattr(facts, each.name)
        if isinstance(value, str) and len(value) > _LONGEST_TEXT:
            raise InventoryError(
                f"the text for {each.name.replace('_', ' ')} is too long",
                remedy=f"Say it in {_LONGEST_TEXT} characters.",
            )


def _check_days(facts: DeliveryFacts, today: dt.date) -> None:
    for event in facts.dates:
        if event not in events():
            raise InventoryError(
                f"no period runs from {event!r}", remedy=f"Events are: {', '.join(events())}."
            )
    for event, day in {DELIVERY: facts.delivered_on, **facts.dates}.items():
        if day is not None and day > today:
            raise InventoryError(
                f"the day of {event} is still to come: {day}",
                remedy="Record it when it has happened.",
            )
        if day is not None and (today - day).days > _OLDEST_DAYS:
            raise InventoryError(
                f"the day of {event} is too long ago: {day}", remedy="Look at the year again."
            )


def _known(what: str, code: str, codes: Mapping[str, str]) -> None:
    if code and code not in codes:
        named = "; ".join(f"{each} ({words})" for each, words in codes.items())
        raise InventoryError(f"{code!r} is no {what} that is known", remedy=f"One of: {named}.")


def check_exception(exception: PackageException) -> None:
    """Refuse an exception that isn't concrete: no crate where one is meant, no words."""
    if not exception.words.strip():
        raise InventoryError(
            "an exception needs words: which crate, where on it, what",
            remedy='For instance: "end panel punctured, hole of 5 cm".',
        )
    if exception.state is PackageState.MISSING and not exception.crate:
        raise InventoryError("which crate is missing?", remedy="Name it with --crate.")


def clock_of(facts: DeliveryFacts, holidays: frozenset[dt.date] | None) -> Clock:
    """Return what the periods of a delivery run by; `holidays` None where no calendar is set."""
    dates = dict(facts.dates)
    if facts.delivered_on is not None:
        dates[DELIVERY] = facts.delivered_on
    window = supplier_window(facts.window_days, facts.window_count) if facts.window_days else None
    return Clock(
        carriage=facts.carriage,
        sale=facts.sale,
        window=window,
        dates=dates,
        late=facts.late,
        holidays=holidays,
    )


def packages_of(deliveries: Iterable[Delivery], closed: frozenset[str] | None) -> Packages:
    """Return which crates are closed, never came, or came harmed."""
    exceptions = [one for delivery in deliveries for one in delivery.exceptions if one.crate]
    return Packages(
        closed=closed,
        missing=frozenset(one.crate for one in exceptions if one.state is PackageState.MISSING),
        harmed=frozenset(one.crate for one in exceptions if one.state is PackageState.HARMED),
    )
