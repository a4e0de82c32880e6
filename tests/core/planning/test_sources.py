"""What covers a need: stock, then what steps make, then cuts."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.items import Hand, Item
from inventory.core.planning.filling import Share
from inventory.core.planning.open_needs import Pool
from inventory.core.planning.plan import Need, NeedKind, Plan, Step
from inventory.core.planning.shortage import net
from inventory.core.planning.sources import Taken
from inventory.core.planning.workshop import Saw, StandIn, Workshop

if TYPE_CHECKING:
    from inventory.core.planning.shortage import NetNeed

METRE = 1_000_000_000


def needs(
    workshop: Workshop, *wanted: Need, steps: tuple[Step, ...] | None = None
) -> tuple[NetNeed, ...]:
    codes = dict.fromkeys(need.step for need in wanted)
    every = steps or tuple(Step(code=code) for code in codes)
    return net(Plan(steps=every, needs=wanted), workshop).needs


def test_a_step_that_is_done_makes_nothing_more() -> None:
    steps = (Step(code="a", makes="FRAME"), Step(code="b", after=("a",)))
    (need,) = needs(
        Workshop(done=frozenset("a")), Need(step="b", part="FRAME", quantity=1), steps=steps
    )

    assert (need.from_steps, need.short) == ((), 1)


def test_a_step_takes_nothing_that_it_makes_itself() -> None:
    steps = (Step(code="a", makes="FRAME"),)
    (need,) = needs(Workshop(), Need(step="a", part="FRAME", quantity=1), steps=steps)

    assert (need.from_steps, need.short) == ((), 1)


def test_stock_goes_before_what_steps_make_and_both_before_cuts() -> None:
    steps = (Step(code="m", makes="TUBE"), Step(code="a", after=("m",)))
    need = Need(step="a", part="TUBE", quantity=4, kind=NeedKind.CUT, length=METRE // 10)
    usable = {Item("TUBE", length=METRE // 10): 1, Item("TUBE", length=METRE): 1}
    (found,) = needs(Workshop(usable=usable, saw=Saw(0, 0)), need, steps=steps)

    assert [share.quantity for share in found.filled] == [1]
    assert found.from_steps == (Taken("m", 1),)
    assert [(share.pool.length, share.quantity) for share in found.to_cut] == [(METRE, 2)]
    assert found.short == 0


def test_a_tool_is_lent_and_leaves_the_stock_to_others() -> None:
    tool = Need(step="a", part="CLAMP", quantity=1, kind=NeedKind.TOOL)
    lent, taken = needs(
        Workshop(usable={Item("CLAMP"): 1}), tool, Need(step="b", part="CLAMP", quantity=1)
    )

    assert (lent.short, taken.short) == (0, 0)


def test_a_tool_that_is_not_there_lacks() -> None:
    (need,) = needs(Workshop(), Need(step="a", part="CLAMP", quantity=1, kind=NeedKind.TOOL))

    assert (need.filled, need.short) == ((), 1)


def test_tools_are_lent_from_every_pool_that_fits_and_no_more_than_wanted() -> None:
    tool = Need(step="a", part="JIG", hand=Hand.LEFT, quantity=3, kind=NeedKind.TOOL)
    usable = {Item("JIG", Hand.LEFT): 1, Item("JIG", Hand.EITHER): 5}
    (need,) = needs(Workshop(usable=usable), tool)

    assert need.filled == (
        Share(Pool("JIG", Hand.LEFT, 0), 1),
        Share(Pool("JIG", Hand.EITHER, 0), 2),
    )


def test_only_what_is_to_be_cut_comes_out_of_bars() -> None:
    whole = Need(step="a", part="TUBE", quantity=1)
    cut = Need(step="a", part="TUBE", quantity=2, kind=NeedKind.CUT, length=METRE // 4)
    first, second = needs(Workshop(usable={Item("TUBE", length=METRE): 1}), whole, cut)

    assert (first.short, first.to_cut) == (1, ())
    assert second.short == 0


def test_own_numbers_go_before_stand_ins_wherever_an_exchange_allows_it() -> None:
    # s3 needs the only A, so s2 has B or, further down, C; B goes to s2 if s1 takes D for it.
    stand_ins = (
        StandIn("B", "D"),
        *(StandIn("A", instead, "s2") for instead in ("B", "E", "C")),
    )
    usable = {Item(part): pieces for part, pieces in zip("ABCDE", (1, 1, 1, 1, 0), strict=True)}
    found = needs(
        Workshop(usable=usable, stand_ins=stand_ins),
        Need(step="s1", part="B", quantity=1),
        Need(step="s2", part="A", quantity=1),
        Need(step="s3", part="A", quantity=1),
    )

    assert [[share.pool.part for share in need.filled] for need in found] == [["D"], ["B"], ["A"]]
