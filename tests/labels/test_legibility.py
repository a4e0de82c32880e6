from __future__ import annotations

import pytest

from labels.legibility import better_cap, least_cap, shortened, type_size


@pytest.mark.parametrize(
    ("distance", "least", "better"),
    # NUREG-0700 Rev. 3, 11.4.1.5-1: height over distance 0.004 at least, 0.006 preferred
    [(500, 2.0, 3.0), (700, 2.8, 4.2), (1000, 4.0, 6.0), (1500, 6.0, 9.0), (2000, 8.0, 12.0)],
)
def test_letters_grow_with_the_distance(distance: float, least: float, better: float) -> None:
    assert least_cap(distance) == pytest.approx(least)
    assert better_cap(distance) == pytest.approx(better)


def test_type_size_makes_capitals_of_the_height_wanted() -> None:
    # DejaVu's capitals are 1493 of 2048 units tall: 10 mm of them are 28.35 pt / 0.729
    assert type_size(10) == pytest.approx(38.88, abs=0.01)


@pytest.mark.parametrize(
    ("text", "room", "short"),
    [
        ("Nose rib, outboard, with lightening holes", 30, "Nose rib, … lightening holes"),
        ("Nose rib, outboard, with lightening holes", 13, "Nose … holes"),
        ("Nose rib, outboard, with lightening holes", 7, "Nose …"),
        ("Angle 3/4 x 3/4 x 0.063, 6061-T6", 20, "Angle 3/4 … 6061-T6"),
        ("Angle 0.063", 7, "Angle …"),
        ("Uninterruptedness", 9, "Unin…ness"),
        ("Uninterruptedness", 8, "Unin…ess"),
        ("Uninterruptedness", 3, "U…s"),
        ("Uninterruptedness", 1, "…"),
    ],
)
def test_words_are_left_out_of_the_middle_and_never_cut(text: str, room: int, short: str) -> None:
    assert shortened(text, lambda tried: len(tried) <= room) == short
