from __future__ import annotations

from itertools import product

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.items import Hand, Item
from inventory.core.planning.filling import Filling, Share, Wanted, fill
from inventory.core.planning.plan import Need, Plan, Step
from inventory.core.planning.preferring import prefer
from inventory.core.planning.shortage import net
from inventory.core.planning.substitution import standing_in
from inventory.core.planning.workshop import StandIn, Workshop

pools = st.sampled_from("abc")
wanted_lists = st.lists(
    st.builds(Wanted, st.lists(pools, min_size=1, unique=True).map(tuple), st.integers(0, 2)),
    max_size=4,
)
supplies = st.dictionaries(pools, st.integers(0, 3))


def test_first_come_leaves_the_second_step_short_and_re_routing_does_not() -> None:
    shares = fill({"a": 1, "b": 1}, [Wanted(("a", "b"), 1), Wanted(("a",), 1)])

    assert shares == [(Share("b", 1),), (Share("a", 1),)]


def test_taking_the_own_number_first_would_leave_a_step_short_by_two() -> None:
    wanted = [Wanted(("a", "b"), 2), Wanted(("a", "c"), 2)]

    assert fill({"a": 2, "b": 2}, wanted) == [(Share("b", 2),), (Share("a", 2),)]


def test_the_newer_number_stands_in_for_the_older_and_never_the_other_way() -> None:
    wanted = [Wanted(("new",), 2), Wanted(("old", "new"), 2)]

    assert fill({"old": 3, "new": 1}, wanted) == [(Share("new", 1),), (Share("old", 2),)]


def cost(wanted: list[Wanted[str]], shares: list[tuple[Share[str], ...]]) -> int:
    return sum(
        want.pools.index(share.pool) * share.quantity
        for want, got in zip(wanted, shares, strict=True)
        for share in got
    )


def least_cost(supply: dict[str, int], wanted: list[Wanted[str]], amounts: list[int]) -> int:
    """Return the least cost of filling these amounts, by trying every way piece by piece."""
    pieces = [want for want, amount in zip(wanted, amounts, strict=True) for _ in range(amount)]
    return min(
        sum(want.pools.index(pool) for want, pool in zip(pieces, way, strict=True))
        for way in product(*(want.pools for want in pieces))
        if all(way.count(pool) <= supply.get(pool, 0) for pool in way)
    )


@given(supplies, wanted_lists)
def test_what_is_filled_uses_the_fewest_stand_ins_possible(
    supply: dict[str, int], wanted: list[Wanted[str]]
) -> None:
    filling = Filling(supply)
    amounts = [filling.take(want.pools, want.quantity) for want in wanted]
    filling.prefer("abc")
    shares = filling.shared_out([want.pools for want in wanted], amounts)

    assert [sum(share.quantity for share in got) for got in shares] == amounts
    assert cost(wanted, shares) == least_cost(supply, wanted, amounts)
    used = dict.fromkeys("abc", 0)
    for got in shares:
        for share in got:
            used[share.pool] += share.quantity
    assert {pool: supply.get(pool, 0) - used[pool] for pool in used if pool in supply} == {
        pool: filling.free[pool] for pool in supply
    }


def test_a_need_moves_up_when_a_place_it_prefers_is_free() -> None:
    either = ("a", "b")
    held: dict[str, dict[tuple[str, ...], int]] = {"b": {either: 2}}
    free = {"a": 1, "b": 0}
    prefer(held, free, "ab")
    assert (held, free) == ({"b": {either: 1}, "a": {either: 1}}, {"a": 0, "b": 1})

    free["a"] = 1
    prefer(held, free, "ab")
    assert (held, free) == ({"b": {}, "a": {either: 2}}, {"a": 0, "b": 2})


def test_hands_that_compete_with_a_stand_in_are_looked_at_too() -> None:
    # The right B can only be the EITHER one: the left A gets the left B, whichever comes first.
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2")),
        needs=(
            Need(step="s1", part="A", hand=Hand.LEFT, quantity=1),
            Need(step="s2", part="B", hand=Hand.RIGHT, quantity=2),
        ),
    )
    workshop = Workshop(
        usable={Item("B", Hand.LEFT): 1, Item("B", Hand.EITHER): 1, Item("B", Hand.RIGHT): 1},
        stand_ins=(StandIn("A", "B"),),
    )
    netting = net(plan, workshop)

    assert [need.short for need in netting.needs] == [0, 0]
    assert [share.pool.hand for share in netting.needs[0].filled] == [Hand.LEFT]


def test_the_stand_ins_in_use_are_told_with_their_decision() -> None:
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2"), Step(code="s3")),
        needs=(
            Need(step="s1", part="A", hand=Hand.LEFT, quantity=1),
            Need(step="s2", part="A", hand=Hand.LEFT, quantity=1),
            Need(step="s3", part="C", quantity=2),
        ),
    )
    for_one = StandIn("A", "B", "s1", "designer's letter 4")
    for_all = StandIn("C", "D", "", "drawing RU-1 note 3")
    workshop = Workshop(
        usable={Item("A", Hand.LEFT): 1, Item("B", Hand.LEFT): 1, Item("D"): 1, Item("C"): 1},
        stand_ins=(for_one, for_all),
    )
    found = standing_in(net(plan, workshop), workshop)

    assert [(each.need.step, each.instead, each.quantity, each.decision) for each in found] == [
        ("s1", "B", 1, for_one),
        ("s3", "D", 1, for_all),
    ]


def test_the_own_number_goes_before_a_stand_in_wherever_an_exchange_allows_it() -> None:
    # s1 takes A, s2 wants A and gets its stand-in B; s3 takes only B: s2 must go on to C.
    plan = Plan(
        steps=(Step(code="s1"), Step(code="s2"), Step(code="s3")),
        needs=(
            Need(step="s1", part="X", quantity=1),
            Need(step="s2", part="A", quantity=1),
            Need(step="s3", part="B", quantity=1),
        ),
    )
    workshop = Workshop(
        usable={Item(part): 1 for part in "ABC"},
        stand_ins=(StandIn("X", "A"), StandIn("X", "C"), StandIn("A", "B")),
    )
    netting = net(plan, workshop)

    assert [[share.pool.part for share in need.filled] for need in netting.needs] == [
        ["C"],
        ["A"],
        ["B"],
    ]
