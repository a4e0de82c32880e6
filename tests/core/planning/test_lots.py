from __future__ import annotations

import datetime as dt

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.planning.filling import Wanted, fill
from inventory.core.planning.lots import DatedLot, DatedNeed, LotUse, earliest_expiry_first


def day(number: int) -> dt.date:
    return dt.date(2026, 1, 1) + dt.timedelta(number)


def test_the_lot_that_expires_first_is_used_first() -> None:
    # Newest first would give s1 four of B and leave s2 two short when A has expired.
    lots = [DatedLot("B", 5, day(40)), DatedLot("A", 3, day(10))]
    needs = [DatedNeed("s1", day(5), 4), DatedNeed("s2", day(20), 3)]

    assert earliest_expiry_first(lots, needs) == (
        LotUse("s1", (("A", 3), ("B", 1)), 0),
        LotUse("s2", (("B", 3),), 0),
    )


def test_an_expired_lot_does_not_count() -> None:
    lots = [DatedLot("A", 3, day(10))]

    assert earliest_expiry_first(lots, [DatedNeed("s1", day(11), 2)]) == (LotUse("s1", (), 2),)
    assert earliest_expiry_first(lots, [DatedNeed("s1", day(10), 2)]) == (
        LotUse("s1", (("A", 2),), 0),
    )


def test_what_does_not_expire_is_used_last() -> None:
    lots = [DatedLot("A", 1), DatedLot("B", 1, day(3))]

    assert earliest_expiry_first(lots, [DatedNeed("s1", day(1), 1)]) == (
        LotUse("s1", (("B", 1),), 0),
    )


days = st.integers(0, 9)


@given(
    st.lists(st.tuples(st.integers(1, 4), days), max_size=4),
    st.lists(st.tuples(days, st.integers(1, 4)), max_size=5).map(sorted),
)
def test_no_way_of_taking_lots_gives_any_step_more(
    lots: list[tuple[int, int]], needs: list[tuple[int, int]]
) -> None:
    uses = earliest_expiry_first(
        [DatedLot(str(place), count, day(last)) for place, (count, last) in enumerate(lots)],
        [DatedNeed(str(place), day(on), count) for place, (on, count) in enumerate(needs)],
    )
    best = fill(
        {place: count for place, (count, _) in enumerate(lots)},
        [
            Wanted(tuple(n for n, (_, last) in enumerate(lots) if last >= on), count)
            for on, count in needs
        ],
    )

    assert [use.short for use in uses] == [
        count - sum(share.quantity for share in got)
        for (_, count), got in zip(needs, best, strict=True)
    ]
