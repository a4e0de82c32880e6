"""What is asked next about a part that was measured."""

from __future__ import annotations

from dataclasses import replace

import pytest

from inventory.core.items import Hand
from inventory.core.measures.lengths import INCH
from inventory.core.parts.measuring import (
    Dimension,
    Measured,
    Ranking,
    SizedPart,
    near_gauges,
    rank,
)
from inventory.core.parts.measuring_questions import questions

THICKNESS, WIDTH, LENGTH = Dimension.THICKNESS, Dimension.WIDTH, Dimension.LENGTH


def measured(**inches: float) -> Measured:
    return Measured(sizes={Dimension(name): round(size * INCH) for name, size in inches.items()})


def part(name: str, hand: Hand = Hand.NONE) -> SizedPart:
    """Return a rib of 12.5 by 3.25 in, of sheet 0.025 in thick."""
    sizes = measured(length=12.5, width=3.25, thickness=0.025).sizes
    return SizedPart(part=name, hand=hand, pieces_open=4, sizes=sizes)


RIB = part("rib-a")
BARE = "the sheet may be 0.025 or 0.032 in: measure again where it is bare, without paint and burr"


def test_questions_of_two_parts_depend_on_the_share_of_the_first() -> None:
    readings = measured(length=12.5, width=3.25)
    first, second = rank(readings, [RIB, RIB]).candidates
    other = replace(second, part="rib-t")

    def asked(share: float) -> list[str]:
        ranking = Ranking(candidates=(replace(first, share=share), other), unsized=())
        return questions(readings, ranking)

    assert asked(0.95) == []
    assert asked(0.949) == ["no measure taken tells rib-a from rib-t: look at the drawing"]


@pytest.mark.parametrize(
    ("sigmas", "words"),
    [
        (0.99, "no measure taken tells rib-a from rib-t: look at the drawing"),
        (1.0, "measure the length again: it best tells rib-a from rib-t"),
    ],
)
def test_a_measure_tells_two_parts_apart_from_one_deviation_on(sigmas: float, words: str) -> None:
    readings = measured(length=12.5, width=3.25)
    first, second = rank(readings, [RIB, RIB]).candidates
    length, width = second.deviations
    other = replace(
        second, part="rib-t", deviations=(replace(length, sigmas=length.sigmas - sigmas), width)
    )
    ranking = Ranking(candidates=(replace(first, share=0.5), other), unsized=())
    assert questions(readings, ranking) == [words]


def test_the_sheet_is_asked_about_in_full() -> None:
    readings = measured(thickness=0.0285)
    assert questions(readings, Ranking(candidates=(), unsized=("A", "B"))) == [
        BARE,
        "no sizes are recorded for A, B",
    ]


def test_what_to_do_first_comes_before_the_sheet() -> None:
    readings = measured(length=11.9, width=3.25, thickness=0.0285)
    stranger = rank(readings, [RIB])
    assert questions(readings, stranger)[0].startswith("none of the open parts")
    assert questions(readings, stranger)[1].startswith("the sheet may be 0.025 or 0.032 in")
    mirrored = rank(measured(length=12.5), [part("W-L", Hand.LEFT), part("W-R", Hand.RIGHT)])
    asked = questions(measured(thickness=0.0285), mirrored)
    assert [question[:10] for question in asked] == ["which hand", "the sheet "]


def test_two_gauges_are_named_even_where_a_coarse_reading_fits_more() -> None:
    readings = replace(measured(thickness=0.0285), reading={THICKNESS: INCH // 100})
    assert len(near_gauges(readings.sizes[THICKNESS], INCH // 100)) > 2
    (asked,) = questions(readings, Ranking(candidates=(), unsized=()))
    assert asked.startswith("the sheet may be 0.025 or 0.032 in: ")
