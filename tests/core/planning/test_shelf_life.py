from __future__ import annotations

import datetime as dt
from calendar import month_abbr

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.errors import InventoryError
from inventory.core.planning.shelf_life import (
    LIFE_CODES,
    Freshness,
    LifeType,
    ShelfLife,
    extended,
    film_overdue,
    freshness,
    life_left,
    mixed,
    read_date,
)

MADE = dt.date(2026, 1, 15)
NOT_MARKED = "it isn't marked as extendible (type II)"


@pytest.mark.parametrize(
    ("text", "day"),
    [
        ("2026-10-31", dt.date(2026, 10, 31)),
        ("2026-02", dt.date(2026, 2, 28)),
        ("2026-01", dt.date(2026, 1, 31)),
        ("0001-12", dt.date(1, 12, 31)),
        ("9999-12-31", dt.date(9999, 12, 31)),
        ("2028-02", dt.date(2028, 2, 29)),
        ("10/16", dt.date(2016, 10, 31)),  # month and year, as MIL-STD-129R 5.10.1 is quoted
        ("4/2027", dt.date(2027, 4, 30)),
        ("Oct 2026", dt.date(2026, 10, 31)),
        (" 3  sept. 26", dt.date(2026, 9, 3)),
        ("31-DEC-2026", dt.date(2026, 12, 31)),
    ],
)
def test_marked_date_is_its_last_day(text: str, day: dt.date) -> None:
    assert read_date(text) == day


@pytest.mark.parametrize(
    "text",
    [
        "",
        "soon",
        "10/11/26",  # 10 November or 11 October
        "13/26",
        "2026-13",
        "2026-02-30",
        "0000-01",
        "31 FEB 2026",
        "0 OCT 2026",
        "XYZ 2026",
        "\u0661\u0660/26",  # Arabic digits
        "2Q26",  # a cure date in quarters is no expiry
    ],
)
def test_date_that_can_not_be_read_is_refused(text: str) -> None:
    with pytest.raises(InventoryError) as refused:
        read_date(text)
    assert refused.value.what == f"{text!r} can't be read as a date"
    assert refused.value.remedy == (
        "Write it as 2026-10-31, or as 2026-10 where only the month is marked."
    )


def test_only_the_first_forty_signs_of_what_was_marked_are_shown() -> None:
    with pytest.raises(InventoryError) as refused:
        read_date(f" {'9' * 41} ")
    assert refused.value.what == f"'{'9' * 40}' can't be read as a date"


@given(st.text(max_size=14))
def test_any_text_is_a_date_or_refused(text: str) -> None:
    try:
        day = read_date(text)
    except InventoryError:
        return
    assert isinstance(day, dt.date)


@given(st.dates())
def test_iso_date_is_read_back(day: dt.date) -> None:
    assert read_date(day.isoformat()) == day


def test_lot_may_be_used_on_its_last_day_and_not_after() -> None:
    shelf = ShelfLife(expires=dt.date(2026, 10, 31))
    assert freshness(shelf, dt.date(2026, 9, 30)) is Freshness.FRESH
    assert freshness(shelf, dt.date(2026, 10, 1)) is Freshness.SOON
    assert freshness(shelf, dt.date(2026, 10, 31)) is Freshness.SOON
    assert freshness(shelf, dt.date(2026, 11, 1)) is Freshness.EXPIRED


def test_lot_without_a_date_says_so() -> None:
    assert freshness(ShelfLife(), MADE) is Freshness.UNDATED
    assert freshness(ShelfLife(made=MADE), MADE) is Freshness.UNDATED
    assert freshness(ShelfLife(opened=MADE), MADE) is Freshness.UNDATED


def test_life_runs_from_when_it_was_made() -> None:
    shelf = ShelfLife(made=MADE, months=LIFE_CODES["H"])
    assert shelf.last_use == dt.date(2027, 1, 15)


def test_marked_date_wins_over_the_reckoned_one() -> None:
    shelf = ShelfLife(made=MADE, months=12, expires=dt.date(2026, 6, 30))
    assert shelf.last_use == dt.date(2026, 6, 30)


