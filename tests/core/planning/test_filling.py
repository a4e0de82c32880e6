from __future__ import annotations

from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st

from inventory.core.planning.filling import Filling, Share, Wanted, fill

pools = st.sampled_from("abcd")
supplies = st.dictionaries(pools, st.integers(0, 4), max_size=4)
wanted_lists = st.lists(
    st.builds(
        Wanted,
        st.lists(pools, min_size=1, max_size=4, unique=True).map(tuple),
        st.integers(0, 4),
    ),
    max_size=7,
)


def most(supply: dict[str, int], wanted: list[Wanted[str]]) -> int:
    """Return the most that can be filled, by Hall's theorem in its deficiency form (Ore 1955).

    Over all sets of pools: what only they may give, beyond what they hold, can't be filled.
    """
    names = sorted({pool for want in wanted for pool in want.pools})
    least = 0
    for bits in range(2 ** len(names)):
        chosen = {name for number, name in enumerate(names) if bits >> number & 1}
        asked = sum(want.quantity for want in wanted if chosen.issuperset(want.pools))
        least = max(least, asked - sum(supply.get(name, 0) for name in chosen))
    return sum(want.quantity for want in wanted) - least


def test_an_earlier_need_is_sent_elsewhere_when_a_later_one_has_no_choice() -> None:
    shares = fill({"a": 1, "b": 1}, [Wanted(("a", "b"), 1), Wanted(("a",), 1)])

    assert shares == [(Share("b", 1),), (Share("a", 1),)]


def test_a_long_way_of_re_routing_is_found() -> None:
    wanted = [
        Wanted(("a", "b"), 2),
        Wanted(("b", "c"), 2),
        Wanted(("c", "d"), 2),
        Wanted(("a",), 2),
    ]
    shares = fill({"a": 2, "b": 2, "c": 2, "d": 2}, wanted)

    assert shares == [
        (Share("b", 2),),
        (Share("c", 2),),
        (Share("d", 2),),
        (Share("a", 2),),
    ]


def test_a_need_takes_nothing_from_a_pool_it_can_do_without() -> None:
    assert fill({"a": 1, "b": 1}, [Wanted(("a", "b"), 1)]) == [(Share("a", 1),)]


def test_the_pool_preferred_goes_to_the_earlier_of_two_like_needs() -> None:
    shares = fill({"a": 3, "b": 3}, [Wanted(("a", "b"), 2), Wanted(("a", "b"), 2)])

    assert shares == [(Share("a", 2),), (Share("a", 1), Share("b", 1))]


def test_taken_pieces_move_to_the_pools_preferred_where_an_exchange_allows_it() -> None:
    # The third need sends the second to its last choice, c; with the first at d it has b.
    wanted = [("b", "d"), ("a", "b", "e", "c"), ("a",)]
    filling = Filling({"a": 1, "b": 1, "c": 1, "d": 1})
    amounts = [filling.take(pools, 1) for pools in wanted]
    assert filling.shared_out(wanted, amounts) == [
        (Share("b", 1),), (Share("c", 1),), (Share("a", 1),),
    ]  # fmt: skip

    filling.prefer("abcde")

    assert filling.shared_out(wanted, amounts) == [
        (Share("d", 1),), (Share("b", 1),), (Share("a", 1),),
    ]  # fmt: skip
    assert filling.free == {"a": 0, "b": 0, "c": 1, "d": 0}


@given(supplies, wanted_lists)
def test_every_beginning_of_the_order_is_filled_as_far_as_possible(
    supply: dict[str, int], wanted: list[Wanted[str]]
) -> None:
    shares = fill(supply, wanted)
    amounts = [sum(share.quantity for share in got) for got in shares]
    best = [most(supply, wanted[:number]) for number in range(len(wanted) + 1)]

    assert amounts == [later - sooner for sooner, later in pairwise(best)]


@given(supplies, wanted_lists)
def test_no_pool_gives_more_than_it_holds_nor_to_a_need_that_does_not_accept_it(
    supply: dict[str, int], wanted: list[Wanted[str]]
) -> None:
    given_out: dict[str, int] = {}
    for want, shares in zip(wanted, fill(supply, wanted), strict=True):
        for pool, quantity in shares:
            assert pool in want.pools
            assert quantity > 0
            given_out[pool] = given_out.get(pool, 0) + quantity

    assert all(quantity <= supply[pool] for pool, quantity in given_out.items())
