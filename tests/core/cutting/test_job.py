from __future__ import annotations

import tomllib
from fractions import Fraction
from itertools import product
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from inventory.core.cutting import plan as planning
from inventory.core.cutting.job import (
    CutJob,
    CutPiece,
    CutStick,
    CutStock,
    Owned,
    check_cut_job,
)
from inventory.core.cutting.plan import cut_plan
from inventory.core.errors import ProblemsError
from inventory.core.measures.lengths import show_length
from inventory.core.planning.workshop import Saw
from tests.core.cut_check import faults

CASES = tomllib.loads((Path(__file__).parents[2] / "cases" / "cutting.toml").read_text("utf-8"))
INCH, MM = 25_400_000, 1_000_000


def nanometres(text: str, unit: int) -> int:
    length = Fraction(text) * unit
    assert length.denominator == 1
    return int(length)


def job_of(case: dict[str, Any]) -> CutJob:
    unit = MM if case.get("unit") == "mm" else INCH
    pieces = (text.split(" x ") for text in case["pieces"])
    return CutJob(
        pieces=tuple(CutPiece(nanometres(size, unit), int(count)) for size, count in pieces),
        stock=tuple(
            CutStock(
                length=nanometres(row["length"], unit),
                quantity=row.get("owned", row.get("there")),
                owned=Owned.REMNANT if "owned" in row else Owned.TO_BUY,
                price=row.get("price"),
            )
            for row in case["stock"]
        ),
        saw=Saw(nanometres(case["kerf"], unit), nanometres(case.get("trim", "0"), unit)),
    )


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: str(case["name"]))
def test_the_least_is_bought_and_proved(case: dict[str, Any]) -> None:
    job = job_of(case)
    plan = cut_plan(job)
    unit = 1 if job.by_price else (MM if case.get("unit") == "mm" else INCH)

    assert faults(job, plan) == []
    assert (plan.cost, plan.bound) == (case["least"] * unit, case["least"] * unit), case["why"]
    assert plan.proved


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: str(case["name"]))
def test_without_the_solver_a_plan_comes_all_the_same(
    case: dict[str, Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(planning, "solver_there", lambda: False)
    job = job_of(case)
    plan = cut_plan(job)

    assert faults(job, plan) == []
    assert plan.proved == (plan.cost == plan.bound)


# Stock, pieces, kerf, trims, whether they fit, and the remnant: hardware practice, worked by hand
# (an article on cutting from 8 ft tells the first).
@pytest.mark.parametrize(
    ("stock", "size", "count", "kerf", "trim", "remnant"),
    [
        ("96", "24", 4, "1/8", "0", None),
        ("96", "24", 3, "1/8", "0", "189/8"),
        ("96", "239/10", 4, "1/8", "0", "0"),
        ("72", "12", 5, "1/16", "1/2", "179/16"),
        ("72", "6", 11, "1/16", "1/2", "77/16"),
        ("144", "359/10", 4, "3/32", "0", "1/40"),
        ("48", "4799/100", 1, "1/8", "0", "0"),
    ],
)
def test_a_stick_gives_its_pieces_and_a_remnant(  # noqa: PLR0917
    stock: str, size: str, count: int, kerf: str, trim: str, remnant: str | None
) -> None:
    job = CutJob(
        pieces=(CutPiece(nanometres(size, INCH), count),),
        stock=(CutStock(length=nanometres(stock, INCH), quantity=1, owned=Owned.BAR),),
        saw=Saw(nanometres(kerf, INCH), nanometres(trim, INCH)),
    )
    plan = cut_plan(job)

    assert faults(job, plan) == []
    if remnant is None:
        assert sum(piece.quantity for piece in plan.uncut) == 1
    else:
        assert [stick.remnant for stick in plan.sticks] == [nanometres(remnant, INCH)]


def test_pieces_for_which_nothing_suffices_stay_uncut_as_few_as_possible_and_the_last() -> None:
    job = CutJob(
        pieces=(CutPiece(40 * MM, 2, "11-01"), CutPiece(40 * MM, 2, "11-02"), CutPiece(90 * MM, 1)),
        stock=(CutStock(length=100 * MM, quantity=1, owned=Owned.BAR),),
        saw=Saw(0, 0),
    )
    plan = cut_plan(job)

    assert faults(job, plan) == []
    assert sorted(piece.name for stick in plan.sticks for piece in stick.pieces) == ["11-01"] * 2
    assert (len(plan.uncut), plan.uncut_bound, plan.proved) == (3, 3, True)


def test_remnants_come_before_bars_that_lie_there() -> None:
    job = CutJob(
        pieces=(CutPiece(20 * MM, 1),),
        stock=(
            CutStock(length=30 * MM, quantity=1, owned=Owned.BAR),
            CutStock(length=50 * MM, quantity=1, owned=Owned.REMNANT),
        ),
        saw=Saw(0, 0),
    )

    assert [stick.stock.owned for stick in cut_plan(job).sticks] == [Owned.REMNANT]


def test_of_plans_that_cost_the_same_one_leaves_a_long_rest() -> None:
    job = CutJob(
        pieces=(CutPiece(50 * MM, 1), CutPiece(30 * MM, 2)),
        stock=(CutStock(length=100 * MM),),
        saw=Saw(0, 0),
    )
    plan = cut_plan(job)

    assert plan.cost == 200 * MM
    assert max(stick.remnant for stick in plan.sticks) == 70 * MM


def test_nothing_wanted_is_no_plan() -> None:
    assert cut_plan(CutJob(pieces=(), stock=(CutStock(length=100),))).sticks == ()


def test_an_untouched_stick_is_all_remnant() -> None:
    assert CutStick(CutStock(length=100), (), Saw()).remnant == 100


ASK = "Ask for 1 piece or more of some length"


@pytest.mark.parametrize(
    ("piece", "stock", "saw", "said"),
    [
        (
            (100, 1), 96, (0, 0),
            ("no stick gives a piece of 100 mm: the longest is 96 mm, less 0 in for the ends",
             "11-01 / 4", "Name a longer stick"),
        ),
        (
            (95, 1), 96, (1, 2),
            ("no stick gives a piece of 95 mm: the longest is 96 mm, less 2 mm for the ends",
             "11-01 / 4", "Name a longer stick"),
        ),
        (
            (5, 1), 96, (5, 0),
            ("the kerf of 5 mm is as wide as the piece of 5 mm is long", "11-01 / 4",
             "Give the kerf of your own saw"),
        ),
        ((0, 1), 96, (1, 0), ("1 pieces of 0 in", "11-01 / 4", ASK)),
        ((5, 0), 96, (1, 0), ("0 pieces of 5 mm", "11-01 / 4", ASK)),
        ((5, -1), 96, (1, 0), ("-1 pieces of 5 mm", "11-01 / 4", ASK)),
        ((5, 1), 96, (-1, 0), ("kerf and trim are negative", "saw", "Give 0 or more")),
        ((5, 1), 96, (0, -1), ("kerf and trim are negative", "saw", "Give 0 or more")),
    ],
)  # fmt: skip
def test_what_can_not_be_cut_is_named(
    piece: tuple[int, int], stock: int, saw: tuple[int, int], said: tuple[str, str, str]
) -> None:
    length, count = piece
    job = CutJob(
        pieces=(CutPiece(length * MM, count, "11-01 / 4"),),
        stock=(CutStock(length=stock * MM),),
        saw=Saw(*(each * MM for each in saw)),
    )
    with pytest.raises(ProblemsError) as refused:
        cut_plan(job)

    assert refused.value.what == "this can't be cut"
    assert [(one.what, one.where, one.remedy) for one in refused.value.problems] == [said]


def test_the_longest_piece_that_a_stick_gives_is_no_problem() -> None:
    # 96 less 2 for the ends: a piece of 94 is left when the ends are trimmed, without a cut more.
    fits = CutJob(
        pieces=(CutPiece(94, 1),), stock=(CutStock(length=96), CutStock(length=50)), saw=Saw(1, 2)
    )
    assert check_cut_job(fits) == []


def test_stock_that_is_not_counted_or_not_there_is_named() -> None:
    uncounted = CutJob(
        pieces=(),
        stock=(
            CutStock(length=96, owned=Owned.BAR, name="RACK-1"),
            CutStock(length=INCH, owned=Owned.REMNANT),
        ),
    )
    none = CutJob(pieces=(CutPiece(5, 1),), stock=(), saw=Saw(1, 0))

    words = "how many of these lie there isn't said"
    assert [(one.what, one.where, one.remedy) for one in check_cut_job(uncounted)] == [
        (words, "RACK-1", "Count them"),
        (words, "1 in", "Count them"),
    ]
    assert [(one.what, one.where, one.remedy) for one in check_cut_job(none)] == [
        ("there is nothing to cut from", "stock", "Name a stick, or a length sold")
    ]


sizes = st.integers(2, 9)


def bought_at_least(pieces: list[int], owned: list[int], sold: dict[int, int]) -> int:
    """Return the least cost by trying every way to spread the pieces; kerf 1."""
    sticks = [*((length, 0) for length in owned), *(item for item in sold.items() for _ in pieces)]
    costs = []
    for at in product(range(len(sticks)), repeat=len(pieces)):
        used = [0] * len(sticks)
        for piece, stick in zip(pieces, at, strict=True):
            used[stick] += piece + 1
        if all(room <= length + 1 for room, (length, _) in zip(used, sticks, strict=True)):
            costs.append(sum(cost for room, (_, cost) in zip(used, sticks, strict=True) if room))
    return min(costs)


@settings(max_examples=25, deadline=None)
@given(
    st.lists(sizes, min_size=1, max_size=4),
    st.lists(st.integers(3, 12), max_size=1),
    st.dictionaries(st.integers(9, 16), st.integers(1, 9), min_size=1, max_size=1),
)
def test_small_jobs_cost_what_trying_all_ways_gives(
    pieces: list[int], owned: list[int], sold: dict[int, int]
) -> None:
    job = CutJob(
        pieces=tuple(CutPiece(piece, 1) for piece in pieces),
        stock=(
            *(CutStock(length=length, quantity=1, owned=Owned.REMNANT) for length in owned),
            *(CutStock(length=length, price=price) for length, price in sold.items()),
        ),
        saw=Saw(1, 0),
    )
    plan = cut_plan(job)

    assert faults(job, plan) == []
    assert plan.cost == bought_at_least(pieces, owned, sold)
    assert plan.proved


def test_what_is_wrong_with_a_stick_or_a_piece_names_it() -> None:
    stock = (
        CutStock(length=0, name="RACK-1"),
        CutStock(length=INCH, quantity=-1),
        CutStock(length=INCH, price=-5),
    )
    job = CutJob(pieces=(CutPiece(0, 1, "11-01 / 4"), CutPiece(5, 0)), stock=stock, saw=Saw(1, 0))
    found = check_cut_job(job)
    assert [problem.where for problem in found[:3]] == ["11-01 / 4", show_length(5), "RACK-1"]
    assert found[0].what == f"1 pieces of {show_length(0)}"
    assert {problem.remedy for problem in found[2:5]} == {"Give a length, and a price of 0 or more"}
    assert [problem.where for problem in found[3:5]] == ["1 in", "1 in"]
    assert [problem.what for problem in found[2:5]] == [
        "a stick of 0 in",
        "a stick of 1 in, -1 of them",
        "a stick of 1 in, price -5 millionths",
    ]


def test_a_stick_of_which_none_is_left_is_no_problem() -> None:
    stock = (CutStock(length=96, quantity=0), CutStock(length=96))
    assert check_cut_job(CutJob(pieces=(CutPiece(5, 1),), stock=stock, saw=Saw(1, 0))) == []
