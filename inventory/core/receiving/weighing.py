"""Counting by weight: how many pieces, how sure, and when that can be called a count."""

from __future__ import annotations

import math
from statistics import fmean, stdev

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.receiving.counts import MOST_PIECES
from inventory.core.receiving.spread import Spread, largest_exact_batch, sample_needed
from inventory.core.receiving.t_values import Confidence

GRAM = 10**9
"""Nanograms."""
USUAL_SPREAD = 0.015
"""Standard deviation of one piece's mass over the mean where nobody measured it.

The upper end of what weighing-trade articles call usual (0.5 to 1.5 %).
"""
_TONNE = 10**6 * GRAM
_FEWEST_READINGS = 3
_WIDEST_SPREAD = 0.3


@frozen
class Sample:
    """Counted pieces that were weighed to learn what one weighs."""

    readings: tuple[int, ...]
    """Nanograms net of each weighing: one by one, in equal groups, or all in one go."""
    pieces_each: int = 1
    """Pieces in each weighing."""
    spread: float | None = None
    """Standard deviation of one piece over the mean, where it is known from before."""

    @property
    def pieces(self) -> int:
        """All pieces of the sample."""
        return len(self.readings) * self.pieces_each


@frozen(kw_only=True)
class Weighing:
    """A batch on the scale; all masses in nanograms."""

    sample: Sample
    gross: int
    tare: int = 0
    step: int
    """The last digit the scale shows."""
    sample_in_batch: bool = False
    """The sample's pieces are counted with the batch, yet not weighed again with it."""

    @property
    def net(self) -> int:
        """Gross less tare."""
        return self.gross - self.tare


@frozen(kw_only=True)
class WeighedCount:
    """What the weight says about the number of pieces."""

    pieces: int
    """The nearest whole number."""
    estimate: float
    bound: float
    """Pieces either way that hold with the confidence asked for."""
    about: int
    """Whole pieces by which `pieces` may be off; 0 where it can be called exact."""
    confidence: Confidence
    sample_needed: int | None
    """Pieces of a sample that makes the count exact; None where none does on this scale."""
    largest_exact: int
    """The largest batch that this sample and this scale count exactly."""
    spread_measured: bool
    """False where the readings can't show how much the pieces differ: then it is assumed."""

    @property
    def exact(self) -> bool:
        """Whether the number can be called a count."""
        return self.about == 0

    def __str__(self) -> str:
        """As a person says it: `100`, or `about 930 (923 to 936, 95 %)`."""
        if self.exact:
            return f"{self.pieces}"
        low = max(0, self.pieces - self.about)
        return f"about {self.pieces} ({low} to {self.pieces + self.about}, {self.confidence} %)"


def weigh_count(weighing: Weighing, confidence: Confidence = Confidence.USUAL) -> WeighedCount:
    """Return how many pieces lie on the scale, and how sure that is.

    Estimate = net / mean mass of a piece (plus the sample's own pieces where they belong to the
    batch). It can be called exact only where t x sigma < 0.5 piece, `sigma` as in `spread`.
    Sorted pieces of one kind are assumed: no weight tells two lengths apart.
    """
    _refuse_nonsense(weighing)
    sample = weighing.sample
    inside = weighing.sample_in_batch
    mean = fmean(sample.readings) / sample.pieces_each
    estimate = weighing.net / mean + (sample.pieces if inside else 0)
    if estimate > MOST_PIECES:
        raise InventoryError(
            f"{estimate:.0f} pieces by weight can't be",
            remedy="Check the units of the sample and of the batch.",
        )
    spread = _spread(sample, mean, weighing.step)
    bound = spread.bound(sample.pieces, estimate, confidence, inside=inside)
    pieces = round(estimate)
    return WeighedCount(
        pieces=pieces,
        estimate=estimate,
        bound=bound,
        about=_about(pieces, estimate, bound),
        confidence=confidence,
        sample_needed=sample_needed(spread, estimate, confidence, inside=inside),
        largest_exact=largest_exact_batch(spread, sample.pieces, confidence, inside=inside),
        spread_measured=spread.group > 0,
    )


def _spread(sample: Sample, mean: float, step: int) -> Spread:
    """Take the pieces' spread from the readings if they can show it, else assume it.

    Readings that differ by less than the scale's step only show its rounding: what is rounded is
    then the same in each of them, and doesn't average out.
    """
    reading = step / math.sqrt(6) / mean
    several = len(sample.readings) >= _FEWEST_READINGS
    differ = stdev(sample.readings) if several else 0.0
    measured = differ / math.sqrt(sample.pieces_each) / mean
    if sample.spread is None and differ >= step:
        return Spread(measured, reading, group=sample.pieces_each)
    lump = reading * len(sample.readings)
    assumed = max(measured, USUAL_SPREAD) if sample.spread is None else sample.spread
    return Spread(assumed, reading, lump=lump)


def _about(pieces: int, estimate: float, bound: float) -> int:
    if 2 * bound < 1:
        return 0
    low, high = math.ceil(estimate - bound), math.floor(estimate + bound)
    return max(pieces - low, high - pieces, 1)


def _refuse_nonsense(weighing: Weighing) -> None:
    sample = weighing.sample
    refusals = (
        (not sample.readings, "there is no sample", "Weigh some counted pieces first."),
        (sample.pieces_each < 1, "the sample holds no pieces", "Enter how many it holds."),
        (
            any(not 0 < reading <= _TONNE for reading in sample.readings),
            "a sample's mass is 0, negative or over a tonne",
            "Weigh the sample again; take off the box's mass once only.",
        ),
        (
            not 0 < weighing.step <= _TONNE,
            "the scale's step isn't known",
            "Enter the last digit the scale shows, for instance 0.1 g.",
        ),
        (
            not 0 < weighing.net <= _TONNE or weighing.tare < 0,
            "gross less tare is 0, negative or over a tonne",
            "Weigh the empty box again, and the full one.",
        ),
        (
            sample.spread is not None and not 0 < sample.spread <= _WIDEST_SPREAD,
            "the pieces' spread is to be above 0 and at most 30 %",
            "Leave it out, and weigh ten pieces one by one.",
        ),
    )
    for wrong, what, remedy in refusals:
        if wrong:
            raise InventoryError(f"can't count by weight: {what}", remedy=remedy)
