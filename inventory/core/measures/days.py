"""Counting days the way notice periods count them."""

from __future__ import annotations

import calendar
import datetime as dt
from enum import StrEnum
from typing import TYPE_CHECKING, assert_never

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Callable

_SATURDAY = 5
_SUNDAY = 6
_MONTHS = 12


class CountedDays(StrEnum):
    """Which days a period counts."""

    CALENDAR = "calendar"
    BUSINESS = "business"
    """Monday to Friday, holidays left out."""
    WORSHIP = "worship"
    """Sundays and public holidays left out; Saturdays count."""
    MONTHS = "months"
    YEARS = "years"
    NONE = "none"
    """A reasonable time: no rule makes a date of it."""


@frozen
class Period:
    """So many days, months or years."""

    count: CountedDays
    length: int = 0
    days: int = 0
    """Calendar days on top of months or years."""


def last_day(period: Period, start: dt.date, holidays: frozenset[dt.date]) -> dt.date | None:
    """Return the last day of the period; None where no rule makes a date of it.

    The first day is not counted (CMR article 30(4)), the last is never moved off a weekend or a
    holiday: rules that move it are made for courts and offices, not for notices. A holiday left
    out of the calendar makes the day earlier or leaves it, so a missing calendar errs to the safe
    side. Months and years end on the same day of the month, else on its last.
    """
    match period.count:
        case CountedDays.CALENDAR:
            return start + dt.timedelta(days=period.length)
        case CountedDays.BUSINESS:
            return _counted(start, period.length, lambda day: is_working_day(day, holidays))
        case CountedDays.WORSHIP:
            return _counted(
                start,
                period.length,
                lambda day: day.weekday() != _SUNDAY and day not in holidays,
            )
        case CountedDays.MONTHS:
            return _months_later(start, period.length) + dt.timedelta(days=period.days)
        case CountedDays.YEARS:
            return _months_later(start, _MONTHS * period.length) + dt.timedelta(days=period.days)
        case CountedDays.NONE:
            return None
        case _:
            assert_never(period.count)


def is_working_day(day: dt.date, holidays: frozenset[dt.date]) -> bool:
    """Say whether the day is Monday to Friday and no holiday."""
    return day.weekday() < _SATURDAY and day not in holidays


def send_by(last: dt.date, start: dt.date, holidays: frozenset[dt.date] | None) -> dt.date:
    """Return the last working day on or before the last day, but never before the start.

    Without a calendar (None) one working day earlier still: the last may be a holiday there.
    """
    day = _working_day_on_or_before(last, holidays or frozenset())
    if holidays is None:
        day = _working_day_on_or_before(day - dt.timedelta(days=1), frozenset())
    return max(day, start)


def _working_day_on_or_before(day: dt.date, holidays: frozenset[dt.date]) -> dt.date:
    while not is_working_day(day, holidays):
        day -= dt.timedelta(days=1)
    return day


def _counted(start: dt.date, length: int, counts: Callable[[dt.date], bool]) -> dt.date:
    day = start
    for _ in range(length):
        day += dt.timedelta(days=1)
        while not counts(day):
            day += dt.timedelta(days=1)
    return day


def _months_later(start: dt.date, months: int) -> dt.date:
    years, month = divmod(start.month - 1 + months, _MONTHS)
    year = start.year + years
    longest = calendar.monthrange(year, month + 1)[1]
    return dt.date(year, month + 1, min(start.day, longest))
