"""The most valuable pieces that fit on a stick, for every length of stick at once."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence

    from numpy import bool_, int64
    from numpy.typing import NDArray

FINEST = 40_000
"""Steps of room told apart; a longer stick is measured in coarser ones."""


class Knapsack:
    """Pieces of given sizes, each in so many copies, packed by dynamic programming.

    Bounded knapsack (Gilmore and Gomory 1961 use it to price cutting patterns), copies split in
    powers of two. Where the sizes have no common step that gives few enough, they are rounded
    down: what comes out is then never too small, and its pieces may not quite fit.
    """

    def __init__(
        self, sizes: Sequence[int], copies: Sequence[int], capacity: int, step: int
    ) -> None:
        self.sizes = tuple(sizes)
        self.step = max(step, -(-capacity // FINEST))
        self._room = capacity // self.step
        self._lots = [
            (item, lot, lot * (size // self.step))
            for item, (size, count) in enumerate(zip(sizes, copies, strict=True))
            for lot in lots(min(count, capacity // size))
            if lot * (size // self.step) <= self._room
        ]

    def packed(self, values: Sequence[int]) -> Packed:
        """Return the best packings for these values of one piece each (whole numbers)."""
        import numpy as np  # noqa: PLC0415  comes with HiGHS; costs a tenth of a second

        best = np.zeros(self._room + 1, dtype=np.int64)
        took = np.zeros((len(self._lots), self._room + 1), dtype=np.bool_)
        for row, (item, lot, size) in enumerate(self._lots):
            value = lot * values[item]
            if value > 0:
                with_lot = best[: self._room + 1 - size] + value
                better = took[row, size:]
                np.greater(with_lot, best[size:], out=better)
                np.maximum(with_lot, best[size:], out=best[size:])
        return Packed(self, best, took)

    def at_most(self, values: Sequence[int]) -> AtMost:
        """Return what the items from each one on can be worth at most, in every room."""
        import numpy as np  # noqa: PLC0415  comes with HiGHS; costs a tenth of a second

        tables = [np.zeros(self._room + 1, dtype=np.int64)]
        for item in reversed(range(len(self.sizes))):
            best = tables[-1].copy()
            for _, lot, size in (lot for lot in self._lots if lot[0] == item):
                with_lot = best[: self._room + 1 - size] + lot * values[item]
                np.maximum(with_lot, best[size:], out=best[size:])
            tables.append(best)
        return AtMost(self.step, [table.tolist() for table in reversed(tables)])

    @property
    def rows(self) -> list[tuple[int, int, int]]:
        """Which item, how many of it, and how much room they take, for each row of the table."""
        return self._lots


class Packed:
    """The table of best packings for one set of values."""

    def __init__(self, knapsack: Knapsack, best: NDArray[int64], took: NDArray[bool_]) -> None:
        self._knapsack = knapsack
        self._best = best
        self._took = took

    def value(self, capacity: int) -> int:
        """Return what the most valuable packing of a stick is worth."""
        return int(self._best[capacity // self._knapsack.step])

    def pieces(self, capacity: int) -> tuple[int, ...]:
        """Return how many of each item that packing holds."""
        room = capacity // self._knapsack.step
        counts = [0] * len(self._knapsack.sizes)
        for row in reversed(range(len(self._knapsack.rows))):
            if self._took[row, room]:
                item, lot, size = self._knapsack.rows[row]
                counts[item] += lot
                room -= size
        return tuple(counts)


class AtMost:
    """Bounds for a search that decides item after item."""

    def __init__(self, step: int, tables: list[list[int]]) -> None:
        self._step = step
        self._tables = tables

    def value(self, item: int, room: int) -> int:
        """Return what this item and those after it can be worth at most in this room."""
        return self._tables[item][room // self._step]


def lots(count: int) -> Iterator[int]:
    """Split a number of copies so that every number up to it is a sum of some."""
    lot = 1
    while count > 0:
        yield min(lot, count)
        count -= lot
        lot *= 2
