from __future__ import annotations

import datetime as dt
import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.cautions import DATES, NO_CALENDAR
from inventory.core.errors import InventoryError
from inventory.core.measures.days import CountedDays, Period, last_day, send_by
from inventory.core.receiving.deadlines import (
    CARRIAGES,
    SALES,
    NoticePeriod,
    deadline,
    notice_periods,
    periods_of,
    supplier_window,
)
from inventory.core.receiving.holiday_calendars import holidays_of

EXAMPLES = tomllib.loads(
    Path(__file__).parents[2].joinpath("cases/deadlines.toml").read_text(encoding="utf-8")
)["example"]
KEPT = tomllib.loads(
    Path(__file__).parents[2].joinpath("cases/kept_values.toml").read_text(encoding="utf-8")
)["carried"]
RULES = {rule.code: rule for rule in notice_periods()}

dates = st.dates(dt.date(2020, 1, 1), dt.date(2040, 12, 31))
lengths = st.integers(0, 60)
counts_of_days = st.sampled_from([CountedDays.CALENDAR, CountedDays.BUSINESS, CountedDays.WORSHIP])
holiday_sets = st.frozensets(st.integers(0, 120), max_size=20)


def calendar_of(place: str, start: dt.date) -> frozenset[dt.date] | None:
    if place == "none":
        return None
    if place == "empty":
        return frozenset()
    country, _, region = place.partition("-")
    return holidays_of(country, region, start)


@pytest.mark.parametrize("example", EXAMPLES, ids=[example["name"] for example in EXAMPLES])
def test_worked_example(example: dict[str, Any]) -> None:
    start = example["start"]
    found = deadline(RULES[example["rule"]], start, calendar_of(example["place"], start))
    assert found.last == example["last"], example["why"]
    assert found.send_by == example.get("send_by", example["last"]), example["why"]
    assert found.calendar_known is (example["place"] != "none")


@pytest.mark.parametrize("code", ["ucc-notice", "cisg-notice", "us-air-contract"])
def test_reasonable_time_has_no_date(code: str) -> None:
    found = deadline(RULES[code], dt.date(2026, 3, 10), frozenset())
    assert (found.last, found.send_by) == (None, None)


@pytest.mark.parametrize(
    ("start", "last", "by"),
    [
        (dt.date(2026, 6, 12), dt.date(2026, 7, 12), dt.date(2026, 7, 10)),  # a Sunday
        (dt.date(2026, 1, 15), dt.date(2026, 2, 14), dt.date(2026, 2, 13)),  # a Saturday
    ],
)
def test_suppliers_own_window_is_what_the_person_entered(
    start: dt.date, last: dt.date, by: dt.date
) -> None:
    found = deadline(supplier_window(30), start, holidays_of("US", "", start))
    assert (found.last, found.send_by, found.rule.to) == (last, by, "supplier")


def test_suppliers_window_in_business_days() -> None:
    window = supplier_window(5, CountedDays.BUSINESS)
    found = deadline(window, dt.date(2026, 5, 8), frozenset())
    assert found.last == dt.date(2026, 5, 15)


@pytest.mark.parametrize("days", [0, -1, 3651])
def test_window_that_can_not_be_is_refused(days: int) -> None:
    with pytest.raises(InventoryError) as refused:
        supplier_window(days)
    assert refused.value.what == f"a supplier's window of {days} days can't be"
    assert refused.value.remedy == "Enter 1 to 3650 days, as the order's terms say."


@pytest.mark.parametrize("days", [1, 3650])
def test_window_of_a_day_up_to_ten_years_is_the_suppliers_own_rule(days: int) -> None:
    assert supplier_window(days) == NoticePeriod(
        code="supplier-window",
        carriage="sale",
        matter="short, wrong or defective",
        to="supplier",
        starts="delivery",
        period=Period(CountedDays.CALENDAR, days),
        article="the supplier's own terms, as entered",
        form="as the supplier's terms say, with the order number",
        missed="the supplier may charge for the part",
        read="user",
    )


def test_modes_of_carriage_keep_their_names() -> None:
    """A delivery in the record, and a person's own notes, name them."""
    assert {"carriage": CARRIAGES, "sale": SALES} == KEPT


