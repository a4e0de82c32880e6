from __future__ import annotations

import itertools
import math
import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from scipy.stats import norm, t, uniform

from inventory.core.receiving.spread import Spread, largest_exact_batch, sample_needed
from inventory.core.receiving.t_values import Confidence, t_value

CASES = tomllib.loads(Path(__file__).parents[2].joinpath("cases/weighing.toml").read_text())


def ids(case: dict[str, Any]) -> str:
    return f"{case['spread']}-{case['confidence']}"


@pytest.mark.parametrize("case", CASES["largest"], ids=ids)
@pytest.mark.parametrize("inside", [False, True], ids=["apart", "inside"])
def test_largest_batch_on_a_perfect_scale(case: dict[str, Any], *, inside: bool) -> None:
    spread = Spread(case["spread"], 0.0, group=1)
    confidence = Confidence(case["confidence"])
    largest = [
        largest_exact_batch(spread, sample, confidence, inside=inside) for sample in case["sample"]
    ]
    assert largest == case["inside" if inside else "apart"]


@pytest.mark.parametrize("case", CASES["needed"], ids=ids)
@pytest.mark.parametrize("inside", [False, True], ids=["apart", "inside"])
def test_sample_that_a_batch_needs(case: dict[str, Any], *, inside: bool) -> None:
    spread = Spread(case["spread"], 0.0, group=1)
    confidence = Confidence(case["confidence"])
    needed = [
        sample_needed(spread, batch, confidence, inside=inside) or 0 for batch in case["batch"]
    ]
    assert needed == case["inside" if inside else "apart"]


def bound_by_hand(
    of: Spread, sample: int, batch: int, confidence: Confidence, *, inside: bool
) -> float:
    """Return the pieces either way, from the formulas and scipy's quantiles."""
    weighed = batch - sample if inside else batch
    others = weighed if inside else batch + sample
    variance = of.pieces**2 * batch * others / sample
    variance += of.reading**2 + (of.lump * weighed / sample) ** 2
    point = 0.5 + confidence / 200
    times = t.ppf(point, sample // of.group - 1) if of.group else norm.ppf(point)
    return float(times) * math.sqrt(variance)


SPREADS = {
    "known": Spread(0.02, 0.05),
    "known, sample in one go": Spread(0.02, 0.01, lump=0.06),
    "known and wide": Spread(0.2, 0.0),
    "wider than a piece": Spread(0.3, 0.05),
    "single weighings": Spread(0.03, 0.02, group=1),
    "fine single weighings": Spread(0.001, 0.0, group=1),
    "groups of three": Spread(0.05, 0.01, group=3),
}


@pytest.mark.parametrize("name", SPREADS)
@pytest.mark.parametrize("inside", [False, True], ids=["apart", "inside"])
def test_largest_exact_batch_is_the_last_before_the_first_inexact(
    name: str, *, inside: bool
) -> None:
    spread, confidence = SPREADS[name], Confidence.USUAL
    for sample in (6, 12, 30):
        smallest = sample if inside else 1
        inexact = (
            batch
            for batch in itertools.count(smallest)
            if bound_by_hand(spread, sample, batch, confidence, inside=inside) >= 0.5
        )
        first = next(inexact)
        found = largest_exact_batch(spread, sample, confidence, inside=inside)
        assert found == (first - 1 if first > smallest else 0)


@pytest.mark.parametrize("name", SPREADS)
@pytest.mark.parametrize("inside", [False, True], ids=["apart", "inside"])
def test_sample_needed_is_the_smallest_that_counts_the_batch_exactly(
    name: str, *, inside: bool
) -> None:
    """A sample of known spread is weighed in one go, so that its rounding counts once."""
    given = SPREADS[name]
    spread = replace(given, lump=min(given.lump, given.reading))
    group = given.group or 1
    for batch in range(1, 80):
        fewest = 2 * group if given.group else 1
        needed = (
            sample
            for sample in range(fewest, batch + 1, group)
            if bound_by_hand(spread, sample, batch, Confidence.USUAL, inside=inside) < 0.5
        )
        found = sample_needed(given, batch, Confidence.USUAL, inside=inside)
        assert found == next(needed, None), batch


def test_bound_of_just_half_a_piece_is_not_exact() -> None:
    half = Spread(0.0, 0.5 / t_value(None, Confidence.USUAL))
    assert half.bound(5, 10, Confidence.USUAL, inside=False) == 0.5
    assert largest_exact_batch(half, 5, Confidence.USUAL, inside=False) == 0
    assert largest_exact_batch(half, 5, Confidence.USUAL, inside=True) == 0
    assert sample_needed(half, 10, Confidence.USUAL, inside=False) is None


def test_ten_million_is_the_largest_batch_told_of() -> None:
    assert largest_exact_batch(Spread(0.0, 0.0), 1, Confidence.USUAL, inside=False) == 10_000_000


def test_groups_need_whole_groups() -> None:
    # By hand: 20 weighings of 5 pieces have 19 degrees of freedom; the answer is a multiple of 5.
    needed = sample_needed(Spread(0.005, 0.0, group=5), 200, Confidence.USUAL, inside=False)
    assert needed is not None
    assert needed % 5 == 0
    assert needed > 20


def test_scale_whose_step_alone_hides_a_piece_counts_nothing() -> None:
    coarse = Spread(0.001, 0.6, lump=0.6)
    assert largest_exact_batch(coarse, 50, Confidence.USUAL, inside=False) == 0
    assert sample_needed(coarse, 100, Confidence.USUAL, inside=False) is None


@pytest.mark.parametrize(
    ("batch", "sample", "step", "inside", "expected"),
    [
        # Standard deviations of 20,000 simulated weighings, mass 0.244 g, spread 1 %.
        (500, 50, 0.01, False, 0.757),
        (500, 50, 0.01, True, 0.688),
    ],
)
def test_formula_agrees_with_a_simulation_done_elsewhere(
    batch: int, sample: int, step: float, expected: float, *, inside: bool
) -> None:
    reading = step / 6**0.5 / 0.244
    spread = Spread(0.01, reading, lump=reading)
    assert spread.sigma(sample, batch, inside=inside) == pytest.approx(expected, rel=0.01)


@pytest.mark.parametrize("inside", [False, True], ids=["apart", "inside"])
def test_formula_agrees_with_a_simulation_done_here(*, inside: bool) -> None:
    trials, sample, batch, step, mass, spread = 1500, 30, 200, 0.02, 1.037, 0.02
    pieces = norm.rvs(mass, spread * mass, size=(trials, sample + batch), random_state=20)
    boxes = uniform.rvs(10, 10, size=(trials, 2), random_state=21)

    def net(box: float, load: float) -> float:
        return round((box + load) / step) * step - round(box / step) * step

    def estimate(trial: int) -> float:
        piece = net(boxes[trial, 0], pieces[trial, :sample].sum()) / sample
        weighed = batch - sample if inside else batch
        load = net(boxes[trial, 1], pieces[trial, sample : sample + weighed].sum())
        return load / piece + batch - weighed

    errors = [estimate(trial) - batch for trial in range(trials)]
    found = (sum(error**2 for error in errors) / len(errors)) ** 0.5
    reading = step / 6**0.5 / mass
    assert found == pytest.approx(
        Spread(spread, reading, lump=reading).sigma(sample, batch, inside=inside), rel=0.06
    )
