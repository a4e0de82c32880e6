"""Laying pieces out on sticks that are there, so that all of them fit."""

from __future__ import annotations

from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from collections.abc import Collection, Iterator, Sequence

MOST_TRIED = 3000
"""Placings tried before the search gives up: a hundredth of a second."""


class Laid(NamedTuple):
    """A piece to lay: the room it takes, kerf included, and the stock it may come from."""

    room: int
    stock: Collection[int]


class Rest(NamedTuple):
    """What is left of a stick, and which stock it is of."""

    room: int
    stock: int


def lay_out(pieces: Sequence[Laid], sticks: Sequence[Rest]) -> list[int] | None:
    """Return the stick of each piece, or None where no way was found to fit them all.

    Longest first, each where it leaves the least rest, going back where that leads nowhere
    (best fit decreasing, then depth first). The search is bounded: None may be too strict.
    """
    if sum(piece.room for piece in pieces) > sum(stick.room for stick in sticks):
        return None
    order = sorted(range(len(pieces)), key=lambda place: -pieces[place].room)
    left = list(sticks)
    placed: list[int] = []
    ways = [_choices(pieces[order[0]], left)]
    for _ in range(MOST_TRIED + len(order)):
        stick = next(ways[-1], None)
        if stick is not None:
            _cut(left, stick, pieces[order[len(placed)]].room)
            placed.append(stick)
            if len(placed) == len(order):
                return [stick for _, stick in sorted(zip(order, placed, strict=True))]
            ways.append(_choices(pieces[order[len(placed)]], left))
        elif placed:
            ways.pop()
            stick = placed.pop()
            _cut(left, stick, -pieces[order[len(placed)]].room)
        else:
            return None
    return None


def _cut(left: list[Rest], stick: int, room: int) -> None:
    left[stick] = Rest(left[stick].room - room, left[stick].stock)


def _choices(piece: Laid, left: Sequence[Rest]) -> Iterator[int]:
    """Return the sticks to try, the least rest first; of sticks that are alike only one."""
    fitting = {
        rest: number
        for number, rest in enumerate(left)
        if rest.room >= piece.room and rest.stock in piece.stock
    }
    return iter([fitting[rest] for rest in sorted(fitting)])
