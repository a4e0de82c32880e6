from __future__ import annotations

from dataclasses import replace

from inventory.core.items import Hand
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.plan_difference import Altered, plan_changes

KEEL = Step(code="10-01", title="Keel", row=2)
DECK = Step(code="10-02", title="Deck", after=("10-01",), row=3)
SKIN = Need(step="10-01", part="T2-FL-0501", hand=Hand.LEFT, quantity=1, row=2)
RIVET = Need(step="10-01", part="MS20470AD4-4", quantity=40, find_number="20", row=3)
PLAN = Plan(steps=(KEEL, DECK), needs=(SKIN, RIVET))


def said(old: Plan, new: Plan) -> list[tuple[Altered, str, str, tuple[str, ...]]]:
    return [
        (change.altered, change.step, change.part, change.details)
        for change in plan_changes(old, new)
    ]


def test_rows_that_merely_moved_are_no_change() -> None:
    moved = Plan(
        steps=(replace(DECK, row=9), replace(KEEL, row=10)),
        needs=(replace(RIVET, row=20, printed="ms20470ad4-4", where="Needs!B20"), SKIN),
    )

    assert said(PLAN, moved) == []


def test_steps_and_needs_added_removed_and_changed_are_told() -> None:
    new = Plan(
        steps=(replace(KEEL, days=2, after=("09-09",)), Step(code="10-03")),
        needs=(
            replace(RIVET, quantity=44, as_required=True, prepared="primed"),
            replace(SKIN, hand=Hand.RIGHT),
        ),
    )

    assert said(PLAN, new) == [
        (Altered.CHANGED, "10-01", "", ("after: nothing -> 09-09", "days: 0 -> 2")),
        (Altered.ADDED, "10-03", "", ()),
        (Altered.REMOVED, "10-02", "", ()),
        (
            Altered.CHANGED,
            "10-01",
            "MS20470AD4-4",
            ("quantity: 40 -> 44", "as required: no -> yes", "prepared: nothing -> primed"),
        ),
        (Altered.ADDED, "10-01", "T2-FL-0501", ()),
        (Altered.REMOVED, "10-01", "T2-FL-0501", ()),
    ]
    assert [change.hand for change in plan_changes(PLAN, new)][-2:] == [Hand.RIGHT, Hand.LEFT]


def test_of_several_lines_alike_the_find_number_tells_which_changed() -> None:
    other = replace(RIVET, find_number="21", quantity=10)
    old = Plan(steps=(KEEL,), needs=(RIVET, other))
    new = Plan(steps=(KEEL,), needs=(replace(other, quantity=12), replace(RIVET, row=99)))

    assert said(old, new) == [(Altered.CHANGED, "10-01", "MS20470AD4-4", ("quantity: 10 -> 12",))]


def test_of_several_lines_alike_the_unchanged_one_is_paired_first() -> None:
    more = replace(RIVET, quantity=50)
    old = Plan(steps=(KEEL,), needs=(RIVET, more))
    new = Plan(steps=(KEEL,), needs=(replace(more, row=30), replace(RIVET, quantity=42)))

    assert said(old, new) == [(Altered.CHANGED, "10-01", "MS20470AD4-4", ("quantity: 40 -> 42",))]


def test_of_several_lines_that_all_changed_the_find_number_tells_them_apart() -> None:
    other = replace(RIVET, find_number="21", quantity=10)
    old = Plan(steps=(KEEL,), needs=(RIVET, other))
    new = Plan(steps=(KEEL,), needs=(replace(other, quantity=12), replace(RIVET, quantity=41)))

    assert [details for *_, details in said(old, new)] == [
        ("quantity: 10 -> 12",),
        ("quantity: 40 -> 41",),
    ]


def test_steps_before_are_told_one_by_one() -> None:
    new = Plan(steps=(KEEL, replace(DECK, after=("10-01", "09-09"))), needs=PLAN.needs)

    assert said(PLAN, new) == [(Altered.CHANGED, "10-02", "", ("after: 10-01 -> 10-01, 09-09",))]


def test_of_several_lines_alike_one_without_a_find_number_of_before_is_paired_last() -> None:
    old = Plan(steps=(KEEL,), needs=(RIVET,))
    new = Plan(steps=(KEEL,), needs=(replace(RIVET, find_number="22"), RIVET))

    assert said(old, new) == [(Altered.ADDED, "10-01", "MS20470AD4-4", ())]
