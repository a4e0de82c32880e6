"""What to ask or measure next about a part that was measured."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.measures.lengths import INCH
from inventory.core.parts.hands import hand_in_words, stem
from inventory.core.parts.measuring import Dimension, near_gauges

if TYPE_CHECKING:
    from inventory.core.parts.measuring import Candidate, Measured, Ranking

_CLEAR = 0.95
"""From this share on the first candidate stands apart from the second."""


def questions(measured: Measured, ranking: Ranking) -> list[str]:
    """Return in words what the measures leave open, the first thing to do first."""
    found = [_thickness(measured)]
    if ranking.candidates and ranking.none_fits:
        found.insert(0, "none of the open parts has these measures: is it from another kit?")
    elif len(ranking.candidates) > 1:
        first, second = ranking.candidates[:2]
        if _mirrors(first, second):
            found.insert(0, _hand(first, second))
        elif first.share < _CLEAR:
            found.append(_separate(first, second))
    if ranking.unsized:
        found.append("no sizes are recorded for " + ", ".join(ranking.unsized))
    return [question for question in found if question]


def _thickness(measured: Measured) -> str:
    size = measured.sizes.get(Dimension.THICKNESS)
    gauges = near_gauges(size, measured.reading[Dimension.THICKNESS]) if size else []
    if len(gauges) < 2:  # noqa: PLR2004
        return ""
    names = " or ".join(f"{gauge / INCH:.3f}" for gauge in gauges[:2])
    return f"the sheet may be {names} in: measure again where it is bare, without paint and burr"


def _mirrors(first: Candidate, second: Candidate) -> bool:
    same = stem(first.part, first.hand) == stem(second.part, second.hand)
    return same and first.hand is not second.hand


def _hand(first: Candidate, second: Candidate) -> str:
    hands = " or ".join(sorted(hand_in_words(one.hand) for one in (first, second)))
    return f"which hand is it, {hands}? No measure tells: hold it against the drawing"


def _separate(first: Candidate, second: Candidate) -> str:
    apart = {
        one.dimension: abs(one.sigmas - other.sigmas)
        for one, other in zip(first.deviations, second.deviations, strict=True)
    }
    best = max(apart, key=lambda dimension: apart[dimension])
    if apart[best] < 1:
        return f"no measure taken tells {first.part} from {second.part}: look at the drawing"
    return f"measure the {best} again: it best tells {first.part} from {second.part}"
