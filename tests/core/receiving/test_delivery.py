from __future__ import annotations

import datetime as dt

import pytest

from inventory.core.errors import InventoryError
from inventory.core.measures.days import CountedDays
from inventory.core.receiving.claims import running
from inventory.core.receiving.delivery import (
    Delivery,
    DeliveryFacts,
    PackageException,
    PackageState,
    check_exception,
    check_facts,
    clock_of,
    events,
    packages_of,
)

TODAY = dt.date(2026, 7, 20)
DELIVERED = dt.date(2026, 7, 2)


def harmed(crate: str = "2 OF 3", *, on_receipt: bool = False) -> PackageException:
    return PackageException(
        crate=crate, state=PackageState.HARMED, words="end panel holed", on_receipt=on_receipt
    )


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        (
            DeliveryFacts(carriage="plane"),
            (
                "'plane' is no carriage that is known|One of: "
                "us-truck (truck within the United States); us-rail (rail within the United States)"
                "; us-air (air within the United States); us-sea (sea, to or from the United "
                "States); air (international air); road (international road); rail (international "
                "rail); sea (sea); forwarder (forwarder's through bill); swiss (carriage within "
                "Switzerland); parcel (parcel service)."
            ),
        ),
        (
            DeliveryFacts(sale="gift"),
            (
                "'gift' is no sale that is known|One of: "
                "sale-us (bought from a seller in the United States); "
                "sale-international (bought from a seller abroad)."
            ),
        ),
        (
            DeliveryFacts(delivered_on=dt.date(2026, 7, 21)),
            "the day of delivery is still to come: 2026-07-21|Record it when it has happened.",
        ),
        (
            DeliveryFacts(dates={"discovery": dt.date(2027, 1, 1)}),
            "the day of discovery is still to come: 2027-01-01|Record it when it has happened.",
        ),
        # 20 July 2026 less 18,250 days (fifty times 365) is 1 August 1976.
        (
            DeliveryFacts(delivered_on=dt.date(1976, 7, 31)),
            "the day of delivery is too long ago: 1976-07-31|Look at the year again.",
        ),
        (
            DeliveryFacts(dates={"birthday": DELIVERED}),
            (
                "no period runs from 'birthday'|Events are: written refusal, claim received, "
                "placed at your disposal, acceptance, discovery."
            ),
        ),
        (
            DeliveryFacts(packages_advised=-1),
            "-1 packages can't be|Count crates and boxes, 0 to 1000.",
        ),
        (
            DeliveryFacts(packages_counted=1001),
            "1001 packages can't be|Count crates and boxes, 0 to 1000.",
        ),
        (
            DeliveryFacts(window_days=4000),
            (
                "a supplier's window of 4000 days can't be|"
                "Enter 1 to 3650 days, as the order's terms say."
            ),
        ),
        (
            DeliveryFacts(bill_of_lading="x" * 501),
            "the text for bill of lading is too long|Say it in 500 characters.",
        ),
    ],
)
def test_what_no_delivery_can_be_is_refused(facts: DeliveryFacts, why: str) -> None:
    with pytest.raises(InventoryError) as refused:
        check_facts(facts, TODAY)
    assert f"{refused.value.what}|{refused.value.remedy}" == why


@pytest.mark.parametrize(
    "facts",
    [
        DeliveryFacts(packages_advised=0, packages_counted=1000),
        DeliveryFacts(seals="x" * 500),
        DeliveryFacts(delivered_on=dt.date(1976, 8, 1)),
        DeliveryFacts(delivered_on=TODAY),
    ],
)
def test_the_most_that_a_delivery_can_be_is_taken(facts: DeliveryFacts) -> None:
    check_facts(facts, TODAY)


def test_delivery_of_today_with_all_said_is_taken() -> None:
    facts = DeliveryFacts(
        carriage="air", sale="sale-us", delivered_on=TODAY, window_days=30,
        dates={"discovery": TODAY}, packages_advised=3, packages_counted=3,
    )  # fmt: skip
    check_facts(facts, TODAY)


def test_events_are_those_that_periods_run_from() -> None:
    assert set(events()) == {
        "acceptance", "claim received", "discovery", "placed at your disposal", "written refusal",
    }  # fmt: skip


def test_exception_needs_words_and_a_missing_crate_its_name() -> None:
    with pytest.raises(InventoryError) as refused:
        check_exception(PackageException(state=PackageState.OTHER, words="  "))
    assert refused.value.what == "an exception needs words: which crate, where on it, what"
    assert refused.value.remedy == 'For instance: "end panel punctured, hole of 5 cm".'
    with pytest.raises(InventoryError) as refused:
        check_exception(PackageException(state=PackageState.MISSING, words="never came"))
    assert refused.value.what == "which crate is missing?"
    assert refused.value.remedy == "Name it with --crate."


def test_exception_of_a_crate_or_of_the_whole_delivery_is_taken() -> None:
    check_exception(harmed())
    check_exception(PackageException(crate="3", state=PackageState.MISSING, words="never came"))
    check_exception(PackageException(state=PackageState.OTHER, words="pallet wet"))


def test_only_what_stands_on_the_receipt_is_noted() -> None:
    whole = Delivery(
        number=1,
        facts=DeliveryFacts(),
        exceptions=(
            harmed(on_receipt=True),
            harmed("1 OF 3"),
            PackageException(state=PackageState.OTHER, words="pallet wet", on_receipt=True),
        ),
    )
    assert whole.noted_on_receipt == "crate 2 OF 3: end panel holed; pallet wet"


def test_shipment_is_named_by_its_numbers() -> None:
    assert DeliveryFacts(bill_of_lading="BL-9").shipment == "bill of lading BL-9"
    both = DeliveryFacts(bill_of_lading="BL-9", pro_number="77")
    assert both.shipment == "bill of lading BL-9, PRO 77"
    assert DeliveryFacts().shipment == ""


def test_clock_runs_by_carriage_sale_window_and_dates() -> None:
    facts = DeliveryFacts(
        carriage="us-truck",
        sale="sale-us",
        delivered_on=DELIVERED,
        window_days=10,
        window_count=CountedDays.BUSINESS,
        dates={"written refusal": dt.date(2026, 7, 15)},
    )
    # Fri 3 July is the observed holiday: five business days from Thu 2 July end on Fri 10 July.
    clock = clock_of(facts, frozenset({dt.date(2026, 7, 3)}))
    to_carrier = {one.rule.code: one.last for one in running(clock, "carrier")}
    assert to_carrier["us-truck-concealed"] == dt.date(2026, 7, 10)
    assert to_carrier["us-truck-suit"] == dt.date(2028, 7, 15)
    to_supplier = {one.rule.code: one.last for one in running(clock, "supplier")}
    assert to_supplier == {"ucc-notice": None, "supplier-window": dt.date(2026, 7, 17)}


def test_delivery_without_a_day_has_no_clock() -> None:
    assert running(clock_of(DeliveryFacts(carriage="air"), None), "carrier") == ()


def test_packages_are_those_of_all_deliveries() -> None:
    missing = PackageException(crate="3 OF 3", state=PackageState.MISSING, words="never came")
    wet = PackageException(state=PackageState.HARMED, words="all wet")
    one = Delivery(number=1, facts=DeliveryFacts(), exceptions=(harmed(), wet))
    other = Delivery(number=2, facts=DeliveryFacts(), exceptions=(missing,))
    packages = packages_of([one, other], frozenset({"1 OF 3"}))
    assert (packages.closed, packages.missing, packages.harmed) == (
        frozenset({"1 OF 3"}),
        frozenset({"3 OF 3"}),
        frozenset({"2 OF 3"}),
    )
