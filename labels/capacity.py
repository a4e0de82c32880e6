"""How much a label can say, told before anything is printed."""

from __future__ import annotations

from bisect import bisect_left
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING

from labels.errors import LabelError
from labels.fitting import fit
from labels.label import Label, Line, Role
from labels.printer import UNKNOWN_PRINTER
from labels.symbol import Square

if TYPE_CHECKING:
    from collections.abc import Callable

    from labels.printer import Printer
    from labels.stock import LabelStock

_MOST = 150
_USUAL = "LT2000017X"
"""As long as the numbers of ours usually are."""
_ONE = Line("B", Role.HEADLINE)


@dataclass(frozen=True, slots=True)
class Capacity:
    """The longest texts in characters; 0 where not even one fits."""

    qr: int
    """Capitals and digits in a QR symbol, beside a headline of one character."""
    data_matrix: int
    """The same in Data Matrix."""
    code128: int
    """Capitals in Code 128, with the QR symbol of the same text; two digits count as one."""
    headline: int
    """Characters of the headline beside a QR symbol of one of our numbers."""


@cache
def capacity(
    stock: LabelStock, printer: Printer = UNKNOWN_PRINTER, distance: float = 700.0
) -> Capacity:
    """Return what a label can carry when its headline is read from `distance` millimetres."""

    def fits(label: Label, *, linear: bool = False) -> bool:
        try:
            laid_out = fit(label, stock, printer)
        except LabelError:
            return False
        return bool(laid_out.frame.bar) or not linear

    def coded(length: int, square: Square) -> Label:
        return Label(content="A" * length, lines=(_ONE,), square=square, distance=distance)

    def headed(length: int) -> Label:
        line = Line("B" * length, Role.HEADLINE)
        return Label(content=_USUAL, lines=(line,), distance=distance)

    return Capacity(
        qr=_longest(lambda length: fits(coded(length, Square.QR))),
        data_matrix=_longest(lambda length: fits(coded(length, Square.DATA_MATRIX))),
        code128=_longest(lambda length: fits(coded(length, Square.QR), linear=True)),
        headline=_longest(lambda length: fits(headed(length))),
    )


def _longest(fits: Callable[[int], bool]) -> int:
    """Return the largest number up to which everything fits."""
    return bisect_left(range(1, _MOST + 1), 1, key=lambda length: 0 if fits(length) else 1)
