"""How far a number of pieces found by weight may be off."""

from __future__ import annotations

import math
from bisect import bisect_left
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.receiving.t_values import t_value

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.core.receiving.t_values import Confidence

HALF_A_PIECE = 0.5
"""Below this either way the nearest whole number is the count."""
_LARGEST = 10**7


@frozen
class Spread:
    """Where the doubt comes from; each a standard deviation over the mean mass of a piece."""

    pieces: float
    """One piece's mass."""
    reading: float
    """One net mass: two readings, each rounded to the scale's step: step / sqrt(6)."""
    lump: float = 0.0
    """The whole sample's net mass, 0 where its rounding shows in the pieces' spread already."""
    group: int = 0
    """Pieces in each weighing of the sample that the spread was measured from; 0: known before."""

    def sigma(self, sample: int, batch: float, *, inside: bool) -> float:
        """Return the standard deviation of the estimated number of pieces.

        By propagation of uncertainty, c = pieces, r = reading, l = lump, n = sample, N = batch:
        c^2 N (N + n) / n + r^2 + (l N / n)^2 for a sample kept apart;
        c^2 N (N - n) / n + r^2 + (l (N - n) / n)^2 for a sample that belongs to the batch and
        isn't weighed again. Own derivation, held against a simulation by the tests.
        """
        rest = batch - sample if inside else batch
        other = rest if inside else batch + sample
        of_pieces = self.pieces**2 * batch * other / sample
        return math.sqrt(of_pieces + self.reading**2 + (self.lump * rest / sample) ** 2)

    def bound(self, sample: int, batch: float, confidence: Confidence, *, inside: bool) -> float:
        """Return t x sigma: pieces either way that hold with the confidence.

        A spread from k weighings has k - 1 degrees of freedom; a known one is taken as normal.
        """
        freedom = sample // self.group - 1 if self.group else None
        return t_value(freedom, confidence) * self.sigma(sample, batch, inside=inside)


def largest_exact_batch(
    spread: Spread, sample: int, confidence: Confidence, *, inside: bool
) -> int:
    """Return the largest number of pieces that the sample counts exactly; 0 if not even its own."""

    def too_large(batch: int) -> bool:
        return spread.bound(sample, batch, confidence, inside=inside) >= HALF_A_PIECE

    smallest = sample if inside else 1
    first = _first(too_large, smallest, _LARGEST)
    return first - 1 if first > smallest else 0


def sample_needed(
    spread: Spread, batch: float, confidence: Confidence, *, inside: bool
) -> int | None:
    """Return the smallest sample that counts the batch exactly; None where none does.

    A sample of measured spread is weighed in groups as before, else all in one go; one larger
    than the batch is none, since then the batch itself is sooner counted.
    """
    group = spread.group or 1
    fewest = 2 if spread.group else 1
    most = int(batch) // group
    in_one_go = Spread(
        spread.pieces, spread.reading, min(spread.lump, spread.reading), spread.group
    )

    def enough(weighings: int) -> bool:
        pieces = weighings * group
        return in_one_go.bound(pieces, batch, confidence, inside=inside) < HALF_A_PIECE

    found = _first(enough, fewest, most)
    return found * group if found <= most else None


def _first(holds: Callable[[int], bool], low: int, high: int) -> int:
    """Return the first number from low to high for which it holds, else the one behind high.

    Once it holds, it holds for all larger numbers.
    """
    numbers = range(low, high + 1)
    return low + bisect_left(numbers, 1, key=lambda number: int(holds(number)))
