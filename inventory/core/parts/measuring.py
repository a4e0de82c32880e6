"""Identifying an unmarked part by its measures: candidates and questions, never an answer."""

from __future__ import annotations

import math
from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.measures.lengths import INCH

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping


class Dimension(StrEnum):
    """What can be measured on a part."""

    THICKNESS = "thickness"
    WIDTH = "width"
    LENGTH = "length"


READING: Mapping[Dimension, int] = {
    Dimension.THICKNESS: INCH // 1000,
    Dimension.WIDTH: INCH // 50,
    Dimension.LENGTH: 3 * INCH // 100,
}
"""Standard deviation of a reading: 0.001 in with a caliper, 0.02 and 0.03 in with a tape.

From memory; a person sets their own.
"""
TOLERANCE: Mapping[Dimension, int] = {
    Dimension.THICKNESS: 3 * INCH // 1000,
    Dimension.WIDTH: INCH // 16,
    Dimension.LENGTH: INCH // 16,
}
"""Either way. Width and length: sheared sheet up to 0.124 in thick and 6 in wide (reprint of
Aluminum Association values). Thickness 0.003 in is assumed, not a value of ANSI H35.2.
"""
GAUGES = tuple(
    INCH * thousandths // 1000 for thousandths in (16, 20, 25, 32, 40, 50, 63, 71, 80, 90, 125)
)
"""Nanometres: the standard aluminium sheet series, from memory."""

GATE = 0.01
"""A candidate whose measures are less likely than this is none: see `Candidate.fits`."""
_SAME_HOLES, _ONE_OFF, _OTHER_HOLES = 0.97, 0.02, 0.005
_THREE_SIGMA = 3


@frozen(kw_only=True)
class SizedPart:
    """A part of an open line with the sizes its drawing gives."""

    part: str
    hand: Hand = Hand.NONE
    pieces_open: int
    """Pieces of it that nobody has found yet."""
    sizes: Mapping[Dimension, int]
    holes: int | None = None
    tolerance: Mapping[Dimension, int] = field(default_factory=lambda: dict(TOLERANCE))


@frozen(kw_only=True)
class Measured:
    """What a person measured on the part in their hand."""

    sizes: Mapping[Dimension, int]
    holes: int | None = None
    reading: Mapping[Dimension, int] = field(default_factory=lambda: dict(READING))
    """Standard deviation of each reading, in nanometres."""


@frozen(kw_only=True)
class Deviation:
    """How far one measure is off the drawing."""

    dimension: Dimension
    off: int
    """Nanometres, measured less drawn."""
    of_tolerance: float
    """The same in multiples of the tolerance."""
    sigmas: float
    """The same in standard deviations of tolerance and reading together."""


@frozen(kw_only=True)
class Candidate:
    """A part that it may be."""

    part: str
    hand: Hand
    share: float
    """How likely among the candidates, if it is one of them at all; the shares sum to 1."""
    gate: float
    """How likely measures as far off or farther are for this very part (chi-squared tail)."""
    deviations: tuple[Deviation, ...]
    holes_off: int | None

    @property
    def fits(self) -> bool:
        """Whether it may be this part: a share alone means nothing, since they sum to 1."""
        return self.gate >= GATE


@frozen(kw_only=True)
class Ranking:
    """What the measures leave open; a person decides, a second one confirms."""

    candidates: tuple[Candidate, ...]
    """The most likely first."""
    unsized: tuple[str, ...]
    """Parts that can't be ruled out, since their drawing's sizes aren't all recorded."""

    @property
    def none_fits(self) -> bool:
        """Whether it is none of the parts whose sizes are known."""
        return not any(candidate.fits for candidate in self.candidates)


