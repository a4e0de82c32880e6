"""Preparation: which pieces lie there, but aren't deburred, primed or what the step asks for."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.items import State
from inventory.core.planning.filling import Filling, Share
from inventory.core.planning.open_needs import Pool

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Item
    from inventory.core.planning.open_needs import OpenNeed


def preparations(text: str) -> tuple[str, ...]:
    """Return the single preparations of a text such as `deburred, primed`, evened out."""
    if not text:
        return ()
    words = (" ".join(word.split()).casefold() for word in text.replace(";", ",").split(","))
    return tuple(dict.fromkeys(word for word in words if word))


def unprepared_pieces(
    lines: Sequence[OpenNeed],
    filled: Sequence[tuple[Share[Pool], ...]],
    prepared: Mapping[tuple[str, Item], int],
) -> list[int]:
    """Return for each need how many of its pieces lack a preparation; earlier steps go first."""
    supply: defaultdict[tuple[str, Pool], int] = defaultdict(int)
    for (word, item), quantity in prepared.items():
        if item.state is State.NEW:
            supply[word.casefold(), Pool(item.part, item.hand, item.length)] += quantity
    filling = Filling(supply)
    return [
        max(
            (_lacking(filling, word, shares) for word in preparations(line.need.prepared)),
            default=0,
        )
        for line, shares in zip(lines, filled, strict=True)
    ]


def _lacking(filling: Filling[tuple[str, Pool]], word: str, shares: tuple[Share[Pool], ...]) -> int:
    return sum(
        quantity - filling.take(((word, pool._replace(kept_for="")),), quantity)
        for pool, quantity in shares
    )
