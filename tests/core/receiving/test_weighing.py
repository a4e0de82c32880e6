from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import norm

from inventory.core.errors import InventoryError
from inventory.core.receiving.counts import MOST_PIECES
from inventory.core.receiving.t_values import Confidence
from inventory.core.receiving.weighing import GRAM, Sample, WeighedCount, Weighing, weigh_count

MILLIGRAM = GRAM // 1000

TEN_RIVETS = Sample(
    tuple(
        reading * MILLIGRAM // 10
        for reading in (2431, 2458, 2440, 2467, 2425, 2449, 2452, 2436, 2461, 2443)
    )
)


def test_ten_single_weighings_count_a_hundred_rivets_exactly_at_95_percent() -> None:
    # Mean 0.24462 g, spread 0.556 %; 24.437 g are 99.898 pieces; t 2.262 x 0.1843 = 0.417.
    weighing = Weighing(sample=TEN_RIVETS, gross=24_437 * MILLIGRAM, step=MILLIGRAM)
    count = weigh_count(weighing)
    assert count.estimate == pytest.approx(99.89780)
    assert count.bound == pytest.approx(0.416855, abs=1e-5)
    assert (count.pieces, count.about, count.exact, count.spread_measured) == (100, 0, True, True)
    assert count.largest_exact == 120
    assert str(count) == "100"


def test_the_same_count_is_not_exact_at_99_percent() -> None:
    weighing = Weighing(sample=TEN_RIVETS, gross=24_437 * MILLIGRAM, step=MILLIGRAM)
    count = weigh_count(weighing, Confidence.STRICT)
    assert count.bound == pytest.approx(0.598858, abs=1e-5)
    assert (count.about, count.largest_exact) == (1, 82)
    assert str(count) == "about 100 (99 to 101, 99 %)"


def test_kitchen_scale_can_not_call_930_rivets_short_of_925() -> None:
    # 50 pieces 12.2 g, spread 1 % known, 226.8 g: 929.5, sigma 3.395 (1.349 pieces, 3.115 scale).
    sample = Sample((12_200 * MILLIGRAM,), pieces_each=50, spread=0.01)
    weighing = Weighing(sample=sample, gross=226_800 * MILLIGRAM, step=100 * MILLIGRAM)
    usual, strict = weigh_count(weighing), weigh_count(weighing, Confidence.STRICT)
    assert usual.estimate == pytest.approx(929.508197)
    assert (usual.bound, strict.bound) == pytest.approx((6.653370, 8.744010), abs=1e-4)
    assert (usual.pieces, usual.about, usual.exact) == (930, 7, False)
    assert usual.pieces - usual.about <= 925


def test_ninety_nine_by_weight_can_not_be_told_from_a_hundred() -> None:
    # Tare 12.0 g, gross 61.6 g; 25 pieces 12.5 g, 0.5 g each: 49.6 / 0.5 = 99.2.
    sample = Sample((12_500 * MILLIGRAM,), pieces_each=25)
    weighing = Weighing(
        sample=sample, gross=61_600 * MILLIGRAM, tare=12_000 * MILLIGRAM, step=100 * MILLIGRAM
    )
    count = weigh_count(weighing)
    assert count.estimate == pytest.approx(99.2)
    assert (count.pieces, count.about) == (99, 1)
    assert count.spread_measured is False


def test_sample_of_the_batch_is_counted_with_it() -> None:
    sample = Sample((12_500 * MILLIGRAM,), pieces_each=25, spread=0.005)
    apart = Weighing(sample=sample, gross=25_000 * MILLIGRAM, step=10 * MILLIGRAM)
    inside = Weighing(
        sample=sample, gross=25_000 * MILLIGRAM, step=10 * MILLIGRAM, sample_in_batch=True
    )
    assert (weigh_count(apart).pieces, weigh_count(inside).pieces) == (50, 75)


