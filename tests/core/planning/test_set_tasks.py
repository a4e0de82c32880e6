from __future__ import annotations

from dataclasses import replace
from math import inf

import pytest

from inventory.core.planning.set_program import best_set, relaxed_set
from inventory.core.planning.set_tasks import (
    Claim,
    Contest,
    Source,
    Task,
    at_most,
    finished_first_come,
    scarcest_last,
)
from inventory.core.solver import Solved


def test_a_made_stock_grows_only_with_the_task_that_makes_it() -> None:
    claim = ((Claim(1, (Source("frame"), Source("spare frame"))),),)
    tasks = (
        Task(code="a", makes=("frame", "flap"), claims=((Claim(1, (Source("p"),)),),)),
        Task(code="b", claims=claim),
        Task(code="c", claims=claim),
        Task(code="d", after=("gone",), worth=3, claims=((Claim(1, (Source("p"),)),),)),
    )
    best = best_set(Contest(tasks, {"p": 1, "spare frame": 1}), (), 5)
    without_d = best_set(Contest(tasks, {"p": 1, "spare frame": 1}), (frozenset("d"),), 5)

    assert best is not None
    assert ("".join(task.code for task in best.tasks)[-1], best.at_most) == ("d", 4)
    assert without_d is not None
    assert [task.code for task in without_d.tasks] == ["a", "b", "c"]


def test_of_alternates_one_is_met_wholly() -> None:
    either = (Claim(2, (Source("p"),)), Claim(2, (Source("q"),)))
    tasks = (
        Task(code="a", worth=2, claims=(either,)),
        Task(code="b", claims=((Claim(1, (Source("p"),)),),)),
        Task(code="c", claims=((Claim(1, (Source("q"),)),), (Claim(1, (Source("p"),)),))),
    )
    best = best_set(Contest(tasks, {"p": 2, "q": 2}), (), 5)

    assert best is not None
    assert ([task.code for task in best.tasks], best.at_most) == (["a", "b"], 3)


def test_tasks_are_tried_with_what_is_scarce_last_but_never_before_their_predecessors() -> None:
    wants = {
        code: ((Claim(count, (Source("p"),)),),)
        for code, count in zip("abc", (5, 2, 1), strict=True)
    }
    tasks = (
        Task(code="a", claims=wants["a"]),
        Task(code="b", claims=wants["b"]),
        Task(code="c", after=("a", "b"), claims=wants["c"]),
        Task(code="d", after=("b",)),
    )
    contest = Contest(tasks, {"p": 6})

    assert [task.code for task in scarcest_last(contest)] == ["b", "d", "a", "c"]
    assert [task.code for task in finished_first_come(contest, tasks)] == ["a"]
    assert [task.code for task in finished_first_come(contest, scarcest_last(contest))] == [
        "b",
        "d",
    ]


def test_the_scarcest_stock_limits_every_set() -> None:
    def eats(stock: str, quantity: int) -> tuple[tuple[Claim, ...], ...]:
        return ((Claim(quantity, (Source(stock),)),),)

    tasks = (
        Task(code="a", claims=eats("p", 3)),
        Task(code="b", claims=eats("p", 2)),
        Task(code="c", claims=eats("p", 2), makes=("p",)),
        Task(code="d", worth=6, claims=eats("p", 4)),
        Task(code="e", claims=((Claim(9, (Source("p"), Source("q"))),),)),
        Task(code="f"),
    )

    # Of 5 (4 and the one that c makes): d whole (6), then one of two for b or c: half of 1.
    assert at_most(Contest(tasks, {"p": 4})) == 6 + 0 + 2
    assert at_most(Contest(tasks, {"p": 20})) == 11
    assert at_most(Contest((), {})) == 0


def test_a_task_is_done_wholly_or_not_at_all() -> None:
    # Each two of three share a part of which there is one: in halves, one and a half could be done.
    def one_of(*parts: str) -> tuple[tuple[Claim, ...], ...]:
        return tuple((Claim(1, (Source(part),)),) for part in parts)

    tasks = tuple(
        Task(code=code, worth=2, claims=one_of(*parts))
        for code, parts in (("a", "pq"), ("b", "qr"), ("c", "rp"))
    )
    contest = Contest(tasks, {"p": 1, "q": 1, "r": 1})
    best, relaxed = best_set(contest, (), 5), relaxed_set(contest, 5)

    assert best is not None
    assert (len(best.tasks), best.at_most) == (1, 2)
    assert relaxed is not None
    assert relaxed.at_most == 3


def test_no_set_at_all_is_none() -> None:
    forbidden: tuple[frozenset[str], ...] = (frozenset(), frozenset("a"))

    assert best_set(Contest((Task(code="a"),), {}), forbidden, 5) is None


def test_a_relaxed_program_that_runs_out_of_time_says_nothing(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    late = Solved((), inf, -inf, proved=False, seconds=1.0)
    monkeypatch.setattr("inventory.core.planning.set_program.least", lambda *_: late)
    contest = Contest((Task(code="a", claims=((Claim(1, (Source("p"),)),),)),), {"p": 1})

    assert relaxed_set(contest, 1) is None


def test_done_in_part_the_last_task_counts_in_part_and_the_bound_is_whole() -> None:
    # 4 there: a takes 2 for 3, b half of its 4 for half of 4. 3 there: a quarter of b.
    tasks = (
        Task(code="a", worth=3, claims=((Claim(2, (Source("p"),)),),)),
        Task(code="b", worth=4, claims=((Claim(4, (Source("p"),)),),)),
    )
    half, less = (relaxed_set(Contest(tasks, {"p": there}), 5) for there in (4, 3))
    uneven = relaxed_set(Contest((tasks[0], replace(tasks[1], worth=3)), {"p": 3}), 5)

    assert half is not None
    assert half.shares == pytest.approx({"a": 1.0, "b": 0.5})
    assert half.at_most == 5
    assert less is not None
    assert less.shares == pytest.approx({"a": 1.0, "b": 0.25})
    assert less.at_most == 4
    assert uneven is not None
    assert uneven.at_most == 3  # 3 and three quarters
    assert uneven.seconds >= 0