def rank(measured: Measured, parts: Iterable[SizedPart]) -> Ranking:
    """Return the open parts by how well they fit the measures, the rest unsized.

    Score = log pieces open + sum of log normal densities, variance = (tolerance / 2)^2 +
    reading^2, and for the hole count 0.97 if equal, 0.02 if one off, 0.005 else (own choice).
    Mirror parts always tie: the hand is asked, never told. Own derivation.
    """
    _refuse_nonsense(measured)
    open_parts = [part for part in parts if part.pieces_open > 0]
    sized = [part for part in open_parts if _comparable(part, measured)]
    scores = [_score(part, measured) for part in sized]
    highest = max(scores, default=0.0)
    likelihoods = [math.exp(score - highest) for score in scores]
    total = sum(likelihoods)
    candidates = sorted(
        (
            _candidate(part, measured, likelihood / total)
            for part, likelihood in zip(sized, likelihoods, strict=True)
        ),
        key=lambda candidate: (-candidate.share, -candidate.gate, candidate.part, candidate.hand),
    )
    unsized = (part.part for part in open_parts if not _comparable(part, measured))
    return Ranking(candidates=tuple(candidates), unsized=tuple(dict.fromkeys(unsized)))


def near_gauges(thickness: int, reading: int = READING[Dimension.THICKNESS]) -> list[int]:
    """Return the sheet gauges a reading may stand for, the nearest first; often more than one."""
    spread = math.hypot(TOLERANCE[Dimension.THICKNESS] / 2, reading)
    near = [gauge for gauge in GAUGES if abs(thickness - gauge) <= _THREE_SIGMA * spread]
    return sorted(near, key=lambda gauge: abs(thickness - gauge))


def chi_squared_tail(value: float, freedom: int) -> float:
    """Return how likely a sum of `freedom` squared normal deviates is `value` or more."""
    half = value / 2
    tail = math.erfc(math.sqrt(half)) if freedom % 2 else math.exp(-half)
    first = freedom % 2 or 2
    for lower in range(first, freedom, 2):
        tail += half ** (lower / 2) * math.exp(-half) / math.gamma(lower / 2 + 1)
    return tail


def _refuse_nonsense(measured: Measured) -> None:
    if not measured.sizes:
        raise InventoryError(
            "nothing was measured",
            remedy="Measure the thickness first, then the longest side and the one across it.",
        )
    for dimension, size in measured.sizes.items():
        if size <= 0 or measured.reading.get(dimension, 0) <= 0:
            raise InventoryError(
                f"a {dimension} and the doubt of its reading are above 0",
                remedy="Measure again, and give the unit.",
            )


def _comparable(part: SizedPart, measured: Measured) -> bool:
    known = all(part.sizes.get(dimension) for dimension in measured.sizes)
    return known and (measured.holes is None or part.holes is not None)


def _spread(part: SizedPart, measured: Measured, dimension: Dimension) -> float:
    """Return the standard deviation of tolerance and reading together, in nanometres."""
    return math.hypot(_tolerance(part, dimension) / 2, measured.reading[dimension])


def _tolerance(part: SizedPart, dimension: Dimension) -> int:
    return part.tolerance.get(dimension) or TOLERANCE[dimension]


def _deviations(part: SizedPart, measured: Measured) -> tuple[Deviation, ...]:
    return tuple(
        Deviation(
            dimension=dimension,
            off=size - part.sizes[dimension],
            of_tolerance=(size - part.sizes[dimension]) / _tolerance(part, dimension),
            sigmas=(size - part.sizes[dimension]) / _spread(part, measured, dimension),
        )
        for dimension, size in measured.sizes.items()
    )


def _holes_off(part: SizedPart, measured: Measured) -> int | None:
    if measured.holes is None or part.holes is None:
        return None
    return measured.holes - part.holes


def _score(part: SizedPart, measured: Measured) -> float:
    score = math.log(part.pieces_open)
    for deviation in _deviations(part, measured):
        score -= deviation.sigmas**2 / 2
        score -= math.log(_spread(part, measured, deviation.dimension))
    match _holes_off(part, measured):
        case None:
            return score
        case 0:
            return score + math.log(_SAME_HOLES)
        case 1 | -1:
            return score + math.log(_ONE_OFF)
        case _:
            return score + math.log(_OTHER_HOLES)


def _candidate(part: SizedPart, measured: Measured, share: float) -> Candidate:
    deviations = _deviations(part, measured)
    squares = sum(deviation.sigmas**2 for deviation in deviations)
    return Candidate(
        part=part.part,
        hand=part.hand,
        share=share,
        gate=chi_squared_tail(squares, len(deviations)),
        deviations=deviations,
        holes_off=_holes_off(part, measured),
    )
