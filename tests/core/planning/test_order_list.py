from __future__ import annotations

import datetime as dt

from inventory.core.items import Hand, Item, Measure
from inventory.core.measures.money import Price
from inventory.core.planning.order_list import (
    OrderFacts,
    OrderLine,
    OrderReason,
    PartOfHand,
    order_list,
)
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Due, Workshop

MAY, JUNE = dt.date(2026, 5, 4), dt.date(2026, 6, 1)
PLAN = Plan(
    steps=(Step(code="a"), Step(code="b"), Step(code="c")),
    needs=(
        Need(step="a", part="RIB", printed="Rib", description="RIB", hand=Hand.LEFT, quantity=4),
        Need(step="b", part="RIB", hand=Hand.LEFT, quantity=4),
        Need(step="b", part="BOLT", quantity=10, spare=3, kind=NeedKind.HARDWARE),
        Need(step="c", part="ANGLE", quantity=3, kind=NeedKind.CUT, length=300_000_000),
        Need(step="c", part="GREASE", quantity=0, as_required=True),
        Need(step="c", part="HINGE", quantity=2),
    ),
)


def lines(workshop: Workshop, facts: OrderFacts) -> list[OrderLine]:
    return list(order_list(net(PLAN, workshop), workshop, facts))


def said(found: list[OrderLine]) -> list[tuple[str, int, OrderReason, tuple[str, ...]]]:
    return [(line.part, line.quantity, line.reason, line.steps) for line in found]


def test_what_lacks_is_claimed_replaced_or_bought_and_what_is_promised_is_not_on_the_list() -> None:
    workshop = Workshop(
        usable={Item("RIB", Hand.LEFT): 1, Item("BOLT"): 12, Item("GREASE"): 1},
        due=(Due(part="HINGE", quantity=2, source="slip 1"),),
    )
    facts = OrderFacts(
        owed={PartOfHand("RIB", Hand.LEFT): 2, PartOfHand("RIB", Hand.RIGHT): 9},
        scrapped={PartOfHand("RIB", Hand.LEFT): 1, PartOfHand("BOLT"): 7},
        wanted_on={"a": JUNE, "b": MAY},
    )
    found = lines(workshop, facts)

    assert said(found) == [
        ("RIB", 2, OrderReason.CLAIM, ("a", "b")),
        ("RIB", 1, OrderReason.SCRAP, ("a", "b")),
        ("RIB", 4, OrderReason.SHORT, ("a", "b")),
        ("ANGLE", 3, OrderReason.SHORT, ("c",)),
        ("BOLT", 1, OrderReason.SPARE, ()),
    ]
    assert [line.needed_by for line in found] == [MAY, MAY, MAY, None, None]
    assert (found[0].printed, found[0].description, found[0].hand) == ("Rib", "RIB", Hand.LEFT)
    assert (found[3].to_cut, found[3].length) == (True, 300_000_000)


def test_an_as_required_part_that_is_not_there_is_on_the_list_once() -> None:
    workshop = Workshop(
        usable={Item("RIB", Hand.LEFT): 8, Item("BOLT"): 13, Item("HINGE"): 2},
        due=(Due(part="ANGLE", quantity=3, length=300_000_000, source="slip 2"),),
    )

    assert said(lines(workshop, OrderFacts())) == [("GREASE", 1, OrderReason.SHORT, ("c",))]


def test_the_list_is_gathered_by_supplier_and_knows_prices() -> None:
    price = Price(1_250_000, "EUR")
    workshop = Workshop(usable={Item("RIB", Hand.LEFT): 8, Item("GREASE"): 1})
    facts = OrderFacts(
        suppliers={"BOLT": "Mole End Hardware", "ANGLE": "Quay Metals"}, prices={"BOLT": price}
    )
    found = lines(workshop, facts)

    assert [(line.supplier, line.part, line.reason, line.price) for line in found] == [
        ("", "HINGE", OrderReason.SHORT, None),
        ("Mole End Hardware", "BOLT", OrderReason.SHORT, price),
        ("Mole End Hardware", "BOLT", OrderReason.SPARE, price),
        ("Quay Metals", "ANGLE", OrderReason.SHORT, None),
    ]


def test_what_is_left_in_the_end_is_held_against_the_minimum() -> None:
    workshop = Workshop(
        usable={Item("RIB", Hand.LEFT): 8, Item("BOLT"): 12, Item("GREASE"): 1, Item("PIN"): 4},
        due=(
            Due(part="BOLT", quantity=5, source="slip 1"),
            Due(part="HINGE", quantity=2, source="slip 1"),
            Due(part="ANGLE", quantity=3, length=300_000_000, source="slip 2"),
        ),
    )
    facts = OrderFacts(minimums={"BOLT": 20, "PIN": 5, "HINGE": 0, "GREASE": 1})
    found = [line for line in lines(workshop, facts) if line.reason is OrderReason.MINIMUM]

    # BOLT: 12 + 5 due - 10 used = 7 left, 13 to 20. PIN isn't in the plan: 4 of 5.
    assert said(found) == [
        ("BOLT", 13, OrderReason.MINIMUM, ()),
        ("PIN", 1, OrderReason.MINIMUM, ()),
    ]
    assert found[1] == OrderLine(
        supplier="", part="PIN", hand=Hand.NONE, length=0, to_cut=False, measure=Measure.PIECES,
        quantity=1, reason=OrderReason.MINIMUM,
    )  # fmt: skip


def test_a_minimum_is_told_of_the_part_as_the_plan_knows_it() -> None:
    need = Need(
        step="a", part="SEAL", printed="Seal", description="SEALANT", hand=Hand.LEFT, quantity=5,
        measure=Measure.VOLUME,
    )  # fmt: skip
    plan = Plan(steps=(Step(code="a"),), needs=(need,))
    # 3 there and 4 due, of which the step takes 5: 2 are left of 9.
    workshop = Workshop(
        usable={Item("SEAL", Hand.LEFT): 3},
        due=(Due(part="SEAL", hand=Hand.LEFT, quantity=4, source="slip 1"),),
    )
    facts = OrderFacts(minimums={"SEAL": 9}, suppliers={"SEAL": "Quay Chandlery"})

    assert order_list(net(plan, workshop), workshop, facts) == (
        OrderLine(
            supplier="Quay Chandlery", part="SEAL", hand=Hand.LEFT, length=0, to_cut=False,
            measure=Measure.VOLUME, quantity=7, reason=OrderReason.MINIMUM, printed="Seal",
            description="SEALANT",
        ),
    )  # fmt: skip


def test_no_more_replaces_scrap_than_lacks_beyond_what_is_claimed() -> None:
    workshop = Workshop(usable={Item("RIB", Hand.LEFT): 5})
    of_rib = PartOfHand("RIB", Hand.LEFT)
    facts = OrderFacts(owed={of_rib: 2}, scrapped={of_rib: 4})
    found = [line for line in lines(workshop, facts) if line.part == "RIB"]

    assert said(found) == [
        ("RIB", 2, OrderReason.CLAIM, ("b",)),
        ("RIB", 1, OrderReason.SCRAP, ("b",)),
    ]


def test_an_alternate_that_is_not_used_is_not_ordered() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="NUT-A", quantity=2, one_of="nut"),
            Need(step="a", part="NUT-B", quantity=2, one_of="nut"),
        ),
    )
    workshop = Workshop(usable={Item("NUT-B"): 2})

    assert order_list(net(plan, workshop), workshop, OrderFacts()) == ()