def test_groups_show_the_spread_of_single_pieces() -> None:
    # Groups of 4: 40.00, 40.40, 39.60 g; deviation of the readings 0.4 g, of a piece
    # 0.4 / sqrt(4) = 0.2 g of 10 g, 2 %. Two degrees of freedom: t 4.302653.
    # Batch 100 g: 10 pieces; variance 0.0004 x 10 x 22 / 12 + (0.01 / 10)^2 / 6.
    sample = Sample((40_000 * MILLIGRAM, 40_400 * MILLIGRAM, 39_600 * MILLIGRAM), pieces_each=4)
    count = weigh_count(Weighing(sample=sample, gross=100 * GRAM, step=10 * MILLIGRAM))
    assert count.bound == pytest.approx(4.302653 * 0.0856358, rel=1e-5)
    assert count.spread_measured


@pytest.mark.parametrize(
    "readings",
    [
        (200 * MILLIGRAM,) * 10,  # all alike: a 0.244 g rivet on a 0.1 g scale
        (200 * MILLIGRAM, 300 * MILLIGRAM) * 5,  # only two neighbouring steps
        (244 * MILLIGRAM, 251 * MILLIGRAM),  # two weighings show no spread
    ],
)
def test_readings_that_show_only_the_scales_rounding_measure_no_spread(
    readings: tuple[int, ...],
) -> None:
    weighing = Weighing(sample=Sample(readings), gross=24_400 * MILLIGRAM, step=100 * MILLIGRAM)
    count = weigh_count(weighing)
    assert not count.spread_measured
    assert not count.exact


def shown(mass: float, step: float) -> int:
    return round(mass / step) * round(step * GRAM)


def simulated(trials: int, step: float) -> list[WeighedCount]:
    """Ten rivets weighed one by one, then a hundred together, many times over."""
    masses = norm.rvs(0.244, 0.244 * 0.006, size=(trials, 110), random_state=95)
    return [
        weigh_count(
            Weighing(
                sample=Sample(tuple(shown(float(mass), step) for mass in row[:10])),
                gross=shown(float(row[10:].sum()), step),
                step=round(step * GRAM),
            )
        )
        for row in masses
    ]


@pytest.mark.parametrize("step", [0.0005, 0.001])
def test_95_of_100_simulated_counts_lie_within_the_bound(step: float) -> None:
    counts = simulated(600, step)
    within = sum(abs(count.estimate - 100) <= count.bound for count in counts)
    assert within >= 0.93 * len(counts)
    called_exact = [count.pieces == 100 for count in counts if count.exact]
    assert len(called_exact) > 100
    assert sum(called_exact) >= 0.97 * len(called_exact)


def test_simulated_counts_on_a_coarse_scale_lie_within_the_bound() -> None:
    counts = simulated(200, 0.1)
    assert not any(count.exact for count in counts)
    assert sum(abs(count.estimate - 100) <= count.bound for count in counts) >= 190


