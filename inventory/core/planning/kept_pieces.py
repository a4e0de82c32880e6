"""What is still there of the pieces that were set aside for a step, or prepared."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import replace
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.items import State

if TYPE_CHECKING:
    from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence

    from inventory.core.items import Item
    from inventory.core.planning.workshop import SetAside


class MovedAtStep(NamedTuple):
    """Pieces that an act moved into a step; out of it where they are fewer than none."""

    act: int
    step: str
    item: Item
    pieces: int


class Kept(NamedTuple):
    """A person's word that pieces are kept for a step, with the number of the act."""

    act: int
    set_aside: SetAside


class Prepared(NamedTuple):
    """Pieces prepared in an act, or no longer so where they are fewer than none."""

    act: int
    word: str
    """One preparation, evened out as `preparations` does."""
    item: Item
    pieces: int


class Asking(NamedTuple):
    """A step asks for a preparation of a part."""

    step: str
    part: str
    word: str


def still_kept(
    kept: Iterable[Kept], moved: Sequence[MovedAtStep], open_steps: Collection[str]
) -> Iterator[SetAside]:
    """Yield what is still set aside: what went into the step since is no longer kept apart.

    A step that is done, or no longer in the plan, keeps nothing back.
    """
    for act, each in kept:
        gone = sum(
            move.pieces
            for move in moved
            if move.act > act and move.step == each.step and _same(each.item, move.item)
        )
        quantity = min(each.quantity, each.quantity - gone)
        if quantity > 0 and each.step in open_steps:
            yield replace(each, quantity=quantity)


def _same(kept: Item, moved: Item) -> bool:
    """Say whether a piece is of the kind kept; a kind without a lot means any lot."""
    return moved == (kept if kept.lot else replace(kept, lot=moved.lot))


def still_prepared(
    prepared: Sequence[Prepared],
    moved: Sequence[MovedAtStep],
    asking: Collection[Asking],
    usable: Mapping[Item, int],
) -> dict[tuple[str, Item], int]:
    """Return how many of the usable pieces are prepared, by word and item.

    A step that asks for the preparation takes prepared pieces, others take those that aren't;
    pieces that come back as new are as prepared as they went. Never more than there are.
    """
    left: Counter[tuple[str, Item]] = Counter()
    given: defaultdict[tuple[str, Item], Counter[str]] = defaultdict(Counter)
    words = dict.fromkeys((each.word, each.item) for each in prepared)
    events: list[Prepared | MovedAtStep] = [*prepared, *moved]
    for event in sorted(events, key=lambda event: event.act):
        if isinstance(event, Prepared):
            key = (event.word, event.item)
            left[key] = max(0, left[key] + event.pieces)
        elif event.item.state is State.NEW:
            for key in words:
                if key[1] == event.item and (event.step, event.item.part, key[0]) in asking:
                    more = _given(event, left[key], given[key][event.step])
                    given[key][event.step] += more
                    left[key] -= more
    return {
        key: pieces for key in words for pieces in [min(left[key], usable.get(key[1], 0))] if pieces
    }


def _given(move: MovedAtStep, left: int, given: int) -> int:
    """Return how many prepared pieces a move takes into a step; back from it below zero."""
    return min(move.pieces, left) if move.pieces > 0 else -min(-move.pieces, given)
