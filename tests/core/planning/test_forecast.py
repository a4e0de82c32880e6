from __future__ import annotations

import datetime as dt

from inventory.core.items import Item
from inventory.core.planning.forecast import Moved, Outlook, StepForecast, delayed, forecast, moved
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Due, Workshop

TODAY = dt.date(2026, 3, 2)
PLAN = Plan(
    steps=(
        Step(code="s1", days=2),
        Step(code="s2", days=3, after=("s1",)),
        Step(code="s3", days=1, after=("s1",)),
        Step(code="s4", days=2, after=("s2", "s3")),
        Step(code="s5", days=1, after=("s4",)),
        Step(code="s6", days=1, after=("s5",)),
    ),
    needs=(
        Need(step="s1", part="P1", quantity=1),
        Need(step="s2", part="P2", quantity=1),
        Need(step="s2", part="P3", quantity=4),
        Need(step="s3", part="P4", quantity=2),
        Need(step="s4", part="P3", quantity=2),
        Need(step="s5", part="P5", quantity=1),
    ),
)
WORKSHOP = Workshop(
    usable={Item("P1"): 1, Item("P3"): 5, Item("P4"): 2},
    due=(
        Due(part="P2", quantity=1, source="slip 1", promised=TODAY + dt.timedelta(10)),
        Due(
            part="P3",
            quantity=10,
            source="slip 2",
            promised=TODAY + dt.timedelta(4),
            latest=TODAY + dt.timedelta(20),
        ),
        Due(part="P5", quantity=1, source="slip 3"),
    ),
)


def day_of(date: dt.date | None) -> int | None:
    return (date - TODAY).days if date else None


def forecast_of(
    workshop: Workshop, *, late: bool = False, slip: int = 0
) -> dict[str, StepForecast]:
    outlook = Outlook(today=TODAY, late=late, slip=slip)
    return {each.step.code: each for each in forecast(net(PLAN, workshop), workshop, outlook)}


def starts(workshop: Workshop, *, late: bool = False, slip: int = 0) -> list[int | None]:
    return [day_of(each.start) for each in forecast_of(workshop, late=late, slip=slip).values()]


def test_steps_begin_when_what_they_wait_for_is_there() -> None:
    # s2 waits for P2 on day 10; s4 for the end of s2 (10 + 3), its P3 being there on day 4.
    found = forecast_of(WORKSHOP)

    assert [day_of(each.start) for each in found.values()] == [0, 10, 2, 13, None, None]
    assert [day_of(each.finish) for each in found.values()] == [2, 13, 3, 15, None, None]
    assert [[wait.need.need.part for wait in each.waits_for] for each in found.values()] == [
        [],
        ["P2"],
        [],
        [],
        ["P5"],
        [],
    ]
    assert [each.after for each in found.values()] == [(), (), ("s1",), ("s2",), (), ("s5",)]
    assert [each.slack for each in found.values()] == [8, 0, 10, 0, None, None]


def test_the_late_end_of_a_range_and_a_general_slip_can_be_reckoned_with() -> None:
    assert starts(WORKSHOP, late=True) == [0, 10, 2, 20, None, None]
    assert starts(WORKSHOP, slip=14) == [0, 24, 2, 27, None, None]


def test_what_the_delay_of_one_shipment_does() -> None:
    late = delayed(WORKSHOP, "slip 2", 30)
    outlook = Outlook(today=TODAY)
    was = forecast(net(PLAN, WORKSHOP), WORKSHOP, outlook)
    now = forecast(net(PLAN, late), late, outlook)

    assert moved(was, now) == (Moved("s4", TODAY + dt.timedelta(13), TODAY + dt.timedelta(34)),)
    assert delayed(WORKSHOP, "slip 3", 30) == WORKSHOP


def test_an_overdue_promise_counts_as_today() -> None:
    overdue = delayed(WORKSHOP, "slip 1", -30)

    assert starts(overdue) == [0, 2, 2, 5, None, None]
    assert forecast_of(overdue)["s2"].after == ("s1",)


def test_a_part_nobody_promised_gives_no_date() -> None:
    assert starts(Workshop(usable={Item("P1"): 1})) == [0, None, None, None, None, None]


def test_steps_done_are_left_out_and_bind_nothing() -> None:
    workshop = Workshop(
        usable={Item("P2"): 1, Item("P3"): 9, Item("P4"): 2}, done=frozenset({"s1"})
    )

    assert starts(workshop) == [0, 0, 3, None, None]


def test_the_maker_of_a_sub_assembly_binds_and_an_absent_part_waits_for_any_delivery() -> None:
    plan = Plan(
        steps=(Step(code="a", days=3, makes="FRAME"), Step(code="b")),
        needs=(
            Need(step="a", part="GREASE", quantity=0, as_required=True),
            Need(step="b", part="FRAME", quantity=1),
        ),
    )
    undated = Due(part="GREASE", quantity=1, source="slip 1")
    dated = Due(part="GREASE", quantity=1, source="slip 2", promised=TODAY + dt.timedelta(7))

    def start_days(*due: Due) -> list[int | None]:
        workshop = Workshop(due=due)
        found = forecast(net(plan, workshop), workshop, Outlook(today=TODAY))
        return [day_of(each.start) for each in found]

    assert start_days(undated, dated) == [7, 10]
    assert start_days(undated) == [None, None]