def test_every_rule_says_where_it_stands_and_how_it_is_known() -> None:
    for rule in notice_periods():
        assert rule.carriage in CARRIAGES | SALES
        assert rule.to in {"carrier", "supplier", "nobody"}
        assert rule.read in {"text", "summary", "memory"}
        assert rule.article
        assert rule.form
        assert rule.missed
    assert len(RULES) == len(notice_periods())


def test_rules_of_one_carriage() -> None:
    assert [rule.code for rule in periods_of("air")] == ["air-damage", "air-delay", "air-suit"]
    assert all(periods_of(carriage) for carriage in CARRIAGES | SALES)
    assert periods_of("balloon") == ()


def test_cautions_warn_that_dates_can_be_earlier() -> None:
    assert "earlier than shown" in DATES
    assert "one working day earlier" in NO_CALENDAR


@pytest.mark.parametrize(
    ("country", "region", "day"),
    [
        ("US", "", dt.date(2026, 7, 3)),  # 38 CFR 20.306: a Saturday's holiday on Friday
        ("us", "", dt.date(2027, 7, 5)),  # a Sunday's on Monday
        ("DE", "by", dt.date(2026, 1, 6)),
        ("CH", "ZH", dt.date(2026, 8, 1)),
    ],
)
def test_holiday_is_known(country: str, region: str, day: dt.date) -> None:
    assert day in holidays_of(country, region, dt.date(2026, 1, 1))


def test_holiday_of_another_region_is_left_out() -> None:
    assert dt.date(2026, 1, 6) not in holidays_of("DE", "HH", dt.date(2026, 1, 1))


@pytest.mark.parametrize(
    ("country", "region"), [("XX", ""), ("", ""), ("US", "QQ"), ("../x", ""), ("United States", "")]
)
def test_unknown_place_is_refused(country: str, region: str) -> None:
    with pytest.raises(InventoryError) as refused:
        holidays_of(country, region, dt.date(2026, 1, 1))
    assert refused.value.what == f"no holiday calendar is known for {country} {region}".rstrip()
    assert refused.value.remedy == (
        "Give the country as two letters (US, DE) and the region as its ISO 3166-2 "
        "code without the country, or leave the region empty."
    )


@given(dates, counts_of_days, lengths, holiday_sets, st.integers(0, 120))
@settings(max_examples=60)
def test_one_more_holiday_never_makes_the_last_day_earlier(
    start: dt.date, count: CountedDays, length: int, offsets: frozenset[int], another: int
) -> None:
    holidays = frozenset(start + dt.timedelta(days=offset) for offset in offsets)
    more = holidays | {start + dt.timedelta(days=another)}
    period = Period(count, length)
    fewer_last, more_last = last_day(period, start, holidays), last_day(period, start, more)
    assert fewer_last is not None
    assert more_last is not None
    assert fewer_last <= more_last


@given(dates, counts_of_days, lengths, st.none() | holiday_sets)
@settings(max_examples=60)
def test_day_to_send_by_is_a_working_day_not_after_the_last(
    start: dt.date, count: CountedDays, length: int, offsets: frozenset[int] | None
) -> None:
    holidays = (
        None
        if offsets is None
        else frozenset(start + dt.timedelta(days=offset) for offset in offsets)
    )
    last = last_day(Period(count, length), start, holidays or frozenset())
    assert last is not None
    by = send_by(last, start, holidays)
    assert start <= by <= last
    assert by == start or (by.weekday() < 5 and by not in (holidays or frozenset()))


@given(dates)
@settings(max_examples=60)
def test_seven_days_without_sundays_are_at_least_eight(start: dt.date) -> None:
    last = last_day(Period(CountedDays.WORSHIP, 7), start, frozenset())
    assert last is not None
    assert last >= start + dt.timedelta(days=8)


@given(dates, st.integers(1, 60))
@settings(max_examples=60)
def test_months_end_in_the_month_so_many_later(start: dt.date, months: int) -> None:
    last = last_day(Period(CountedDays.MONTHS, months), start, frozenset())
    assert last is not None
    assert (last.year * 12 + last.month) - (start.year * 12 + start.month) == months
    assert last.day == start.day or (last + dt.timedelta(days=1)).day == 1
