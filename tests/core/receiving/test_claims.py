from __future__ import annotations

import datetime as dt

import pytest

from inventory.core.receiving.claims import Clock, claims_to_send, running
from inventory.core.receiving.deadlines import supplier_window
from inventory.core.receiving.findings import Addressee, Finding, FindingKind

DELIVERED = dt.date(2026, 6, 12)


def finding(
    kind: FindingKind = FindingKind.DAMAGED, addressee: Addressee = Addressee.CARRIER
) -> Finding:
    return Finding(kind=kind, addressee=addressee, part="P", pieces=1, words="1 damaged")


def by_air(**dates: dt.date) -> Clock:
    return Clock(carriage="air", dates={"delivery": DELIVERED, **dates}, holidays=frozenset())


def test_damage_is_claimed_from_the_carrier_by_its_first_day() -> None:
    (claim,) = claims_to_send([finding()], by_air(), dt.date(2026, 6, 20))
    assert claim.addressee is Addressee.CARRIER
    assert claim.next is not None
    assert (claim.next.rule.code, claim.next.last) == ("air-damage", dt.date(2026, 6, 26))
    assert claim.days_left == 6
    assert [one.rule.code for one in claim.deadlines] == ["air-damage", "air-suit"]
    assert claim.passed == ()


def test_period_that_is_over_is_kept_in_sight() -> None:
    (claim,) = claims_to_send([finding()], by_air(), dt.date(2026, 6, 27))
    assert [one.rule.code for one in claim.passed] == ["air-damage"]
    assert claim.next is not None
    assert claim.next.rule.code == "air-suit"


def test_last_day_itself_can_still_be_kept() -> None:
    (claim,) = claims_to_send([finding()], by_air(), dt.date(2026, 6, 26))
    assert (claim.days_left, claim.passed) == (0, ())


def test_day_to_send_by_can_be_past_while_the_period_still_runs() -> None:
    # 14 days from Sat 20 June are Sat 4 July: send by Fri 3 July.
    clock = Clock(carriage="air", dates={"delivery": dt.date(2026, 6, 20)}, holidays=frozenset())
    (claim,) = claims_to_send([finding()], clock, dt.date(2026, 7, 4))
    assert claim.days_left == -1


def test_all_periods_over_leave_no_next_one() -> None:
    (claim,) = claims_to_send([finding()], by_air(), dt.date(2030, 1, 1))
    assert (claim.next, claim.days_left) == (None, None)
    assert len(claim.passed) == 2


def test_back_order_is_not_claimed() -> None:
    due = finding(FindingKind.BACK_ORDER, Addressee.SUPPLIER)
    assert claims_to_send([due], by_air(), DELIVERED) == []


def test_finding_for_both_goes_to_both_most_urgent_first() -> None:
    clock = Clock(
        carriage="us-truck",
        window=supplier_window(30),
        dates={"delivery": DELIVERED},
        holidays=frozenset(),
    )
    both = finding(FindingKind.SHORT, Addressee.BOTH)
    claims = claims_to_send([both], clock, dt.date(2026, 6, 13))
    assert [claim.addressee for claim in claims] == [Addressee.CARRIER, Addressee.SUPPLIER]
    assert [claim.days_left for claim in claims] == [6, 27]
    assert all(claim.findings == (both,) for claim in claims)


def test_dated_claim_comes_before_one_of_reasonable_time() -> None:
    clock = Clock(
        carriage="parcel",
        sale="sale-us",
        window=supplier_window(30),
        dates={"delivery": DELIVERED},
        holidays=frozenset(),
    )
    found = [finding(), finding(FindingKind.SHORT, Addressee.SUPPLIER)]
    claims = claims_to_send(found, clock, DELIVERED)
    assert [claim.addressee for claim in claims] == [Addressee.SUPPLIER, Addressee.CARRIER]
    assert claims[1].days_left is None
    assert [one.rule.code for one in claims[0].deadlines] == ["supplier-window", "ucc-notice"]


def test_without_a_delivery_date_no_clock_runs() -> None:
    (claim,) = claims_to_send([finding()], Clock(carriage="air"), DELIVERED)
    assert claim.deadlines == ()


def test_delay_runs_only_where_the_delivery_was_late() -> None:
    on_time = Clock(carriage="air", dates={"delivery": DELIVERED})
    late = Clock(carriage="air", dates={"delivery": DELIVERED}, late=True)
    assert "air-delay" not in {one.rule.code for one in running(on_time, "carrier")}
    assert "air-delay" in {one.rule.code for one in running(late, "carrier")}


@pytest.mark.parametrize(
    ("event", "code"),
    [("written refusal", "us-truck-suit"), ("claim received", "us-carrier-answers")],
)
def test_later_clocks_start_with_their_own_event(event: str, code: str) -> None:
    before = Clock(carriage="us-truck", dates={"delivery": DELIVERED})
    after = Clock(carriage="us-truck", dates={"delivery": DELIVERED, event: DELIVERED})
    codes = [
        {one.rule.code for to in ("carrier", "nobody") for one in running(clock, to)}
        for clock in (before, after)
    ]
    assert [code in known for known in codes] == [False, True]


def test_acceptance_of_its_own_date_is_counted_from() -> None:
    accepted = dt.date(2026, 6, 15)
    clock = Clock(carriage="rail", dates={"delivery": DELIVERED, "acceptance": accepted})
    assert {one.start for one in running(clock, "carrier")} == {accepted}


def test_claim_of_today_comes_before_one_of_tomorrow() -> None:
    # From Fri 12 June: six calendar days end on Thu 18 June, the five business days of concealed
    # damage on Fri 19 June (no holidays given).
    clock = Clock(
        carriage="us-truck",
        window=supplier_window(6),
        dates={"delivery": DELIVERED},
        holidays=frozenset(),
    )
    both = finding(FindingKind.SHORT, Addressee.BOTH)
    claims = claims_to_send([both], clock, dt.date(2026, 6, 18))
    assert [(claim.addressee, claim.days_left) for claim in claims] == [
        (Addressee.SUPPLIER, 0),
        (Addressee.CARRIER, 1),
    ]


def test_periods_stand_in_the_order_of_their_last_days_and_the_undated_last() -> None:
    clock = Clock(
        sale="sale-international", window=supplier_window(30), dates={"delivery": DELIVERED}
    )
    assert [(one.rule.code, one.last) for one in running(clock, "supplier")] == [
        ("supplier-window", dt.date(2026, 7, 12)),
        ("cisg-latest", dt.date(2028, 6, 12)),
        ("cisg-notice", None),
    ]


def test_acceptance_that_nobody_dated_was_on_the_day_of_delivery() -> None:
    clock = Clock(carriage="rail", dates={"delivery": DELIVERED})
    assert {one.start for one in running(clock, "carrier")} == {DELIVERED}
    assert {one.rule.starts for one in running(clock, "carrier")} >= {"acceptance"}
