"""By when whom must be told: notice and suit periods by mode of carriage."""

from __future__ import annotations

from functools import cache
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.kept_tables import kept_rows
from inventory.core.measures.days import CountedDays, Period, last_day, send_by

if TYPE_CHECKING:
    import datetime as dt

    from inventory.core.kept_tables import Row

CARRIAGES = {
    "us-truck": "truck within the United States",
    "us-rail": "rail within the United States",
    "us-air": "air within the United States",
    "us-sea": "sea, to or from the United States",
    "air": "international air",
    "road": "international road",
    "rail": "international rail",
    "sea": "sea",
    "forwarder": "forwarder's through bill",
    "swiss": "carriage within Switzerland",
    "parcel": "parcel service",
}
"""Modes of carriage that periods are kept for, and how a person says them."""

SALES = {
    "sale-us": "bought from a seller in the United States",
    "sale-international": "bought from a seller abroad",
}

_LONGEST_WINDOW = 3650
"""Ten years: a longer window of a supplier is a slip of the keyboard."""


@frozen(kw_only=True)
class NoticePeriod:
    """One rule: for what matter, from which day, how long, in which form."""

    code: str
    carriage: str
    matter: str
    to: str
    """carrier, supplier, or nobody where it is the other side's clock."""
    starts: str
    """The event whose day the period runs from."""
    period: Period
    article: str
    form: str
    missed: str
    """What follows from missing it."""
    read: str
    """text, summary or memory: how the rule is known; user: entered by the person."""


@frozen(kw_only=True)
class Deadline:
    """A period that runs: `last` and `send_by` are None where no rule makes a date."""

    rule: NoticePeriod
    start: dt.date
    last: dt.date | None
    """The last day on which notice may be given or sent."""
    send_by: dt.date | None
    """The last working day on or before it."""
    calendar_known: bool


@cache
def notice_periods() -> tuple[NoticePeriod, ...]:
    """Return every rule kept in the package."""
    return tuple(_rule(row) for row in kept_rows("notice_periods", "period"))


def periods_of(carriage: str) -> tuple[NoticePeriod, ...]:
    """Return the rules of one mode of carriage or of one kind of sale."""
    return tuple(rule for rule in notice_periods() if rule.carriage == carriage)


def supplier_window(days: int, count: CountedDays = CountedDays.CALENDAR) -> NoticePeriod:
    """Return the supplier's own window as a rule; no law gives a length, so none is assumed."""
    if not 1 <= days <= _LONGEST_WINDOW:
        raise InventoryError(
            f"a supplier's window of {days} days can't be",
            remedy=f"Enter 1 to {_LONGEST_WINDOW} days, as the order's terms say.",
        )
    return NoticePeriod(
        code="supplier-window",
        carriage="sale",
        matter="short, wrong or defective",
        to="supplier",
        starts="delivery",
        period=Period(count, days),
        article="the supplier's own terms, as entered",
        form="as the supplier's terms say, with the order number",
        missed="the supplier may charge for the part",
        read="user",
    )


def deadline(rule: NoticePeriod, start: dt.date, holidays: frozenset[dt.date] | None) -> Deadline:
    """Return when the period that began on `start` ends; `holidays` None where none are known."""
    last = last_day(rule.period, start, holidays or frozenset())
    return Deadline(
        rule=rule,
        start=start,
        last=last,
        send_by=None if last is None else send_by(last, start, holidays),
        calendar_known=holidays is not None,
    )


def _rule(row: Row) -> NoticePeriod:
    words = {key: str(value) for key, value in row.items() if isinstance(value, str)}
    count = CountedDays(words.pop("count"))
    return NoticePeriod(period=Period(count, row["length"], row.get("days", 0)), **words)
