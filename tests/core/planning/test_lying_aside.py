from __future__ import annotations

from inventory.core.items import Hand, Item, State
from inventory.core.planning.lying_aside import LyingAside, lying_aside
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.workshop import Aside, SetAside, Workshop

STEPS = (Step(code="a"), Step(code="b"))


def aside(need: Need, workshop: Workshop) -> tuple[LyingAside, ...]:
    return lying_aside(net(Plan(steps=STEPS, needs=(need,)), workshop).needs[0], workshop)


def test_what_lies_there_and_does_not_count_is_told_with_its_reason() -> None:
    left, right = Item("RIB", Hand.LEFT), Item("RIB", Hand.RIGHT)
    worked = Item("RIB", Hand.LEFT, state=State.WORKED)
    old = Item("RIB", Hand.LEFT, lot="7")
    workshop = Workshop(
        usable={left: 2, right: 3, worked: 1, Item("SPAR"): 4},
        set_aside=(SetAside("b", left, 2), SetAside("a", left, 0), SetAside("b", right, 1)),
        aside={
            Aside.HOLD: {left: 4, right: 1},
            Aside.EXPIRED: {old: 5},
            Aside.CRATE: {Item("SPAR"): 6},
        },
    )

    assert aside(Need(step="a", part="RIB", hand=Hand.LEFT, quantity=3), workshop) == (
        LyingAside(Aside.OTHER_HAND, right, 3),
        LyingAside(Aside.WORKED, worked, 1),
        LyingAside(Aside.KEPT, left, 2, "b"),
        LyingAside(Aside.HOLD, left, 4),
        LyingAside(Aside.EXPIRED, old, 5),
    )


def test_a_stick_too_short_to_cut_from_is_told() -> None:
    short, long = Item("ANGLE", length=200), Item("ANGLE", length=400)
    need = Need(step="a", part="ANGLE", quantity=9, kind=NeedKind.CUT, length=300)

    assert aside(need, Workshop(usable={short: 1, long: 1})) == (
        LyingAside(Aside.OTHER_LENGTH, short, 1),
    )
