from __future__ import annotations

import re
from dataclasses import replace

import pytest

from inventory.core.items import Hand, Item
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.what_if import ShortChange, freed, left_over, shorter, with_more
from inventory.core.planning.workshop import Workshop

PLAN = Plan(
    steps=(Step(code="11-01"), Step(code="14-02")),
    needs=(
        Need(step="11-01", part="BOLT", quantity=4),
        Need(step="14-02", part="BOLT", quantity=2),
        Need(step="14-02", part="BOLT", quantity=2),
        Need(step="14-02", part="GREASE", quantity=0, as_required=True),
    ),
)
WORKSHOP = Workshop(usable={Item("BOLT"): 8, Item("GREASE"): 1})


def test_what_is_used_elsewhere_makes_a_later_step_short() -> None:
    fewer = with_more(WORKSHOP, Item("BOLT"), -3)
    changes = shorter(net(PLAN, WORKSHOP), net(PLAN, fewer))

    assert changes == (
        ShortChange(PLAN.needs[1], 0, 1),
        ShortChange(PLAN.needs[2], 0, 2),
    )
    assert shorter(net(PLAN, WORKSHOP), net(PLAN, WORKSHOP)) == ()


def test_more_can_not_be_taken_than_lies_there() -> None:
    with pytest.raises(ValueError, match=f"^9 taken of 8 of {re.escape(str(Item('BOLT')))}$"):
        with_more(WORKSHOP, Item("BOLT"), -9)
    with pytest.raises(ValueError, match=r"^1 taken of 0 of "):
        with_more(WORKSHOP, Item("NUT"), -1)


def test_pieces_of_which_none_lay_there_are_as_many_as_came() -> None:
    assert with_more(WORKSHOP, Item("NUT"), 2).usable[Item("NUT")] == 2


def test_a_need_that_was_not_there_before_lacked_nothing_then() -> None:
    more = replace(PLAN, needs=(*PLAN.needs, Need(step="14-02", part="NUT", quantity=1)))

    assert shorter(net(PLAN, WORKSHOP), net(more, WORKSHOP)) == (ShortChange(more.needs[-1], 0, 1),)


def test_a_parcel_frees_the_steps_that_lacked_only_what_is_in_it() -> None:
    before = Workshop(usable={Item("BOLT"): 4, Item("GREASE"): 1})
    after = with_more(before, Item("BOLT"), 4)

    assert freed((net(PLAN, before), before), (net(PLAN, after), after)) == ("14-02",)


def test_what_no_step_takes_is_left_over() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="BOLT", quantity=4),
            Need(step="a", part="ANGLE", quantity=1, kind=NeedKind.CUT, length=300),
        ),
    )
    workshop = Workshop(
        usable={Item("BOLT"): 6, Item("ANGLE", length=10**9): 1, Item("RIB", Hand.LEFT): 1}
    )

    assert left_over(net(plan, workshop), workshop) == {
        Pool("BOLT", Hand.NONE, 0): 2,
        Pool("RIB", Hand.LEFT, 0): 1,
    }


def test_the_last_piece_can_be_taken_too() -> None:
    assert with_more(WORKSHOP, Item("BOLT"), -8).usable[Item("BOLT")] == 0
