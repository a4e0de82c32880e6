"""Shelf life of sealants, primers and rubber: the last day of use, and what may extend it."""

from __future__ import annotations

import calendar
import datetime as dt
import re
from dataclasses import replace
from enum import StrEnum

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.days import CountedDays, Period, last_day

FILM_WEEKS = 6
"""Take protective film off a sheet within weeks: common practice, no source."""

LONGEST_LIFE = 600
"""Months: fifty years; a longer life is a slip of the keyboard."""

LIFE_CODES = {"C": 3, "H": 12, "M": 24}
"""Months of the type I codes that were read (MIL-STD-129, quoted); others aren't decoded."""

_MONTHS = (
    "JAN", "FEB", "MAR", "APR", "MAY", "JUN", "JUL", "AUG", "SEP", "OCT", "NOV", "DEC",
)  # fmt: skip
_ISO_DAY = re.compile(r"(?P<year>\d{4})-(?P<month>\d{2})-(?P<day>\d{2})", re.ASCII)
_ISO_MONTH = re.compile(r"(?P<year>\d{4})-(?P<month>\d{2})", re.ASCII)
_MONTH_YEAR = re.compile(r"(?P<month>\d{1,2})/(?P<year>\d{4}|\d{2})", re.ASCII)
_NAMED = re.compile(
    r"(?:(?P<day>\d{1,2})[ -])?(?P<name>[A-Z]{3})[A-Z]*\.?[ -](?P<year>\d{4}|\d{2})"
)
_CENTURY = 2000


class LifeType(StrEnum):
    """Whether a date may be moved at all (MIL-STD-129)."""

    FIXED = "type I"
    """Never extended."""
    EXTENDIBLE = "type II"
    """Extended after inspection or test."""
    UNKNOWN = "not marked"


class Freshness(StrEnum):
    """How a lot stands on a day; the program warns and records, a person decides."""

    FRESH = "in date"
    SOON = "expires soon"
    EXPIRED = "expired"
    UNDATED = "no date"


@frozen(kw_only=True)
class ShelfLife:
    """What is marked on a can, tube or bag, and when it was opened."""

    life: LifeType = LifeType.UNKNOWN
    made: dt.date | None = None
    """Manufactured, cured, assembled or packed: life runs from there."""
    months: int = 0
    """Original life; 0 where it isn't known."""
    expires: dt.date | None = None
    """The last day of use as marked; the last of the month where only a month is marked."""
    opened: dt.date | None = None
    open_days: int = 0
    """Days it may be used once opened; 0 where the maker says nothing."""
    failed_test: bool = False

    @property
    def last_use(self) -> dt.date | None:
        """The last day of use: the earliest of all that is known; None where nothing is."""
        days = [self.expires or self._reckoned(), self._opened_until()]
        return min((day for day in days if day), default=None)

    def _reckoned(self) -> dt.date | None:
        if self.made is None or not self.months:
            return None
        return last_day(Period(CountedDays.MONTHS, self.months), self.made, frozenset())

    def _opened_until(self) -> dt.date | None:
        if self.opened is None or not self.open_days:
            return None
        return self.opened + dt.timedelta(days=self.open_days)


def freshness(shelf: ShelfLife, today: dt.date, soon_days: int = 30) -> Freshness:
    """Say how a lot stands: it may still be used on its last day."""
    last = shelf.last_use
    if last is None:
        return Freshness.UNDATED
    if last < today:
        return Freshness.EXPIRED
    return Freshness.SOON if (last - today).days <= soon_days else Freshness.FRESH


def mixed(parts: tuple[ShelfLife, ...]) -> dt.date | None:
    """Return the last day of a pack of several parts: the earliest one rules."""
    return min((part.last_use for part in parts if part.last_use), default=None)


def life_left(shelf: ShelfLife, today: dt.date) -> float | None:
    """Return the share of life left, 0 to 1; None where begin or end isn't known.

    Buyers often ask for three quarters on receipt: common practice, one buyer's note read.
    """
    last = shelf.last_use
    if shelf.made is None or last is None or last <= shelf.made:
        return None
    left = (last - today) / (last - shelf.made)
    return min(1.0, max(0.0, left))


def extended(shelf: ShelfLife) -> ShelfLife:
    """Return the shelf life after a test that was passed: half the original life longer.

    USAF T.O. 1-1-700, 12.8 for sealants, in their unopened container; refused for type I, for what
    once failed, for what was opened, and where the original life isn't known.
    """
    last, why = shelf.last_use, _why_fixed(shelf)
    if why or last is None:
        raise InventoryError(
            f"the date can't be extended: {why}",
            remedy="Scrap it, or record the maker's own written extension as a new date.",
        )
    whole, half = divmod(shelf.months, 2)
    period = Period(CountedDays.MONTHS, whole, days=15 * half)
    return replace(shelf, expires=last_day(period, last, frozenset()))


def _why_fixed(shelf: ShelfLife) -> str:
    if shelf.life is not LifeType.EXTENDIBLE:
        return "it isn't marked as extendible (type II)"
    if shelf.failed_test:
        return "it failed a test before"
    if shelf.opened is not None:
        return "it was opened"
    known = shelf.months and shelf.last_use is not None
    return "" if known else "its original life isn't recorded"


def film_overdue(since: dt.date, today: dt.date) -> bool:
    """Say whether protective film has been on longer than it should."""
    return today > since + dt.timedelta(weeks=FILM_WEEKS)


def read_date(text: str) -> dt.date:
    """Return the last day that a marked date stands for; a month stands for its last day.

    Read: 2026-10-31, 2026-10, 10/26 and 10/2026 (month and year), OCT 2026, 31 OCT 2026. Refused:
    three numbers with strokes, since they are read in two ways.
    """
    plain = " ".join(text.upper().split())
    for form in (_ISO_DAY, _ISO_MONTH, _MONTH_YEAR, _NAMED):
        match = form.fullmatch(plain)
        day = _day(match.groupdict("")) if match else None
        if day is not None:
            return day
    raise InventoryError(
        f"{text.strip()[:40]!r} can't be read as a date",
        remedy="Write it as 2026-10-31, or as 2026-10 where only the month is marked.",
    )


def _day(groups: dict[str, str]) -> dt.date | None:
    year = int(groups["year"])
    year += _CENTURY if len(groups["year"]) == 2 else 0  # noqa: PLR2004
    name = groups.get("name", "")
    month = _MONTHS.index(name) + 1 if name in _MONTHS else int(groups.get("month") or 0)
    if not 1 <= month <= len(_MONTHS) or not 1 <= year <= dt.MAXYEAR:
        return None
    longest = calendar.monthrange(year, month)[1]
    day = int(groups.get("day") or longest)
    return dt.date(year, month, day) if 1 <= day <= longest else None
