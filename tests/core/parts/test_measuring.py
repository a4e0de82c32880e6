from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING, Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import chi2

from inventory.core.errors import InventoryError
from inventory.core.items import Hand
from inventory.core.measures.lengths import INCH
from inventory.core.parts.measuring import (
    GAUGES,
    Dimension,
    Measured,
    SizedPart,
    chi_squared_tail,
    near_gauges,
    rank,
)
from inventory.core.parts.measuring_questions import questions

if TYPE_CHECKING:
    from collections.abc import Mapping

CASES = tomllib.loads(Path(__file__).parents[2].joinpath("cases/measuring.toml").read_text())
THICKNESS, WIDTH, LENGTH = Dimension.THICKNESS, Dimension.WIDTH, Dimension.LENGTH
HANDS = {"bracket-L": Hand.LEFT, "bracket-R": Hand.RIGHT}


def nm(inches: Mapping[str, float]) -> dict[Dimension, int]:
    return {Dimension(name): round(size * INCH) for name, size in inches.items()}


def part(row: Mapping[str, Any]) -> SizedPart:
    return SizedPart(
        part=row["part"],
        hand=HANDS.get(row["part"], Hand.NONE),
        pieces_open=row["pieces_open"],
        sizes=nm({name: row[name] for name in ("length", "width", "thickness")}),
        holes=row["holes"],
        tolerance=nm({"length": 0.06, "width": 0.03, "thickness": 0.003}),
    )


PARTS = [part(row) for row in CASES["part"]]


def measured(inches: Mapping[str, float], holes: int | None = None) -> Measured:
    return Measured(sizes=nm(inches), holes=holes)


@pytest.mark.parametrize("case", CASES["case"], ids=lambda case: case["name"])
def test_ranking_worked_out_elsewhere(case: dict[str, Any]) -> None:
    found = rank(measured(case["measured"], case["holes"]), PARTS).candidates
    expected = {row["part"]: row for row in case["ranking"]}
    assert [one.part for one in found if one.share > 0.001] == [
        row["part"] for row in case["ranking"] if row["share"] > 0.001
    ]
    for one in found:
        row = expected[one.part]
        assert one.share == pytest.approx(row["share"], abs=6e-5)
        assert one.gate == pytest.approx(row["gate"], abs=6e-5)
        sigmas = {str(each.dimension): each.sigmas for each in one.deviations}
        assert sigmas == pytest.approx(row["sigmas"], abs=0.006)


def test_deviation_is_shown_in_multiples_of_the_tolerance() -> None:
    (one,) = rank(measured({"length": 12.53}), PARTS[:1]).candidates
    (deviation,) = one.deviations
    assert deviation.off == round(0.03 * INCH)
    assert deviation.of_tolerance == pytest.approx(0.5)


def test_mirror_parts_tie_and_the_hand_is_asked() -> None:
    ranking = rank(measured({"length": 2.01, "width": 1.49, "thickness": 0.0635}, 5), PARTS)
    left, right = ranking.candidates[:2]
    assert left.share == right.share == 0.5
    asked = questions(measured({"length": 2.01}), ranking)
    assert asked == [
        "which hand is it, LEFT or RIGHT? No measure tells: hold it against the drawing"
    ]


def test_sheet_between_two_gauges_is_measured_again() -> None:
    readings = measured({"length": 12.51, "width": 3.24, "thickness": 0.0285}, 14)
    sheet, separating = questions(readings, rank(readings, PARTS))
    assert sheet.startswith("the sheet may be 0.025 or 0.032 in: measure again where it is bare")
    assert separating == "measure the thickness again: it best tells rib-a from rib-b"


def test_stranger_has_a_share_of_one_and_fits_nothing() -> None:
    readings = measured({"length": 11.9, "width": 3.25, "thickness": 0.125}, 12)
    ranking = rank(readings, PARTS)
    assert ranking.candidates[0].share > 0.99
    assert ranking.none_fits
    assert questions(readings, ranking) == [
        "none of the open parts has these measures: is it from another kit?"
    ]


def test_part_that_is_clear_leaves_no_question() -> None:
    readings = measured({"length": 12.5, "width": 3.25, "thickness": 0.1}, 14)
    parts = [part({**CASES["part"][0], "thickness": 0.1}), PARTS[3]]
    ranking = rank(readings, parts)
    assert not ranking.none_fits
    assert questions(measured({"length": 12.5}), ranking) == []


def test_look_alikes_that_no_measure_tells_apart_go_to_the_drawing() -> None:
    twin = part({**CASES["part"][0], "part": "rib-t"})
    readings = measured({"length": 12.5})
    assert questions(readings, rank(readings, [PARTS[0], twin])) == [
        "no measure taken tells rib-a from rib-t: look at the drawing"
    ]


def test_part_without_recorded_sizes_is_not_ruled_out() -> None:
    bare = SizedPart(part="rib-x", pieces_open=1, sizes={LENGTH: 12 * INCH})
    no_holes = SizedPart(part="rib-y", pieces_open=1, sizes=nm({"thickness": 0.025}))
    readings = measured({"thickness": 0.1}, 14)
    ranking = rank(readings, [bare, no_holes])
    assert ranking.candidates == ()
    assert ranking.unsized == ("rib-x", "rib-y")
    assert ranking.none_fits
    assert questions(measured({"length": 1.0}), ranking) == [
        "no sizes are recorded for rib-x, rib-y"
    ]


def test_only_candidate_that_fits_leaves_no_question() -> None:
    readings = measured({"length": 12.5})
    assert questions(readings, rank(readings, PARTS[:1])) == []


def test_part_that_is_all_found_is_no_candidate() -> None:
    found = part({**CASES["part"][0], "pieces_open": 0})
    assert rank(measured({"length": 12.5}), [found]).candidates == ()


