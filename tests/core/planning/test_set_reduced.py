"""Contests for scarce stock, worked out by hand and held against trying every set."""

from __future__ import annotations

from collections import Counter
from itertools import combinations
from typing import TYPE_CHECKING

from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.planning.set_program import best_set
from inventory.core.planning.set_tasks import (
    Claim,
    Contest,
    Source,
    Task,
    at_most,
    finished_first_come,
    reduced,
    scarcest_last,
)

if TYPE_CHECKING:
    from collections.abc import Hashable, Mapping, Sequence


def task(code: str, *claims: Claim, **more: object) -> Task:
    return Task(code=code, claims=tuple((claim,) for claim in claims), **more)  # type: ignore[arg-type]


def of(stock: str, quantity: int = 1, each: int = 1) -> Claim:
    return Claim(quantity, (Source(stock, each),))


def test_what_can_not_be_finished_and_what_is_ample_goes() -> None:
    supply: dict[Hashable, int] = {"p": 2, "q": 1, "r": 2, "bar": 7}
    c, d = task("c", of("q")), task("d", of("q"))
    tasks = (
        task("a", of("p", 3)),  # more than there is
        task("b", of("r"), after=("a",)),  # comes after it
        c,
        d,
        task("e", of("r", 1), of("bar", 2, each=3)),  # 1 of 2, and 6 of 7
        task("f", of("bar", 3, each=3)),  # 9 of 7
        task("g", of("unknown")),
    )

    assert reduced(Contest(tasks, supply)) == Contest((c, d, task("e")), supply)


def test_stock_that_just_suffices_for_all_is_ample_and_one_less_is_not() -> None:
    two = (task("a", of("p", 2)), task("b", of("p", 2)))

    assert reduced(Contest(two, {"p": 4})).tasks == (task("a"), task("b"))
    assert reduced(Contest(two, {"p": 3})).tasks == two


def test_of_alternates_on_one_stock_the_most_that_may_be_taken_counts() -> None:
    either = Task(code="a", claims=((of("p", 3), of("p", 2)),))
    other = task("b", of("p"))

    assert reduced(Contest((either, other), {"p": 4})).tasks == (Task(code="a"), task("b"))
    assert reduced(Contest((either, other), {"p": 3})).tasks == (either, other)


def test_what_a_step_makes_can_be_claimed_but_is_never_ample_before() -> None:
    makes, takes = task("a", of("p"), makes=("frame",)), task("b", of("frame"))
    rival = task("c", of("p"))

    assert reduced(Contest((makes, takes, rival), {"p": 1})).tasks == (makes, takes, rival)
    two = task("d", of("frame", 2))
    assert reduced(Contest((makes, two, rival), {"p": 1})).tasks == (makes, rival)


def test_the_last_task_counts_in_part_where_stock_ends() -> None:
    # 4 there: a takes 2 for a worth of 3, b half of its 4 for half of 4.
    tasks = (task("a", of("p", 2), worth=3), task("b", of("p", 4), worth=4))

    assert at_most(Contest(tasks, {"p": 4})) == 3 + 2
    assert at_most(Contest((task("a", of("none")),), {})) == 0


def test_who_comes_first_takes_and_what_is_made_is_there_for_the_next() -> None:
    makes, takes = task("a", makes=("frame",)), task("b", of("frame"))
    later = task("c", of("frame"))

    assert finished_first_come(Contest((makes, takes, later), {}), (makes, takes, later)) == [
        makes,
        takes,
    ]
    assert finished_first_come(Contest((makes, takes), {}), (takes, makes)) == [makes]


def test_two_claims_of_one_task_share_the_stock() -> None:
    twice = task("a", of("p", 2), of("p", 2))
    long_or_short = Task(code="b", claims=((Claim(5, (Source("p"), Source("p", 2))),),))
    cuts = task("c", of("bar", 3, each=3))

    assert finished_first_come(Contest((twice,), {"p": 3}), (twice,)) == []
    assert finished_first_come(Contest((twice,), {"p": 4}), (twice,)) == [twice]
    assert finished_first_come(Contest((long_or_short,), {"p": 4}), (long_or_short,)) == []
    assert finished_first_come(Contest((cuts,), {"bar": 8}), (cuts,)) == []
    assert finished_first_come(Contest((cuts,), {"bar": 9}), (cuts,)) == [cuts]


