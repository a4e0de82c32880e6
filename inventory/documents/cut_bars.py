"""A bar with the pieces to cut from it, and where the tape measure has to show each cut."""

from __future__ import annotations

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.lengths import show_length


@frozen(kw_only=True)
class CutPiece:
    """One piece to cut."""

    name: str
    """Part number or what the piece becomes."""
    length: int
    """Nanometres."""
    step: str = ""


@frozen(kw_only=True)
class CutBar:
    """One bar or remnant, or several that are cut alike; all lengths in nanometres."""

    name: str
    """`bar 1`, or the number of a remnant."""
    stock: str
    """Profile, material and temper in words."""
    length: int
    kerf: int
    front_trim: int = 0
    """Cut away before the first piece, saw cut included."""
    back_trim: int = 0
    """Not to be used at the far end."""
    pieces: tuple[CutPiece, ...]
    times: int = 1
    remnant: str = ""
    """Number of the label for what is left; empty where it goes to scrap."""
    unit: str = "mm"
    """Unit in which lengths are shown: mm, in or ft."""


@frozen
class Placed:
    """A piece on its bar; both marks are read on a tape hooked to the bar's first end."""

    number: int
    piece: CutPiece
    start: int
    end: int


def placed_pieces(bar: CutBar) -> tuple[Placed, ...]:
    """Return the pieces with their marks, a kerf between each and the next.

    Raises `InventoryError` where they are longer than the bar.
    """
    start = bar.front_trim
    placed: list[Placed] = []
    for number, piece in enumerate(bar.pieces, start=1):
        placed.append(Placed(number, piece, start, start + piece.length))
        start += piece.length + bar.kerf
    if placed and placed[-1].end > bar.length - bar.back_trim:
        raise InventoryError(
            f"the pieces of {bar.name} end at {shown(bar, placed[-1].end)},"
            f" the bar at {shown(bar, bar.length)}",
            where=bar.stock,
            remedy="Plan the cuts again.",
        )
    return tuple(placed)


def left_over(bar: CutBar) -> int:
    """Return what is left behind the last cut, in nanometres; 0 where nothing is."""
    placed = placed_pieces(bar)
    used = placed[-1].end + bar.kerf if placed else bar.front_trim
    return max(0, bar.length - bar.back_trim - used)


def shown(bar: CutBar, length: int) -> str:
    """Return a length in the bar's unit."""
    return show_length(length, bar.unit)


def left_words(bar: CutBar) -> str:
    """Say what is left, and whether it gets a label."""
    left = left_over(bar)
    if not left:
        return "nothing left"
    kept = f"remnant {bar.remnant}" if bar.remnant else "scrap"
    return f"left {shown(bar, left)}: {kept}"


def title(bar: CutBar) -> str:
    """Return the bar's heading."""
    times = f"{bar.times} × " if bar.times > 1 else ""
    return f"{times}{bar.name}: {bar.stock}, {shown(bar, bar.length)}"
