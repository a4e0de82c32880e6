"""Which backups are kept."""

from __future__ import annotations

from datetime import UTC, datetime, timedelta

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.record.rotation import spare_backups

NOW = datetime(2026, 11, 25, 12, 0, tzinfo=UTC)


def test_ten_backups_of_one_minute_all_stay() -> None:
    assert spare_backups([NOW - timedelta(seconds=n) for n in range(10)], NOW) == []


def test_of_thirty_backups_of_one_hour_the_newest_ten_stay() -> None:
    made = [NOW - timedelta(minutes=n) for n in range(30)]
    assert spare_backups(made, NOW) == sorted(made)[:20]


def test_one_of_each_day_stays_for_thirty_days_and_one_of_each_month_for_ever() -> None:
    # Two a day at noon and at six for 100 days back from 25 November: 17 August to 25 November.
    made = [NOW - timedelta(days=n, hours=h) for n in range(100) for h in (0, 6)]
    kept = sorted(set(made) - set(spare_backups(made, NOW)))
    # The ten newest: 25 to 21 November. One a day: 20 November to 26 October (noon of each).
    days = [NOW - timedelta(days=n) for n in range(5, 31)]
    # One a month besides: the newest of October, September and August.
    months = [
        datetime(2026, 8, 31, 12, tzinfo=UTC),
        datetime(2026, 9, 30, 12, tzinfo=UTC),
        datetime(2026, 10, 31, 12, tzinfo=UTC),
    ]
    newest = [NOW - timedelta(days=n, hours=h) for n in range(5) for h in (0, 6)]
    assert kept == sorted({*days, *months, *newest})


@given(st.lists(st.integers(0, 3000 * 24), unique=True), st.integers(0, 400))
def test_the_newest_ten_always_stay_and_clearing_twice_clears_no_more(
    hours: list[int], later: int
) -> None:
    made = [NOW - timedelta(hours=n) for n in hours]
    now = NOW + timedelta(hours=later)
    spare = spare_backups(made, now)
    kept = sorted(set(made) - set(spare))
    assert sorted(made, reverse=True)[:10] == sorted(kept, reverse=True)[:10]
    assert spare_backups(kept, now) == []
    assert {f"{each:%Y-%m}" for each in kept} == {f"{each:%Y-%m}" for each in made}