def test_tasks_are_tried_by_the_part_they_take_of_what_is_there() -> None:
    both = Claim(1, (Source("p"), Source("q")))
    supply: dict[Hashable, int] = {"p": 8, "q": 3, "r": 1, "s": 4}
    tasks = (
        task("a", of("p", 2)),  # 2 of 8
        task("b", of("q", 1)),  # 1 of 3
        task("c", both),  # 1 of 11
        task("d", of("r", 1)),  # 1 of 1
        task("e", Claim(3, (Source("x"), Source("y")))),  # 3 of none
        task("f", of("r", 2)),  # 2 of 1
        task("g", of("s", 3)),  # 3 of 4
    )
    order = scarcest_last(Contest(tasks, supply))

    assert "".join(each.code for each in order) == "cabgdfe"


stocks = st.sampled_from("pq")
claims = st.builds(
    Claim,
    st.integers(1, 2),
    st.lists(st.builds(Source, stocks, st.integers(1, 2)), min_size=1, max_size=2).map(tuple),
)
tasks_of_four = st.lists(
    st.tuples(
        st.lists(st.lists(claims, min_size=1, max_size=2).map(tuple), max_size=2).map(tuple),
        st.integers(1, 3),
        st.booleans(),
        st.booleans(),
    ),
    min_size=1,
    max_size=4,
).map(
    lambda rows: tuple(
        Task(
            code=str(number),
            claims=groups,
            worth=worth,
            after=(str(number - 1),) if after and number else (),
            makes=("q",) if makes else (),
        )
        for number, (groups, worth, after, makes) in enumerate(rows)
    )
)
supplies: st.SearchStrategy[dict[Hashable, int]] = st.dictionaries(stocks, st.integers(0, 4))


def fits(groups: Sequence[tuple[Claim, ...]], left: Mapping[Hashable, int]) -> bool:
    """Say whether every group can be met, by trying all ways to take the pieces."""
    if not groups:
        return True
    return any(fits(groups[1:], rest) for claim in groups[0] for rest in ways(claim, Counter(left)))


def ways(claim: Claim, left: Counter[Hashable]) -> list[Counter[Hashable]]:
    """Return what may be left after a claim, each once."""
    found = [left]
    for _ in range(claim.quantity):
        found = [
            rest - Counter({source.stock: source.each})
            for rest in found
            for source in claim.sources
            if rest[source.stock] >= source.each
        ]
        found = [one for number, one in enumerate(found) if one not in found[:number]]
    return found


def most_worth(contest: Contest) -> int:
    """Return the worth of the best set, by trying every set that holds what comes before."""
    codes = {each.code for each in contest.tasks}
    best = 0
    for size in range(1, len(contest.tasks) + 1):
        for chosen in combinations(contest.tasks, size):
            names = {each.code for each in chosen}
            if all(names.issuperset(codes.intersection(each.after)) for each in chosen):
                there = Counter(contest.supply)
                there.update(stock for each in chosen for stock in each.makes)
                groups = [group for each in chosen for group in each.claims]
                if fits(groups, there):
                    best = max(best, sum(each.worth for each in chosen))
    return best


@settings(deadline=None, max_examples=80)
@given(tasks_of_four, supplies)
def test_the_best_set_is_as_good_after_what_does_not_matter_is_gone(
    tasks: tuple[Task, ...], supply: dict[Hashable, int]
) -> None:
    contest = Contest(tasks, supply)
    best = most_worth(contest)
    found = best_set(contest, (), 5)
    first = finished_first_come(contest, scarcest_last(contest))

    assert most_worth(reduced(contest)) == best
    assert found is not None
    assert (sum(each.worth for each in found.tasks), found.at_most) == (best, best)
    assert sum(each.worth for each in first) <= best <= at_most(contest)
