"""How notice periods count days, held against numpy's own calendar arithmetic."""

from __future__ import annotations

import datetime as dt

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.measures.days import CountedDays, Period, is_working_day, last_day, send_by

DAY = dt.date
FRIDAY, SATURDAY, SUNDAY, MONDAY = (DAY(2026, 11, day) for day in (27, 28, 29, 30))
days = st.dates(DAY(2020, 1, 1), DAY(2040, 12, 31))
near = st.integers(-20, 40)


@given(days, st.integers(1, 60), st.sets(near), st.sampled_from(["business", "worship"]))
def test_business_and_worship_days_are_counted_as_numpy_counts_them(
    start: dt.date, length: int, offs: set[int], count: str
) -> None:
    holidays = frozenset(start + dt.timedelta(days=each) for each in offs)
    found = last_day(Period(CountedDays(count), length), start, holidays)
    week = {"business": "1111100", "worship": "1111110"}[count]
    expected = np.busday_offset(
        start, length, roll="backward", weekmask=week, holidays=sorted(holidays)
    )
    assert found == expected.item()


@given(days, days, st.sets(near))
def test_the_day_to_send_by_is_a_working_day_by_numpys_count(
    last: dt.date, start: dt.date, offs: set[int]
) -> None:
    holidays = frozenset(last + dt.timedelta(days=each) for each in offs)
    known = np.busday_offset(last, 0, roll="backward", holidays=sorted(holidays))
    assert send_by(last, start, holidays) == max(known, np.datetime64(start)).item()
    unknown = np.busday_offset(np.busday_offset(last, 0, roll="backward"), -1)
    assert send_by(last, start, None) == max(unknown, np.datetime64(start)).item()


@pytest.mark.parametrize(
    ("day", "works"), [(FRIDAY, True), (SATURDAY, False), (SUNDAY, False), (MONDAY, True)]
)
def test_monday_to_friday_are_working_days_but_for_holidays(day: dt.date, *, works: bool) -> None:
    assert is_working_day(day, frozenset()) is works
    assert not is_working_day(day, frozenset({day}))


def test_the_first_day_is_not_counted() -> None:
    assert last_day(Period(CountedDays.CALENDAR, 7), FRIDAY, frozenset()) == DAY(2026, 12, 4)
    assert last_day(Period(CountedDays.CALENDAR), FRIDAY, frozenset({FRIDAY})) == FRIDAY
    assert last_day(Period(CountedDays.WORSHIP, 1), FRIDAY, frozenset()) == SATURDAY
    assert last_day(Period(CountedDays.WORSHIP, 1), SATURDAY, frozenset()) == MONDAY


@pytest.mark.parametrize(
    ("start", "months", "more", "end"),
    [
        (DAY(2026, 1, 31), 1, 0, DAY(2026, 2, 28)),
        (DAY(2028, 1, 31), 1, 0, DAY(2028, 2, 29)),
        (DAY(2026, 11, 30), 1, 0, DAY(2026, 12, 30)),
        (DAY(2026, 12, 5), 1, 0, DAY(2027, 1, 5)),
        (DAY(2026, 11, 5), 13, 0, DAY(2027, 12, 5)),
        (DAY(2026, 3, 31), 6, 2, DAY(2026, 10, 2)),
        (DAY(2026, 3, 31), 0, 1, DAY(2026, 4, 1)),
    ],
)
def test_months_end_on_the_same_day_or_the_months_last(
    start: dt.date, months: int, more: int, end: dt.date
) -> None:
    period = Period(CountedDays.MONTHS, months, more)
    assert last_day(period, start, frozenset()) == end


@pytest.mark.parametrize(
    ("start", "years", "more", "end"),
    [
        (DAY(2028, 2, 29), 1, 0, DAY(2029, 2, 28)),
        (DAY(2026, 5, 7), 2, 0, DAY(2028, 5, 7)),
        (DAY(2026, 12, 31), 1, 3, DAY(2028, 1, 3)),
    ],
)
def test_years_end_on_the_same_day_or_the_months_last(
    start: dt.date, years: int, more: int, end: dt.date
) -> None:
    period = Period(CountedDays.YEARS, years, more)
    assert last_day(period, start, frozenset()) == end


def test_a_reasonable_time_has_no_date() -> None:
    assert last_day(Period(CountedDays.NONE), FRIDAY, frozenset()) is None


def test_nothing_is_sent_before_it_came() -> None:
    assert send_by(SUNDAY, SATURDAY, frozenset()) == SATURDAY
    assert send_by(SUNDAY, FRIDAY, frozenset()) == FRIDAY
    assert send_by(MONDAY, FRIDAY, None) == FRIDAY
    assert send_by(MONDAY, MONDAY, None) == MONDAY
