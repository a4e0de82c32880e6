from __future__ import annotations

import tomllib
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.planning.critical_path import Activity, critical_path, timings

CASES = tomllib.loads(
    (Path(__file__).parents[2] / "cases" / "critical_path.toml").read_text("utf-8")
)["network"]


def activities_of(case: dict[str, Any]) -> list[Activity]:
    """Return activities with the expected time (least + 4 x likely + most) / 6."""
    return [
        Activity(
            code,
            Fraction(row[0] + 4 * row[1] + row[2], 6),
            tuple(row[3].split()) if len(row) > 3 else (),
        )
        for code, row in case["activities"].items()
    ]


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case["name"]))
def test_published_networks_come_out_as_printed(case: dict[str, Any]) -> None:
    times = timings(activities_of(case))

    finish = {code: round(float(times[code].finish), 2) for code in case["early_finish"]}
    assert finish == case["early_finish"]
    assert round(float(max(each.finish for each in times.values())), 2) == case["end"]
    slack = {code: float(times[code].slack) for code in case.get("slack", {})}
    assert slack == case.get("slack", {})
    assert critical_path(times) == case["critical"].split()


def test_a_start_may_be_bound_by_a_day_rather_than_by_a_step() -> None:
    times = timings(
        [
            Activity("a", Fraction(2)),
            Activity("b", Fraction(1), ("a", "done before"), not_before=Fraction(5)),
            Activity("c", Fraction(1), ("b",), not_before=Fraction(3)),
        ]
    )

    assert [(int(times[code].start), times[code].binding) for code in "abc"] == [
        (0, ""),
        (5, ""),
        (6, "b"),
    ]
    assert (int(times["a"].slack), times["a"].critical, times["b"].critical) == (3, False, True)


def test_a_step_that_ends_on_the_very_day_still_decides_the_start() -> None:
    times = timings(
        [
            Activity("a", Fraction(5)),
            Activity("b", Fraction(1), ("a",), not_before=Fraction(5)),
        ]
    )

    assert (int(times["b"].start), times["b"].binding) == (5, "a")
    assert critical_path(times) == ["a", "b"]


def test_nothing_to_do_takes_no_time() -> None:
    assert critical_path(timings([])) == []


spans = st.lists(
    st.tuples(st.integers(0, 5), st.lists(st.integers(1, 4), max_size=2)), min_size=1, max_size=8
)


@given(spans)
def test_no_path_is_longer_than_the_end_and_a_delay_within_the_slack_moves_nothing(
    rows: list[tuple[int, list[int]]],
) -> None:
    activities = [
        Activity(
            str(place),
            Fraction(days),
            tuple(str(place - back) for back in backs if back <= place),
        )
        for place, (days, backs) in enumerate(rows)
    ]
    times = timings(activities)
    end = max(each.finish for each in times.values())
    late = [
        Activity(each.code, each.duration + times[each.code].slack * (number == 0), each.after)
        for number, each in enumerate(activities)
    ]

    assert max(each.finish for each in timings(late).values()) == end
    assert (
        sum(activity.duration for activity in activities if activity.code in critical_path(times))
        == end
    )
