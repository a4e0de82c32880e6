from __future__ import annotations

import tomllib
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from inventory.core.planning.explosion import (
    Component,
    Holding,
    LotRule,
    Structure,
    explode,
    low_level_codes,
    total_below,
)

CASES = tomllib.loads(
    (Path(__file__).parents[2] / "cases" / "requirements.toml").read_text("utf-8")
)["example"]
LOTS = {"min": LotRule.AT_LEAST, "multiple": LotRule.MULTIPLE}


def by_period(row: dict[str, int]) -> dict[int, int]:
    return {int(period): quantity for period, quantity in row.items()}


def structure_of(case: dict[str, Any]) -> Structure:
    return {
        part: tuple(Component(*component) for component in components)
        for part, components in case["structure"].items()
    }


def holding_of(row: dict[str, Any]) -> Holding:
    rule, lot = row.get("lot", ["", 1])
    return Holding(
        on_hand=row["on_hand"],
        receipts=by_period(row.get("receipts", {})),
        lead_time=row["lead_time"],
        lot_rule=LOTS.get(rule, LotRule.AS_NEEDED),
        lot=lot,
    )


@pytest.mark.parametrize("case", CASES, ids=lambda case: str(case["name"]))
def test_worked_examples_of_gross_to_net_come_out(case: dict[str, Any]) -> None:
    found = explode(
        structure_of(case),
        {part: holding_of(row) for part, row in case["holding"].items()},
        {part: by_period(row) for part, row in case["demand"].items()},
        case["periods"],
    )

    assert set(found) == set(case["expected"])
    for part, row in case["expected"].items():
        said = found[part]
        assert (
            said.low_level_code,
            said.gross,
            said.net,
            said.orders_in,
            said.orders_out,
            list(said.on_hand),
        ) == (
            row["low_level_code"],
            by_period(row["gross"]),
            by_period(row["net"]),
            by_period(row["receipts"]),
            by_period(row["releases"]),
            row["on_hand"],
        ), f"{part}: {case['source']}"


def test_one_assembly_holds_so_many_of_each_part_on_all_levels() -> None:
    (case,) = (case for case in CASES if "total" in case)

    assert total_below(structure_of(case), "A") == case["total"]


def test_an_order_that_is_too_late_keeps_its_past_period_and_wants_its_parts_at_once() -> None:
    found = explode(
        {"A": (Component("B", 2),)},
        {"A": Holding(lead_time=3), "B": Holding(lead_time=1)},
        {"A": {2: 5}},
        4,
    )

    assert found["A"].orders_out == {-1: 5}
    assert found["B"].gross == {1: 10}
    assert found["B"].orders_out == {0: 10}


@pytest.mark.parametrize(
    ("structure", "circle"),
    [
        ({"A": "B", "B": "C", "C": "B"}, "B -> C -> B"),
        ({"A": "B", "B": "AX", "X": "Y"}, "A -> B -> A"),
        ({"B": "B"}, "B -> B"),
    ],
)
def test_an_assembly_that_is_part_of_itself_is_named(
    structure: dict[str, str], circle: str
) -> None:
    made = {part: tuple(Component(each, 1) for each in of) for part, of in structure.items()}
    with pytest.raises(ValueError, match=f"^an assembly is part of itself: {circle}$"):
        low_level_codes(made)


def test_parts_stand_in_the_order_in_which_they_are_netted() -> None:
    found = explode(
        {"C": (Component("A", 1),), "B": (Component("C", 1), Component("A", 1))},
        {"Z": Holding(on_hand=1)},
        {"B": {1: 1}},
        1,
    )

    assert [(part, each.low_level_code) for part, each in found.items()] == [
        ("B", 0), ("Z", 0), ("C", 1), ("A", 2),
    ]  # fmt: skip


structures = st.lists(
    st.lists(st.tuples(st.integers(1, 4), st.integers(1, 3)), max_size=3), min_size=1, max_size=6
)


def paths(structure: Structure, top: str, part: str) -> int:
    """Return how many of a part are in one piece, by adding up every way down to it."""
    return sum(
        component.quantity * (int(component.part == part) + paths(structure, component.part, part))
        for component in structure.get(top, ())
    )


@given(structures)
def test_what_is_below_is_the_sum_over_all_ways_down(
    rows: list[list[tuple[int, int]]],
) -> None:
    structure = {
        str(place): tuple(Component(str(place + down), quantity) for down, quantity in row)
        for place, row in enumerate(rows)
    }
    found = explode(structure, {}, {"0": {1: 1}}, 1)
    total = total_below(structure, "0")

    assert total == {part: paths(structure, "0", part) for part in total}
    assert {
        part: sum(each.gross.values()) for part, each in found.items() if part in total
    } == total
    codes = low_level_codes(structure)
    assert all(
        codes[component.part] > codes[part]
        for part, components in structure.items()
        for component in components
    )
