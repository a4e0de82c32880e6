"""Whether the pieces that steps want cut come out of the stock on hand, in build order."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from inventory.core.cutting.laying_out import Laid, Rest, lay_out
from inventory.core.planning.filling import Share

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from inventory.core.planning.workshop import Saw

K = TypeVar("K", bound="Hashable")


class CutWanted(NamedTuple, Generic[K]):
    """Pieces of one length (nanometres), and the stock they may be cut from."""

    length: int
    quantity: int
    stock: tuple[K, ...]


class Stick(NamedTuple, Generic[K]):
    """One bar, tube or remnant that lies there."""

    stock: K
    length: int


def pieces_to_cut(
    wanted: Sequence[CutWanted[K]], sticks: Sequence[Stick[K]], saw: Saw
) -> list[tuple[Share[K], ...]]:
    """Return for each need how many of its pieces come out of which stock, earlier needs first.

    A stick takes pieces while their lengths and a kerf between each two stay within its length
    less the trims. It never promises too much; of many pieces that only just fit it may promise
    too few, since the search for a way to lay them out is bounded.
    """
    kinds = dict.fromkeys(stick.stock for stick in sticks)
    names = {stock: number for number, stock in enumerate(kinds)}
    rooms = [Rest(stick.length - saw.trim + saw.kerf, names[stick.stock]) for stick in sticks]
    cutting = _Cutting(rooms)
    for number, want in enumerate(wanted):
        stock = frozenset(names[each] for each in want.stock)
        for _ in range(want.quantity):
            cutting.add(Laid(want.length + saw.kerf, stock), number)
    shares = [Counter[K]() for _ in wanted]
    for number, stick in zip(cutting.needs, cutting.at, strict=True):
        shares[number][sticks[stick].stock] += 1
    return [tuple(Share(stock, pieces) for stock, pieces in share.items()) for share in shares]


class _Cutting:
    """Pieces laid out so far; each new one may move the others, but never pushes one out."""

    def __init__(self, sticks: list[Rest]) -> None:
        self._sticks = sticks
        self._left = list(sticks)
        self._pieces: list[Laid] = []
        self.needs: list[int] = []
        self.at: list[int] = []
        self._refused: dict[frozenset[int], int] = {}

    def add(self, piece: Laid, need: int) -> None:
        """Lay one more piece if there is room."""
        stock = frozenset(piece.stock)
        if piece.room >= self._refused.get(stock, piece.room + 1):
            return
        alone = lay_out([piece], self._left)
        at = [*self.at, alone[0]] if alone else lay_out([*self._pieces, piece], self._sticks)
        if at is None:
            self._refused[stock] = piece.room
            return
        self._pieces.append(piece)
        self.needs.append(need)
        self.at = at
        self._left = self._rests()

    def _rests(self) -> list[Rest]:
        used = Counter[int]()
        for piece, stick in zip(self._pieces, self.at, strict=True):
            used[stick] += piece.room
        return [
            Rest(stick.room - used[number], stick.stock)
            for number, stick in enumerate(self._sticks)
        ]
