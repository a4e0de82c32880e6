"""Outlines of flags: every corner by hand, on a flag 40 mm wide and 10 mm tall."""

from __future__ import annotations

import math

import pytest

from labels.geometry import Rect
from labels.label import Shape
from labels.shapes import flag_path

AREA = Rect(10, 20, 40, 10)
MILLIMETRES = 25.4 / 72
OPERATORS = {"m", "l", "c", "re", "f"}
Point = tuple[float, float]


def corners(path: str) -> list[Point]:
    """Return the corners of polygons in millimetres from the top left, in drawing order."""
    numbers = [float(word) * MILLIMETRES for word in path.split() if word not in OPERATORS]
    return [(x, -y) for x, y in zip(numbers[::2], numbers[1::2], strict=True)]


def signs(path: str) -> str:
    """Return the operators alone: m begins, l goes on, c curves, re is a rectangle, f fills."""
    return " ".join(word for word in path.split() if word in OPERATORS)


@pytest.mark.parametrize(
    ("shape", "expected"),
    [
        # the point stands as far out as half the flag is tall
        (Shape.POINTED_LEFT, [(10, 25), (15, 20), (50, 20), (50, 30), (15, 30)]),
        (Shape.CROSSED, [(10, 20), (50, 20), (45, 25), (50, 30), (10, 30), (15, 25)]),
    ],
)
def test_corners_of_a_polygon(shape: Shape, expected: list[Point]) -> None:
    path = flag_path(shape, AREA)
    assert signs(path) == "m" + " l" * (len(expected) - 1) + " f"
    for found, by_hand in zip(corners(path), expected, strict=True):
        assert found == pytest.approx(by_hand, abs=0.005)


def test_a_plain_flag_is_a_bar() -> None:
    path = flag_path(Shape.PLAIN, AREA)
    left_and_bottom, (width, height) = corners(path)
    assert signs(path) == "re f"
    assert left_and_bottom == pytest.approx((10, 30), abs=0.005)
    assert (width, -height) == pytest.approx((40, 10), abs=0.005)


def test_a_striped_flag_has_a_leaning_stripe_at_each_end() -> None:
    """Stripes are a fifth of the height wide, lean by 0.22 of it, and the bar begins at half."""
    path = flag_path(Shape.STRIPED, AREA)
    assert signs(path) == "m l l l f re f m l l l f"
    found = corners(path)
    before, block, behind = found[:4], found[4:6], found[6:]
    for stripe, left in ((before, 10.0), (behind, 45.8)):
        by_hand = [(left, 30), (left + 2, 30), (left + 4.2, 20), (left + 2.2, 20)]
        for corner, expected in zip(stripe, by_hand, strict=True):
            assert corner == pytest.approx(expected, abs=0.005)
    assert block[0] == pytest.approx((15, 30), abs=0.005)
    assert (block[1][0], -block[1][1]) == pytest.approx((30, 10), abs=0.005)


def test_the_round_end_is_half_a_circle() -> None:
    """Points along both curves lie within a thousandth of the radius of 5 mm around (45, 25)."""
    path = flag_path(Shape.ROUND_RIGHT, AREA)
    assert signs(path) == "m l c c l f"
    found = corners(path)
    assert found[:2] == [pytest.approx((10, 20), abs=0.005), pytest.approx((45, 20), abs=0.005)]
    assert found[4] == pytest.approx((50, 25), abs=0.005)
    assert found[7:] == [pytest.approx((45, 30), abs=0.005), pytest.approx((10, 30), abs=0.005)]
    for start in (1, 4):
        ends = found[start : start + 4]
        for part in (n / 10 for n in range(11)):
            shares = [
                (1 - part) ** 3,
                3 * part * (1 - part) ** 2,
                3 * part**2 * (1 - part),
                part**3,
            ]
            x, y = (
                sum(s * end[axis] for s, end in zip(shares, ends, strict=True)) for axis in (0, 1)
            )
            assert math.hypot(x - 45, y - 25) == pytest.approx(5, abs=0.01)
