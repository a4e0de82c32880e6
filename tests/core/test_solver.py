"""Small programs whose optimum is known by hand."""

from __future__ import annotations

from math import inf

import pytest

from inventory.core.solver import Between, Column, GrowingProgram, least, solver_there


def test_the_solver_is_there() -> None:
    assert solver_there()


def test_a_linear_program_is_solved_to_its_optimum() -> None:
    """Bars at 2 and 3 a piece, at least 10 together and at most 6 of the cheaper: 6 and 4."""
    columns = [Column(cost=2, high=6, factors={0: 1}), Column(cost=3, factors={0: 1})]
    solved = least(columns, [Between(low=10)], seconds=5)
    assert solved.values == pytest.approx((6, 4))
    assert solved.cost == pytest.approx(24)
    assert solved.bound == pytest.approx(24)
    assert solved.proved


def test_whole_numbers_are_whole_and_cost_more() -> None:
    """Pieces that give 3 each, 10 wanted: 10/3 of them, or 4 whole ones."""
    rows = [Between(low=10)]
    parts = least([Column(cost=1, factors={0: 3})], rows, seconds=5)
    assert parts.values == pytest.approx((10 / 3,))
    whole = least([Column(cost=1, whole=True, factors={0: 3})], rows, seconds=5)
    assert whole.values == pytest.approx((4,))
    assert whole.cost == pytest.approx(4)
    assert whole.bound == pytest.approx(4)
    assert whole.proved


def test_bounds_of_columns_and_rows_hold_on_both_sides() -> None:
    """Worth is a cost below 0: as much as the row's upper bound allows, at least the lower."""
    column = Column(cost=-1, low=2, high=9, factors={0: 2})
    assert least([column], [Between(high=10)], seconds=5).values == pytest.approx((5,))
    assert least([column], [Between()], seconds=5).values == pytest.approx((9,))
    dear = Column(cost=1, low=2, high=9, factors={0: 2})
    assert least([dear], [Between(low=1)], seconds=5).values == pytest.approx((2,))


def test_what_can_not_be_is_said_and_has_no_values() -> None:
    solved = least([Column(cost=1, high=1, factors={0: 1})], [Between(low=2)], seconds=5)
    assert (solved.values, solved.cost, solved.proved) == ((), inf, False)


def test_nothing_is_proved_without_time() -> None:
    """A knapsack of many sizes: nothing can be proved in no time at all."""
    sizes = [1000 + 37 * n % 101 for n in range(60)]
    columns = [Column(cost=-size, high=1, whole=True, factors={0: size}) for size in sizes]
    solved = least(columns, [Between(high=sum(sizes) / 2 + 0.5)], seconds=0)
    assert not solved.proved


def test_the_solver_prints_nothing(capfd: pytest.CaptureFixture[str]) -> None:
    """What the program answers on stdout may be read by another program."""
    least([Column(cost=1, whole=True, factors={0: 3})], [Between(low=10)], seconds=5)
    GrowingProgram([Between(low=1)]).solve()
    assert capfd.readouterr() == ("", "")


def test_a_program_grows_and_tells_what_its_limits_cost() -> None:
    """A row of at least 6: pieces of 2 cost 1 each, so one more costs a half; of 3, a third."""
    program = GrowingProgram([Between(low=6)])
    program.add(Column(cost=1, factors={0: 2}))
    values, costs = program.solve()
    assert values == pytest.approx((3,))
    assert costs == pytest.approx((0.5,))
    program.add(Column(cost=1, factors={0: 3}))
    values, costs = program.solve()
    assert values == pytest.approx((0, 2))
    assert costs == pytest.approx((1 / 3,))