def test_more_open_pieces_make_a_part_likelier() -> None:
    one, three = (part({**CASES["part"][0], "part": name}) for name in ("A", "B"))
    parts = [part({**CASES["part"][0], "part": "A", "pieces_open": 1}), three]
    assert one.pieces_open == 4
    shares = {each.part: each.share for each in rank(measured({"length": 12.5}), parts).candidates}
    assert shares == pytest.approx({"A": 0.2, "B": 0.8})


@pytest.mark.parametrize(("holes", "factor"), [(15, 0.02 / 0.97), (20, 0.005 / 0.97)])
def test_hole_count_weighs_without_ruling_out(holes: int, factor: float) -> None:
    other = part({**CASES["part"][0], "part": "B", "holes": holes})
    found = rank(measured({"length": 12.5}, 14), [PARTS[0], other]).candidates
    assert found[1].share / found[0].share == pytest.approx(factor)
    assert found[1].holes_off == 14 - holes


def test_own_tolerance_wins_over_the_assumed_one() -> None:
    wide = SizedPart(part="W", pieces_open=1, sizes={WIDTH: 3 * INCH}, tolerance={WIDTH: INCH // 2})
    narrow = SizedPart(part="N", pieces_open=1, sizes={WIDTH: 3 * INCH}, tolerance={})
    deviations = {
        one.part: one.deviations[0].of_tolerance
        for one in rank(measured({"width": 3.25}), [wide, narrow]).candidates
    }
    assert deviations == pytest.approx({"W": 0.5, "N": 4.0})


@pytest.mark.parametrize(
    "bad",
    [
        Measured(sizes={}),
        Measured(sizes={LENGTH: 0}),
        Measured(sizes={LENGTH: -INCH}),
        Measured(sizes={LENGTH: INCH}, reading={}),
        Measured(sizes={LENGTH: INCH}, reading={LENGTH: 0}),
    ],
)
def test_measure_that_says_nothing_is_refused(bad: Measured) -> None:
    with pytest.raises(InventoryError) as refused:
        rank(bad, PARTS)
    assert (refused.value.what, refused.value.remedy) == (
        ("a length and the doubt of its reading are above 0", "Measure again, and give the unit.")
        if bad.sizes
        else (
            "nothing was measured",
            "Measure the thickness first, then the longest side and the one across it.",
        )
    )


def test_a_size_or_doubt_of_one_nanometre_is_above_0() -> None:
    assert rank(Measured(sizes={LENGTH: 1}), PARTS).none_fits
    assert rank(Measured(sizes={LENGTH: INCH}, reading={LENGTH: 1}), PARTS).none_fits


def test_what_nobody_set_is_as_the_trade_remembers() -> None:
    """Doubt of a reading in inches; tolerances either way of sheared sheet, 1/16 in."""
    thousandth = INCH // 1000
    assert Measured(sizes={LENGTH: INCH}).reading == {
        THICKNESS: thousandth, WIDTH: 20 * thousandth, LENGTH: 30 * thousandth,
    }  # fmt: skip
    assert SizedPart(part="A", pieces_open=1, sizes={}).tolerance == {
        THICKNESS: 76_200, WIDTH: 1_587_500, LENGTH: 1_587_500,
    }  # fmt: skip
    series = "0.016 0.020 0.025 0.032 0.040 0.050 0.063 0.071 0.080 0.090 0.125"
    assert [gauge / INCH for gauge in GAUGES] == [float(gauge) for gauge in series.split()]


@pytest.mark.parametrize(("off", "found"), [(135_230, True), (135_240, False)])
def test_a_gauge_is_near_within_three_standard_deviations(off: int, *, found: bool) -> None:
    """Tolerance 0.003 in is 76,200 nm, two deviations; a reading of 24,095 nm: thrice
    sqrt(38,100^2 + 24,095^2) is 135,239 nm.
    """
    gauge = INCH // 8
    assert (gauge in near_gauges(gauge + off, 24_095)) is found
    assert (gauge in near_gauges(gauge - off, 24_095)) is found


def test_the_nearest_gauge_comes_first() -> None:
    found = near_gauges(round(0.0285 * INCH) + 1000)
    assert [round(gauge / INCH, 3) for gauge in found] == [0.032, 0.025]


def test_a_candidate_fits_from_one_in_a_hundred_on() -> None:
    one = rank(measured({"length": 12.5}), PARTS[:1]).candidates[0]
    assert [replace(one, gate=gate).fits for gate in (0.0099, 0.01, 0.0101)] == [False, True, True]


@pytest.mark.parametrize(
    ("inches", "gauges"),
    [(0.063, [0.063]), (0.0285, [0.025, 0.032]), (0.018, [0.016, 0.020]), (0.2, [])],
)
def test_reading_stands_for_gauges(inches: float, gauges: list[float]) -> None:
    found = sorted(near_gauges(round(inches * INCH)))
    assert [round(gauge / INCH, 3) for gauge in found] == gauges


@given(st.floats(0, 200), st.integers(1, 12))
def test_tail_is_scipys(value: float, freedom: int) -> None:
    assert chi_squared_tail(value, freedom) == pytest.approx(
        chi2.sf(value, freedom), rel=1e-9, abs=1e-300
    )


@given(st.floats(0.001, 100), st.floats(0.001, 100), st.integers(0, 50))
def test_shares_sum_to_one_and_mirrors_tie(length: float, width: float, holes: int) -> None:
    ranking = rank(measured({"length": length, "width": width}, holes), PARTS)
    assert sum(one.share for one in ranking.candidates) == pytest.approx(1)
    by_part = {one.part: one for one in ranking.candidates}
    assert by_part["bracket-L"].share == by_part["bracket-R"].share
