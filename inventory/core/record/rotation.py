"""Which backups are kept: the newest ones, one of each day, one of each month for ever."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import datetime

NEWEST = 10
DAYS = 30


def spare_backups(made: Iterable[datetime], now: datetime) -> list[datetime]:
    """Return which backups may go, oldest first; the ten newest never do.

    Of each of the last 30 days, and of each month, the newest one stays.
    """
    falling = sorted(made, reverse=True)
    kept = set(falling[:NEWEST])
    days: set[str] = set()
    months: set[str] = set()
    for each in falling:
        day, month = f"{each:%Y-%m-%d}", f"{each:%Y-%m}"
        if month not in months or (day not in days and now - each <= timedelta(days=DAYS)):
            kept.add(each)
        days.add(day)
        months.add(month)
    return sorted(set(falling) - kept)
