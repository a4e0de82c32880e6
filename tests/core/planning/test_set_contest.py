"""What each step claims of stock that isn't ample for all, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

from inventory.core.items import Hand, Item
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.set_contest import NOTHING, bars, contest_of
from inventory.core.planning.set_tasks import Claim, Contest, Source, Task
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Saw, Workshop

PLAN = Plan(
    steps=(Step(code="a", makes="FRAME"), Step(code="b", after=("a", "z")), Step(code="z")),
    needs=(
        Need(step="a", part="P", quantity=3),
        Need(step="b", part="FRAME", quantity=1),
        Need(step="b", part="P", quantity=2),
        Need(step="b", part="JIG", quantity=1, kind=NeedKind.TOOL),
        Need(step="b", part="GREASE", quantity=0, as_required=True),
        Need(step="b", part="TUBE", quantity=2, kind=NeedKind.CUT, length=300),
    ),
)
WORKSHOP = Workshop(
    usable={Item("P"): 4, Item("TUBE", length=1000): 2, Item("TUBE", length=5): 1},
    done=frozenset("z"),
    saw=Saw(3, 10),
)


def pool(part: str, length: int = 0) -> Pool:
    return Pool(part, Hand.NONE, length)


def contest(workshop: Workshop, plan: Plan = PLAN) -> Contest:
    return contest_of(net(plan, workshop), workshop, {"a": 5})


def test_each_step_claims_what_is_scarce_and_adds_what_it_makes() -> None:
    made = ("made", "FRAME", Hand.NONE)
    found = contest(WORKSHOP)

    assert found.tasks == (
        Task(
            code="a", worth=5, claims=((Claim(3, (Source(pool("P")),)),),), makes=(made,)
        ),
        Task(
            code="b",
            after=("a",),
            claims=(
                (Claim(1, (Source(pool("FRAME")), Source(made))),),
                (Claim(2, (Source(pool("P")),)),),
                (NOTHING,),  # no jig
                (NOTHING,),  # no grease
                (Claim(2, (Source(pool("TUBE", 300)), Source(bars("TUBE"), 303))),),
            ),
        ),
    )  # fmt: skip
    # Two tubes of 1000 less 10 for the ends and a kerf more; 5 are less than the trim.
    assert found.supply[bars("TUBE")] == 2 * (1000 - 10 + 3)
    assert Claim(1, ()) == NOTHING


def test_what_is_ample_there_or_lent_is_not_claimed() -> None:
    there = {Item("P"): 5, Item("JIG"): 1, Item("GREASE"): 1, Item("FRAME"): 1}
    found = contest(replace(WORKSHOP, usable={**WORKSHOP.usable, **there}))

    assert [len(task.claims) for task in found.tasks] == [0, 1]


def test_of_alternates_one_claim_suffices_and_none_where_one_is_ample() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="P", quantity=2, one_of="nut"),
            Need(step="a", part="Q", quantity=3, one_of="nut"),
        ),
    )
    scarce = Workshop(usable={Item("P"): 1, Item("Q"): 1})
    (task,) = contest(scarce, plan).tasks

    assert task.claims == ((Claim(2, (Source(pool("P")),)), Claim(3, (Source(pool("Q")),))),)
    (task,) = contest(replace(scarce, usable={Item("Q"): 3}), plan).tasks
    assert task.claims == ()


def test_an_alternate_that_was_begun_is_claimed_alone() -> None:
    plan = Plan(
        steps=(Step(code="a"),),
        needs=(
            Need(step="a", part="P", quantity=2, one_of="nut"),
            Need(step="a", part="Q", quantity=3, one_of="nut"),
        ),
    )
    begun = Workshop(issued={("a", Item("Q")): 1}, usable={Item("P"): 1})
    (task,) = contest(begun, plan).tasks

    assert task.claims == ((Claim(2, (Source(pool("Q")),)),),)


def test_only_a_made_part_of_a_fitting_hand_can_be_claimed() -> None:
    plan = Plan(
        steps=(
            Step(code="a", makes="FLAP", makes_hand=Hand.LEFT),
            Step(code="b", makes="FLAP", makes_hand=Hand.RIGHT),
            Step(code="c", after=("a", "b")),
        ),
        needs=(Need(step="c", part="FLAP", hand=Hand.RIGHT, quantity=1),),
    )
    *_, last = contest(Workshop(), plan).tasks

    assert last.claims == (
        (
            Claim(
                1,
                (Source(Pool("FLAP", Hand.RIGHT, 0)), Source(("made", "FLAP", Hand.RIGHT))),
            ),
        ),
    )
