from __future__ import annotations

import pytest

from labels.geometry import Rect, points


def test_an_inch_is_72_points() -> None:
    assert points(25.4) == pytest.approx(72)


def test_inset_takes_the_margin_off_every_side() -> None:
    assert Rect(10, 20, 100, 50).inset(2, 3) == Rect(12, 23, 96, 44)


@pytest.mark.parametrize(
    ("inner", "held"),
    [
        (Rect(0, 0, 10, 10), True),
        (Rect(1, 2, 3, 4), True),
        (Rect(-1, 0, 5, 5), False),
        (Rect(0, -1, 5, 5), False),
        (Rect(6, 0, 5, 5), False),
        (Rect(0, 6, 5, 5), False),
    ],
)
def test_holds_what_lies_inside(inner: Rect, *, held: bool) -> None:
    assert Rect(0, 0, 10, 10).holds(inner) is held


def test_moved_keeps_the_size() -> None:
    assert Rect(1, 2, 3, 4).moved(10, 20) == Rect(11, 22, 3, 4)