def test_opening_shortens_and_never_lengthens() -> None:
    opened = dt.date(2026, 3, 1)
    short = ShelfLife(expires=dt.date(2026, 12, 31), opened=opened, open_days=30)
    long = ShelfLife(expires=dt.date(2026, 3, 10), opened=opened, open_days=30)
    assert (short.last_use, long.last_use) == (dt.date(2026, 3, 31), dt.date(2026, 3, 10))


def test_earlier_part_of_a_pack_rules() -> None:
    base = ShelfLife(expires=dt.date(2026, 12, 31))
    hardener = ShelfLife(expires=dt.date(2026, 8, 31))
    assert mixed((base, hardener, ShelfLife())) == dt.date(2026, 8, 31)
    assert mixed((ShelfLife(),)) is None


@pytest.mark.parametrize(
    ("today", "left"),
    [
        (dt.date(2026, 1, 1), 1.0),
        (dt.date(2026, 4, 15), 0.75),  # 92 of 365 days gone: 0.748
        (dt.date(2027, 1, 15), 0.0),
        (dt.date(2028, 1, 1), 0.0),
    ],
)
def test_share_of_life_left(today: dt.date, left: float) -> None:
    shelf = ShelfLife(made=dt.date(2026, 1, 15), months=12)
    assert life_left(shelf, today) == pytest.approx(left, abs=0.005)


@pytest.mark.parametrize(
    "shelf",
    [
        ShelfLife(expires=MADE),
        ShelfLife(made=MADE),
        ShelfLife(made=MADE, expires=MADE),
    ],
)
def test_share_of_an_unknown_life_is_unknown(shelf: ShelfLife) -> None:
    assert life_left(shelf, MADE) is None


def test_passed_test_adds_half_the_original_life_each_time() -> None:
    shelf = ShelfLife(life=LifeType.EXTENDIBLE, made=MADE, months=6)
    once = extended(shelf)
    assert once.last_use == dt.date(2026, 10, 15)
    assert extended(once).last_use == dt.date(2027, 1, 15)


def test_half_of_an_odd_life_is_half_a_month_more() -> None:
    shelf = ShelfLife(life=LifeType.EXTENDIBLE, expires=dt.date(2026, 3, 10), months=3)
    assert extended(shelf).last_use == dt.date(2026, 4, 25)


@pytest.mark.parametrize(
    ("shelf", "why"),
    [
        (ShelfLife(life=LifeType.FIXED, made=MADE, months=6), NOT_MARKED),
        (ShelfLife(made=MADE, months=6), NOT_MARKED),
        (
            ShelfLife(life=LifeType.EXTENDIBLE, made=MADE, months=6, failed_test=True),
            "it failed a test before",
        ),
        (ShelfLife(life=LifeType.EXTENDIBLE, made=MADE, months=6, opened=MADE), "it was opened"),
        (ShelfLife(life=LifeType.EXTENDIBLE, made=MADE), "its original life isn't recorded"),
        (ShelfLife(life=LifeType.EXTENDIBLE, months=6), "its original life isn't recorded"),
    ],
)
def test_extension_is_refused(shelf: ShelfLife, why: str) -> None:
    with pytest.raises(InventoryError) as refused:
        extended(shelf)
    assert refused.value.what == f"the date can't be extended: {why}"
    assert refused.value.remedy == (
        "Scrap it, or record the maker's own written extension as a new date."
    )


def test_lives_of_a_quarter_a_year_and_two_are_known_by_their_codes() -> None:
    # Type I codes as MIL-STD-129 is quoted: C 3, H 12 and M 24 months.
    made = {
        code: ShelfLife(made=MADE, months=months).last_use for code, months in LIFE_CODES.items()
    }
    assert made == {
        "C": dt.date(2026, 4, 15),
        "H": dt.date(2027, 1, 15),
        "M": dt.date(2028, 1, 15),
    }


def test_film_is_due_after_six_weeks() -> None:
    assert not film_overdue(MADE, dt.date(2026, 2, 26))
    assert film_overdue(MADE, dt.date(2026, 2, 27))


@pytest.mark.parametrize("number", range(1, 13))
def test_every_month_is_read_by_its_name(number: int) -> None:
    assert read_date(f"9 {month_abbr[number]} 2026") == dt.date(2026, number, 9)
