from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from inventory.core.items import Hand, Item, State
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.picking import fetches, missing_from
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import SetAside, Workshop

if TYPE_CHECKING:
    from inventory.core.planning.shortage import NetNeed

SEALANT = Need(step="1", part="SEALANT", quantity=3)
PLAN = Plan(steps=(Step(code="1"),), needs=(SEALANT, Need(step="1", part="AR", quantity=0,
            as_required=True)))  # fmt: skip
A, B = Place(PlaceKind.BIN, "A"), Place(PlaceKind.BIN, "B")
OLD, NEW = Item("SEALANT", lot="old"), Item("SEALANT", lot="new")


def needs(workshop: Workshop) -> tuple[NetNeed, ...]:
    return net(PLAN, workshop).of_step("1")


def taken(*lying: tuple[Place, Item, int]) -> list[tuple[str, str, int]]:
    workshop = Workshop(usable={item: quantity for _, item, quantity in lying})
    days = {("SEALANT", "old"): date(2026, 5, 1)}
    return [
        (each.place.code, each.item.lot, each.quantity)
        for each in fetches(needs(workshop), lying, days)
    ]


def test_the_lot_that_expires_first_is_taken_first() -> None:
    assert taken((A, NEW, 9), (B, OLD, 2)) == [("A", "new", 1), ("B", "old", 2)]


def test_of_bins_that_are_alike_the_fullest_is_opened_first() -> None:
    assert taken((A, NEW, 1), (B, NEW, 3)) == [("B", "new", 3)]


def test_worked_pieces_are_not_fetched() -> None:
    assert taken((A, Item("SEALANT", state=State.WORKED), 5)) == []


def test_what_is_kept_for_the_step_lies_in_the_same_bins() -> None:
    workshop = Workshop(usable={NEW: 3}, set_aside=(SetAside("1", NEW, 2),))
    of_step = needs(workshop)
    found = fetches(of_step, [(A, NEW, 3)])
    assert [each.quantity for each in found] == [3]
    assert missing_from(of_step, found) == []


def test_of_equal_bins_the_first_is_opened_first() -> None:
    assert taken((B, Item("SEALANT", lot="1"), 2), (A, Item("SEALANT", lot="2"), 2)) == [
        ("A", "2", 2),
        ("B", "1", 1),
    ]


def test_two_needs_of_one_part_share_a_bin() -> None:
    other = Need(step="1", part="SEALANT", quantity=1, find_number="2")
    plan = Plan(steps=(Step(code="1"),), needs=(SEALANT, other))
    of_step = net(plan, Workshop(usable={NEW: 4})).of_step("1")
    found = fetches(of_step, [(A, NEW, 3), (B, NEW, 1)])

    assert [(each.place, each.quantity) for each in found] == [(A, 3), (B, 1)]


def test_neither_tools_nor_alternates_not_used_are_fetched_or_missing() -> None:
    plan = Plan(
        steps=(Step(code="1"),),
        needs=(
            Need(step="1", part="JIG", quantity=1, kind=NeedKind.TOOL),
            Need(step="1", part="NUT-A", quantity=1, one_of="nut"),
            Need(step="1", part="NUT-B", quantity=1, one_of="nut"),
        ),
    )
    jig, nut = Item("JIG"), Item("NUT-B")
    of_step = net(plan, Workshop(usable={nut: 1})).of_step("1")
    found = fetches(of_step, [(A, jig, 1), (A, Item("NUT-A"), 1), (B, nut, 1)])

    assert [each.item for each in found] == [nut]
    assert missing_from(of_step, found) == []


def test_a_single_piece_that_lacks_is_missing() -> None:
    of_step = needs(Workshop(usable={NEW: 2}))
    found = fetches(of_step, [(A, NEW, 2)])
    assert missing_from(of_step, found) == [(of_step[0], 1)]


def test_what_no_bin_holds_is_missing() -> None:
    of_step = needs(Workshop(usable={NEW: 1, Item("SEALANT", Hand.LEFT): 5}))
    found = fetches(of_step, [(A, NEW, 1)])
    assert missing_from(of_step, found) == [(of_step[0], 2)]
