"""Whether the pieces that steps want cut come out of the stock on hand, in build order."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import TYPE_CHECKING, Generic, NamedTuple, TypeVar

from inventory.core.filling import Share

if TYPE_CHECKING:
    from collections.abc import Hashable, Sequence

    from inventory.core.workshop import Saw

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


@dataclass(frozen=True, slots=True)
class _Piece(Generic[K]):
    length: int
    line: int
    stock: tuple[K, ...]


def pieces_to_cut(
    wanted: Sequence[CutWanted[K]], sticks: Sequence[Stick[K]], saw: Saw
) -> list[tuple[Share[K], ...]]:
    """Return for each need how many of its pieces come out of which stock, earlier needs first.

    A stick takes pieces while their lengths and a kerf between each two stay within its length
    less the trims. Placed where they fit best; where that fails, all are laid out anew, longest
    first. A cutting plan may still find room where this doesn't; it never promises too much.
    """
    room = [stick.length - saw.trim + saw.kerf for stick in sticks]
    placed: list[tuple[_Piece[K], int]] = []
    for number, want in enumerate(wanted):
        for _ in range(want.quantity):
            piece = _Piece(want.length, number, want.stock)
            more = _laid(placed, piece, sticks, room, saw)
            if more is None:
                break
            placed, room = more
    shares = [Counter[K]() for _ in wanted]
    for piece, stick in placed:
        shares[piece.line][sticks[stick].stock] += 1
    return [tuple(Share(stock, pieces) for stock, pieces in share.items()) for share in shares]


def _laid(
    placed: list[tuple[_Piece[K], int]],
    piece: _Piece[K],
    sticks: Sequence[Stick[K]],
    room: list[int],
    saw: Saw,
) -> tuple[list[tuple[_Piece[K], int]], list[int]] | None:
    """Place one more piece, moving the others only if it doesn't fit otherwise."""
    stick = _best_stick(piece, sticks, room, saw)
    if stick is not None:
        room[stick] -= piece.length + saw.kerf
        return [*placed, (piece, stick)], room
    anew: list[tuple[_Piece[K], int]] = []
    fresh = [stick.length - saw.trim + saw.kerf for stick in sticks]
    every = sorted((*(each for each, _ in placed), piece), key=lambda each: -each.length)
    for each in every:
        stick = _best_stick(each, sticks, fresh, saw)
        if stick is None:
            return None
        fresh[stick] -= each.length + saw.kerf
        anew.append((each, stick))
    return anew, fresh


def _best_stick(
    piece: _Piece[K], sticks: Sequence[Stick[K]], room: Sequence[int], saw: Saw
) -> int | None:
    """Return the stick with the least room that still takes the piece."""
    fitting = (
        number
        for number, stick in enumerate(sticks)
        if room[number] >= piece.length + saw.kerf and stick.stock in piece.stock
    )
    return min(fitting, key=lambda number: room[number], default=None)
