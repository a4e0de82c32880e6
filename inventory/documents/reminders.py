"""Dates for a phone's calendar, in the form of iCalendar (RFC 5545)."""

from __future__ import annotations

from datetime import timedelta
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

_BEFORE = timedelta(hours=-15)
"""From the midnight the day begins with: nine in the morning of the day before."""


@frozen(kw_only=True)
class Reminder:
    """Something to send on a day."""

    key: str
    """Tells it from others for good: the same key again changes the entry on the phone."""
    day: dt.date
    title: str
    words: str = ""


def reminders_ics(name: str, reminders: Iterable[Reminder], now: dt.datetime) -> bytes:
    """Return a calendar of whole-day entries, each with an alarm on the morning before.

    `now` is the moment it was made, in UTC.
    """
    from icalendar import Alarm, Calendar, Event  # noqa: PLC0415 - only for this file

    calendar = Calendar()
    calendar.add("prodid", "-//Kitwright//claims//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", name)
    for reminder in reminders:
        event = Event()
        event.add("uid", f"{reminder.key}@kitwright")
        event.add("dtstamp", now)
        event.add("dtstart", reminder.day)
        event.add("dtend", reminder.day + timedelta(days=1))
        event.add("summary", reminder.title)
        event.add("description", reminder.words)
        event.add("transp", "TRANSPARENT")
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", reminder.title)
        alarm.add("trigger", _BEFORE)
        event.add_component(alarm)
        calendar.add_component(event)
    content: bytes = calendar.to_ical()
    return content