@given(st.integers(10, 10**6), st.integers(1, 200), st.integers(1, 10**9), st.integers(1, 10**6))
def test_range_always_holds_the_estimate(reading: int, pieces: int, gross: int, step: int) -> None:
    sample = Sample((reading * MILLIGRAM,), pieces_each=pieces)
    weighing = Weighing(sample=sample, gross=gross * MILLIGRAM // 1000, step=step * MILLIGRAM)
    try:
        count = weigh_count(weighing)
    except InventoryError:
        return
    assert count.exact is (count.bound < 0.5)
    assert abs(count.estimate - count.pieces) <= 0.5
    assert count.exact or count.about >= 1
    if count.bound < 100:
        low, high = count.estimate - count.bound, count.estimate + count.bound
        may_be = [number for number in range(int(low) - 1, int(high) + 2) if low <= number <= high]
        furthest = max(abs(number - count.pieces) for number in [count.pieces, *may_be])
        assert count.exact or count.about == max(1, furthest)


TONNE = 10**15
"""Nanograms."""
SAID = {
    "no sample": "there is no sample|Weigh some counted pieces first.",
    "no pieces": "the sample holds no pieces|Enter how many it holds.",
    "sample": "a sample's mass is 0, negative or over a tonne|"
    "Weigh the sample again; take off the box's mass once only.",
    "step": "the scale's step isn't known|"
    "Enter the last digit the scale shows, for instance 0.1 g.",
    "batch": "gross less tare is 0, negative or over a tonne|"
    "Weigh the empty box again, and the full one.",
    "spread": "the pieces' spread is to be above 0 and at most 30 %|"
    "Leave it out, and weigh ten pieces one by one.",
}


@pytest.mark.parametrize(
    ("weighing", "why"),
    [
        (Weighing(sample=Sample(()), gross=GRAM, step=1), "no sample"),
        (Weighing(sample=Sample((GRAM,), 0), gross=GRAM, step=1), "no pieces"),
        (Weighing(sample=Sample((0,)), gross=GRAM, step=1), "sample"),
        (Weighing(sample=Sample((GRAM, -1)), gross=GRAM, step=1), "sample"),
        (Weighing(sample=Sample((TONNE + 1,)), gross=GRAM, step=1), "sample"),
        (Weighing(sample=Sample((GRAM,)), gross=GRAM, step=0), "step"),
        (Weighing(sample=Sample((GRAM,)), gross=GRAM, step=TONNE + 1), "step"),
        (Weighing(sample=Sample((GRAM,)), gross=GRAM, tare=GRAM, step=1), "batch"),
        (Weighing(sample=Sample((GRAM,)), gross=GRAM, tare=-1, step=1), "batch"),
        (Weighing(sample=Sample((GRAM,)), gross=TONNE + 1, step=1), "batch"),
        (Weighing(sample=Sample((GRAM,), 1, 0.0), gross=GRAM, step=1), "spread"),
        (Weighing(sample=Sample((GRAM,), 1, 0.31), gross=GRAM, step=1), "spread"),
    ],
)
def test_weight_that_says_nothing_is_refused(weighing: Weighing, why: str) -> None:
    with pytest.raises(InventoryError) as refused:
        weigh_count(weighing)
    what, _, remedy = SAID[why].partition("|")
    assert refused.value.what == f"can't count by weight: {what}"
    assert refused.value.remedy == remedy


@pytest.mark.parametrize(
    ("weighing", "pieces"),
    [
        (Weighing(sample=Sample((1,)), gross=1, step=1), 1),
        (Weighing(sample=Sample((TONNE,)), gross=TONNE, step=TONNE), 1),
        (Weighing(sample=Sample((GRAM,), 1, 0.3), gross=2 * GRAM, step=1), 2),
        (Weighing(sample=Sample((1,)), gross=MOST_PIECES, step=1), MOST_PIECES),
    ],
)
def test_the_least_and_the_most_that_can_be_weighed_is_taken(
    weighing: Weighing, pieces: int
) -> None:
    assert weigh_count(weighing).pieces == pieces


def test_absurd_number_by_weight_is_refused() -> None:
    weighing = Weighing(sample=Sample((1,)), gross=MOST_PIECES + 1, step=1)
    with pytest.raises(InventoryError) as refused:
        weigh_count(weighing)
    assert refused.value.what == "10000001 pieces by weight can't be"
    assert refused.value.remedy == "Check the units of the sample and of the batch."


def test_no_fewer_than_none_lie_on_the_scale() -> None:
    # One piece of 1 g on a scale of 5 g steps: the doubt is wider than the number.
    weighing = Weighing(sample=Sample((GRAM,)), gross=GRAM, step=5 * GRAM)
    count = weigh_count(weighing)
    assert count.about > count.pieces
    assert str(count) == f"about 1 (0 to {1 + count.about}, 95 %)"


def test_readings_one_step_apart_on_average_measure_the_spread() -> None:
    # 98, 100, 102 mg differ by 2 mg (standard deviation): as much as the scale's step.
    readings = (98 * MILLIGRAM, 100 * MILLIGRAM, 102 * MILLIGRAM)
    weighing = Weighing(sample=Sample(readings), gross=GRAM, step=2 * MILLIGRAM)
    assert weigh_count(weighing).spread_measured


def test_two_readings_measure_no_spread_on_the_finest_scale() -> None:
    weighing = Weighing(sample=Sample((GRAM, GRAM + 9)), gross=10 * GRAM, step=1)
    assert not weigh_count(weighing).spread_measured
