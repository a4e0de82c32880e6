from __future__ import annotations

import pytest

from tests.benchmarks.measure import Result, Spent, line, pair_of, plain, ratio, together


def spent(*seconds: float) -> list[Spent]:
    return [Spent(each, each) for each in seconds]


@pytest.mark.parametrize(
    ("figure", "spread", "verdict"),
    [(2.0, 1.1, "met"), (2.5, 1.1, "missed"), (9.1, 1.1, "ALARM"), (2.0, 2.1, "void")],
)
def test_a_figure_is_judged_unless_its_floor_wandered(
    figure: float, spread: float, verdict: str
) -> None:
    result = Result(what="a job", figure=figure, goal=2.0, alarm=9.0, spread=spread)
    assert result.verdict == verdict
    assert verdict in line(plain(result))


def test_medians_are_compared_by_processor_time() -> None:
    floors = [Spent(1.0, 50.0), Spent(3.0, 1.0), Spent(2.0, 1.0)]
    pair = pair_of(floors, spent(6.0, 4.0, 90.0))
    assert (pair.ratio, pair.spread) == (3.0, 3.0)
    assert ratio("a job", pair, 1.0, 2.0).verdict == "void"


def test_ways_are_measured_in_turns_and_warm_rounds_do_not_count() -> None:
    order: list[str] = []

    def way(name: str, seconds: list[float]) -> Spent:
        order.append(name)
        return Spent(seconds.pop(0), 0)

    floor, ours = [100.0, 1.0, 2.0], [100.0, 3.0, 4.0]
    rows = together([lambda: way("floor", floor), lambda: way("ours", ours)], rounds=2, warm=1)
    assert order == ["floor", "ours"] * 3
    assert [[each.cpu for each in row] for row in rows] == [[1.0, 2.0], [3.0, 4.0]]
