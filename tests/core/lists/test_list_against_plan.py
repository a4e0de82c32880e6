from __future__ import annotations

import pytest

from inventory.core.items import Hand, Measure
from inventory.core.lists.list_against_plan import list_against_plan
from inventory.core.lists.packing import CountRule, PackingLine
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.receiving.findings import Comparison, Finding, FindingKind

LEFT, RIGHT, EITHER, NONE = Hand.LEFT, Hand.RIGHT, Hand.EITHER, Hand.NONE


def line(
    pieces: int,
    hand: Hand = NONE,
    *,
    part: str = "P",
    back_ordered: int = 0,
    rule: CountRule = CountRule.COUNTED,
    measure: Measure = Measure.PIECES,
) -> PackingLine:
    return PackingLine(
        sheet="List",
        row=1,
        part=part,
        printed=part,
        hand=hand,
        ordered=pieces + back_ordered,
        shipped=pieces,
        back_ordered=back_ordered,
        count_rule=rule,
        measure=measure,
    )


def need(quantity: int, hand: Hand = NONE, *, step: str = "10", part: str = "P") -> Need:
    return Need(step=step, part=part, hand=hand, quantity=quantity)


def plan(*needs: Need) -> Plan:
    return Plan(steps=(Step(code="10"), Step(code="20", makes="SUB")), needs=needs)


def missing(lines: list[PackingLine], *needs: Need) -> list[tuple[Hand, int]]:
    return [(one.hand, one.pieces) for one in list_against_plan(lines, plan(*needs))]


def test_list_that_covers_the_plan_shows_nothing() -> None:
    assert list_against_plan([line(3), line(2, back_ordered=1)], plan(need(6))) == []


def test_two_steps_that_need_more_than_is_listed() -> None:
    (found,) = list_against_plan([line(15)], plan(need(12), need(8, step="20")))
    assert (found.kind, found.comparison) == (FindingKind.SHORT, Comparison.LIST_PLAN)
    assert (found.listed, found.pieces) == (15, 5)
    assert found.words == "15 listed, 5 more needed by steps 10, 20"


def test_part_that_nobody_listed_is_short_by_all() -> None:
    assert missing([], need(2)) == [(NONE, 2)]


@pytest.mark.parametrize(
    ("listed", "needed", "short"),
    [
        # three left on the list fill no right
        ([(3, LEFT), (1, RIGHT)], [(2, LEFT), (2, RIGHT)], [(RIGHT, 1)]),
        # pieces for either side go to the side that lacks
        ([(2, LEFT), (1, RIGHT), (1, EITHER)], [(2, LEFT), (2, RIGHT)], []),
        # a need for either side takes pieces without a hand, never a left one
        ([(2, LEFT), (1, NONE)], [(2, EITHER)], [(EITHER, 1)]),
        ([(3, NONE)], [(2, EITHER), (1, NONE)], []),
        ([(2, LEFT)], [(2, EITHER)], [(EITHER, 2)]),
        ([(1, EITHER)], [(3, LEFT)], [(LEFT, 2)]),
        # pieces without a hand fill no side
        ([(4, NONE)], [(1, LEFT)], [(LEFT, 1)]),
        # pieces for either side fill their own need first
        ([(2, EITHER)], [(2, EITHER), (1, RIGHT)], [(RIGHT, 1)]),
        ([(2, EITHER)], [(1, LEFT), (1, RIGHT), (1, NONE)], [(NONE, 1)]),
    ],
)
def test_hands(
    listed: list[tuple[int, Hand]], needed: list[tuple[int, Hand]], short: list[tuple[Hand, int]]
) -> None:
    lines = [line(pieces, hand) for pieces, hand in listed]
    assert missing(lines, *(need(quantity, hand) for quantity, hand in needed)) == short


def test_side_is_said_in_words() -> None:
    (found,) = list_against_plan([line(1, LEFT)], plan(need(2, LEFT)))
    assert found.words == "1 listed LEFT, 1 more needed by steps 10"


def test_finding_names_the_part_as_the_plan_prints_it_for_that_hand() -> None:
    left = Need(step="10", part="P", hand=LEFT, quantity=1, description="rib, left")
    right = Need(
        step="20", part="P", hand=RIGHT, quantity=2, printed="P (RH)", description="rib, right"
    )
    assert list_against_plan([], plan(left, right)) == [
        Finding(
            kind=FindingKind.SHORT, comparison=Comparison.LIST_PLAN, part="P", printed="P",
            description="rib, left", hand=LEFT, pieces=1,
            words="0 listed LEFT, 1 more needed by steps 10",
        ),
        Finding(
            kind=FindingKind.SHORT, comparison=Comparison.LIST_PLAN, part="P", printed="P (RH)",
            description="rib, right", hand=RIGHT, pieces=2,
            words="0 listed RIGHT, 2 more needed by steps 20",
        ),
    ]  # fmt: skip


def test_reference_lines_and_lines_by_length_supply_nothing() -> None:
    lines = [line(5, rule=CountRule.REFERENCE), line(5, measure=Measure.LENGTH)]
    assert missing(lines, need(2)) == [(NONE, 2)]


@pytest.mark.parametrize(
    "other",
    [
        Need(step="10", part="P", quantity=2, kind=NeedKind.TOOL),
        Need(step="10", part="P", quantity=2, kind=NeedKind.CUT, length=1),
        Need(step="10", part="P", quantity=2, measure=Measure.VOLUME),
        Need(step="10", part="P", quantity=0, as_required=True),
        Need(step="20", part="SUB", quantity=1),
        Need(step="10", part="Q", quantity=1, spare=5),
    ],
)
def test_tools_cuts_volumes_made_parts_and_spares_are_not_compared(other: Need) -> None:
    assert missing([line(1, part="Q")], other) == []


def test_of_alternates_the_listed_one_counts() -> None:
    group = [
        Need(step="10", part="A", quantity=2, one_of="bolt"),
        Need(step="10", part="B", quantity=2, one_of="bolt"),
    ]
    assert missing([line(2, part="B")], *group) == []
    (found,) = list_against_plan([], plan(*group))
    assert found.part == "A"
