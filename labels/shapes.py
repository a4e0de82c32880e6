"""Outlines of flags as PDF path operators: told apart by shape, without colour."""

from __future__ import annotations

from typing import TYPE_CHECKING, assert_never

from labels.geometry import points
from labels.label import Shape

if TYPE_CHECKING:
    from labels.geometry import Rect

_ROUND = 0.5523
"""Distance of control points that makes four cubic curves a circle (4/3 x (sqrt 2 - 1))."""

_LEAN = 0.22
"""How far a stripe leans, over its height."""


def flag_path(shape: Shape, area: Rect) -> str:
    """Return the filled outline of a flag, in points with y upwards from the label's top."""
    left, right = points(area.x), points(area.right)
    top, bottom = -points(area.y), -points(area.bottom)
    end = (top - bottom) / 2
    middle = (top + bottom) / 2
    match shape:
        case Shape.POINTED_LEFT:
            corners = (
                (left, middle), (left + end, top), (right, top), (right, bottom),
                (left + end, bottom),
            )  # fmt: skip
            return _polygon(corners)
        case Shape.ROUND_RIGHT:
            return _round_right(left, right, top, bottom)
        case Shape.STRIPED:
            return _striped(left, right, top, bottom)
        case Shape.CROSSED:
            return _crossed(left, right, top, bottom)
        case Shape.PLAIN:
            return f"{left:.2f} {bottom:.2f} {right - left:.2f} {top - bottom:.2f} re f"
        case _:
            assert_never(shape)


def _polygon(corners: tuple[tuple[float, float], ...]) -> str:
    """Return a filled polygon."""
    steps = " ".join(
        f"{x:.2f} {y:.2f} {'l' if number else 'm'}" for number, (x, y) in enumerate(corners)
    )
    return f"{steps} f"


def _round_right(left: float, right: float, top: float, bottom: float) -> str:
    """Return a bar whose right end is half a circle."""
    radius = (top - bottom) / 2
    reach = radius * _ROUND
    middle, start = (top + bottom) / 2, right - radius
    beyond = start + reach
    return (
        f"{left:.2f} {top:.2f} m {start:.2f} {top:.2f} l"
        f" {beyond:.2f} {top:.2f} {right:.2f} {middle + reach:.2f} {right:.2f} {middle:.2f} c"
        f" {right:.2f} {middle - reach:.2f} {beyond:.2f} {bottom:.2f} {start:.2f} {bottom:.2f} c"
        f" {left:.2f} {bottom:.2f} l f"
    )


def _striped(left: float, right: float, top: float, bottom: float) -> str:
    """Return a bar with a slanting stripe before and behind it."""
    height = top - bottom
    stripe, body = height * 0.2, height * 0.5
    block = f"{left + body:.2f} {bottom:.2f} {right - left - 2 * body:.2f} {height:.2f} re f"
    behind = right - stripe - height * _LEAN
    return " ".join(
        [_slanted(left, stripe, top, bottom), block, _slanted(behind, stripe, top, bottom)]
    )


def _slanted(x: float, width: float, top: float, bottom: float) -> str:
    """Return one stripe that leans to the right."""
    lean = (top - bottom) * _LEAN
    return _polygon(((x, bottom), (x + width, bottom), (x + width + lean, top), (x + lean, top)))


def _crossed(left: float, right: float, top: float, bottom: float) -> str:
    """Return a bar with a notch cut into each of its ends, as an X leaves it."""
    notch = (top - bottom) / 2
    middle = (top + bottom) / 2
    return _polygon(
        (
            (left, top),
            (right, top),
            (right - notch, middle),
            (right, bottom),
            (left, bottom),
            (left + notch, middle),
        )
    )
