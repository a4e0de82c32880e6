"""The calendar is read back by the library that reads RFC 5545, and by its lines."""

from __future__ import annotations

import datetime as dt

from icalendar import Calendar

from inventory.documents.reminders import Reminder, reminders_ics

NOW = dt.datetime(2026, 7, 4, 9, 0, tzinfo=dt.UTC)
NOTICE = Reminder(
    key="59FA-T2-1-us-truck-concealed",
    day=dt.date(2026, 7, 10),
    title="Tell the carrier: concealed damage; at once, please",
    words="Last day: 2026-07-10.\n\nA reminder, not legal advice.",
)


def test_reminder_is_a_whole_day_with_an_alarm_the_morning_before() -> None:
    (event,) = Calendar.from_ical(reminders_ics("Tarn T2", [NOTICE], NOW)).walk("VEVENT")
    assert event.decoded("dtstart") == dt.date(2026, 7, 10)
    assert event.decoded("dtend") == dt.date(2026, 7, 11)
    assert str(event["summary"]) == NOTICE.title
    assert str(event["description"]) == NOTICE.words
    (alarm,) = event.walk("VALARM")
    assert alarm.decoded("trigger") == dt.timedelta(hours=-15)


def test_same_reminder_keeps_its_key() -> None:
    later = reminders_ics("Tarn T2", [NOTICE], NOW + dt.timedelta(days=1))
    (event,) = Calendar.from_ical(later).walk("VEVENT")
    assert str(event["uid"]) == "59FA-T2-1-us-truck-concealed@kitwright"


def test_lines_end_and_fold_as_the_standard_says() -> None:
    # RFC 5545, 3.1: lines end in CR LF and hold at most 75 octets.
    lines = reminders_ics("Tärn " * 30, [NOTICE], NOW).split(b"\r\n")
    assert lines[0] == b"BEGIN:VCALENDAR"
    assert max(map(len, lines)) <= 75
    assert b"VERSION:2.0" in lines


def test_nothing_to_remind_of_is_a_calendar_without_entries() -> None:
    assert Calendar.from_ical(reminders_ics("Tarn T2", [], NOW)).walk("VEVENT") == []
