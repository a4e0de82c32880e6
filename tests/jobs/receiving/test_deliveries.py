from __future__ import annotations

from dataclasses import replace
from datetime import date
from typing import TYPE_CHECKING

import pytest

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.items import Hand
from inventory.core.receiving.delivery import DeliveryFacts, PackageException, PackageState
from inventory.core.receiving.findings import Addressee, FindingKind
from inventory.jobs.bench.finding_items import Asked
from inventory.jobs.bench.undoing import undo
from inventory.jobs.planning.workshop_today import today
from inventory.jobs.receiving.counting import TypedCount, count_typed
from inventory.jobs.receiving.deliveries import (
    add_lists,
    crates_of,
    deliveries,
    delivery_named,
    except_package,
    first_notice_by,
    record_delivery,
)
from inventory.jobs.receiving.receiving import close_crate, found

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.receiving.delivery import Delivery
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench

    Slips = Callable[..., Slip]

BY_TRUCK = DeliveryFacts(carriage="us-truck", delivered_on=date(2026, 3, 2), packages_advised=2)


def recorded(bench: Bench, slip: Slips, facts: DeliveryFacts = BY_TRUCK) -> Delivery:
    return record_delivery(bench, lambda _: facts, slip(), lists=[1])


def harmed(crate: str, words: str = "end panel holed") -> PackageException:
    return PackageException(crate=crate, state=PackageState.HARMED, words=words)


def test_delivery_is_recorded_with_its_lists_and_mended_later(bench: Bench, slip: Slips) -> None:
    first = recorded(bench, slip)
    assert (first.number, first.facts, first.lists) == (1, BY_TRUCK, (1,))
    mended = record_delivery(
        bench, lambda facts: replace(facts, packages_counted=2), slip(), first.number
    )
    assert (mended.facts.packages_advised, mended.facts.packages_counted) == (2, 2)
    assert mended.lists == (1,)


def test_the_only_delivery_needs_no_number(bench: Bench, slip: Slips) -> None:
    with pytest.raises(NotFoundError, match="no delivery is recorded yet"):
        delivery_named(bench)
    recorded(bench, slip)
    assert delivery_named(bench).number == 1
    recorded(bench, slip)
    with pytest.raises(InventoryError, match="there are deliveries 1, 2"):
        delivery_named(bench)
    with pytest.raises(NotFoundError, match="there is no delivery 3"):
        delivery_named(bench, 3)


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        (DeliveryFacts(delivered_on=date(2026, 3, 15)), "still to come"),
        (DeliveryFacts(country="XX"), "no holiday calendar is known for XX"),
        (DeliveryFacts(country="US", region="QQ"), "no holiday calendar is known for US QQ"),
        (DeliveryFacts(region="WA"), "a region needs its country"),
        (DeliveryFacts(packages_counted=-2), "-2 packages can't be"),
    ],
)
def test_refused_delivery_leaves_nothing(
    bench: Bench, slip: Slips, facts: DeliveryFacts, why: str
) -> None:
    with pytest.raises(InventoryError, match=why):
        recorded(bench, slip, facts)
    assert deliveries(bench) == []


def test_unknown_list_is_refused(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    with pytest.raises(NotFoundError, match="no packing list 9"):
        add_lists(bench, 1, [1, 9], slip())


def test_list_belongs_to_the_delivery_named_last(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    record_delivery(bench, lambda _: BY_TRUCK, slip())
    add_lists(bench, 2, [1], slip())
    assert [each.lists for each in deliveries(bench)] == [(), (1,)]


def test_undo_takes_a_delivery_back(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    undo(bench, slip())
    assert deliveries(bench) == []


def test_exception_names_the_crate_as_the_list_does(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    told = except_package(bench, 0, harmed("2", "end  panel\nholed"), slip())
    assert (told.crate, told.words) == ("2 OF 2", "end panel holed")
    with pytest.raises(NotFoundError, match="no crate '9'"):
        except_package(bench, 0, harmed("9"), slip())


def test_missing_crate_is_one_finding_against_the_carrier(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    gone = PackageException(crate="2", state=PackageState.MISSING, words="never came")
    except_package(bench, 0, gone, slip())
    (finding,) = found(bench, "2")
    assert (finding.kind, finding.addressee) == (FindingKind.PACKAGE_MISSING, Addressee.CARRIER)
    sources = [each.source for each in today(bench).workshop.due]
    assert not any("2 OF 2" in source for source in sources)


def test_what_a_harmed_crate_lacks_concerns_both_sides(bench: Bench, slip: Slips) -> None:
    recorded(bench, slip)
    except_package(bench, 0, harmed("1"), slip())
    for hand in (Hand.LEFT, Hand.RIGHT):
        typed = TypedCount(crate="1", asked=Asked(part="RIB-1", hand=hand), pieces="2")
        count_typed(bench, typed, slip())
    close_crate(bench, "1", slip())
    assert [(one.part, one.addressee) for one in found(bench, "1")] == [("SPAR", Addressee.BOTH)]


def test_first_notice_is_the_earliest_that_is_sent() -> None:
    # NMFC 300135-A: five business days. From Thu 2 July 2026, Fri 3 July being the observed
    # holiday, they end on Fri 10 July; without a calendar on Thu 9, so one day earlier still.
    at = replace(BY_TRUCK, delivered_on=date(2026, 7, 2))
    assert first_notice_by(replace(at, country="US")) == date(2026, 7, 10)
    assert first_notice_by(at) == date(2026, 7, 8)
    assert first_notice_by(DeliveryFacts(carriage="us-truck")) is None


def test_checklist_names_the_crates_of_the_deliverys_lists(bench: Bench, slip: Slips) -> None:
    assert crates_of(bench, None) == ("1 OF 2", "2 OF 2")
    assert crates_of(bench, recorded(bench, slip)) == ("1 OF 2", "2 OF 2")
