from __future__ import annotations

import datetime as dt

from inventory.core.items import Hand
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Due, Workshop
from tests.core.planned import one_part_plan


def test_deliveries_cover_earlier_steps_first_by_date_and_are_promised_once() -> None:
    may, june = dt.date(2026, 5, 4), dt.date(2026, 6, 1)
    workshop = Workshop(
        due=(
            Due(part="P", quantity=3, source="slip 3"),
            Due(part="P", quantity=2, source="slip 2", promised=june),
            Due(part="P", quantity=2, source="slip 1", promised=may),
        )
    )
    first, second, third = net(one_part_plan(2, 2, 4), workshop).needs

    assert [(share.due.source, share.quantity) for share in first.due] == [("slip 1", 2)]
    assert first.covered_on == may
    assert second.covered_on == june
    assert [(share.due.source, share.quantity) for share in third.due] == [("slip 3", 3)]
    assert third.short_beyond_due == 1
    assert third.covered_on is None


def test_a_shortage_that_a_dated_and_an_undated_delivery_cover_has_no_day() -> None:
    may = dt.date(2026, 5, 4)
    workshop = Workshop(
        due=(
            Due(part="P", quantity=2, source="slip 1", promised=may),
            Due(part="P", quantity=2, source="slip 2"),
        )
    )
    first, both = net(one_part_plan(1, 3), workshop).needs

    assert (first.covered_on, both.short_beyond_due, both.covered_on) == (may, 0, None)


def test_an_undated_delivery_gives_no_date() -> None:
    workshop = Workshop(due=(Due(part="P", quantity=5, source="slip 1"),))
    (only,) = net(one_part_plan(5), workshop).needs

    assert only.short_beyond_due == 0
    assert only.covered_on is None


def test_a_delivery_of_the_other_hand_covers_nothing() -> None:
    plan = Plan(
        steps=(Step(code="s1"),),
        needs=(Need(step="s1", part="P", hand=Hand.LEFT, quantity=1),),
    )
    workshop = Workshop(due=(Due(part="P", hand=Hand.RIGHT, quantity=1, source="slip 1"),))

    assert net(plan, workshop).needs[0].due == ()


def test_a_bar_still_due_is_cut_only_as_far_as_nobody_takes_it_whole() -> None:
    # Two bars of 1 m come. One is needed whole; of the other two pieces of 400 mm are cut.
    metre = 1_000_000_000
    needs = (
        Need(step="s1", part="TUBE", quantity=1, length=metre),
        Need(step="s1", part="TUBE", quantity=5, length=400_000_000, kind=NeedKind.CUT),
    )
    bars = Due(part="TUBE", length=metre, quantity=2, source="slip 1")
    whole, cut = net(Plan(steps=(Step(code="s1"),), needs=needs), Workshop(due=(bars,))).needs

    assert [share.quantity for share in whole.due] == [1]
    assert [share.quantity for share in cut.due] == [2]
    assert (whole.short_beyond_due, cut.short_beyond_due) == (0, 3)


def test_pieces_that_come_cut_to_length_are_not_cut_once_more() -> None:
    # Three of the length come, and a bar: 5 are wanted, so 2 are cut.
    length = 400_000_000
    need = Need(step="s1", part="TUBE", quantity=5, length=length, kind=NeedKind.CUT)
    dues = (
        Due(part="TUBE", length=length, quantity=3, source="slip 1"),
        Due(part="TUBE", length=10 * length, quantity=1, source="slip 2"),
    )
    (only,) = net(Plan(steps=(Step(code="s1"),), needs=(need,)), Workshop(due=dues)).needs

    assert [(share.due.source, share.quantity) for share in only.due] == [
        ("slip 1", 3),
        ("slip 2", 2),
    ]


def test_a_bar_still_due_covers_pieces_to_cut() -> None:
    cut = Need(step="s1", part="ANGLE", quantity=4, kind=NeedKind.CUT, length=609_600_000)
    bar = Due(part="ANGLE", length=2_438_400_000, quantity=1, source="slip 1")
    (only,) = net(Plan(steps=(Step(code="s1"),), needs=(cut,)), Workshop(due=(bar,))).needs

    assert [(share.due, share.quantity) for share in only.due] == [(bar, 3)]
    assert only.short_beyond_due == 1
