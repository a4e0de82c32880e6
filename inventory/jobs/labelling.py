"""Giving places and items their numbers, so that labels can be printed."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.errors import NotFoundError
from inventory.core.places import PlaceKind
from inventory.jobs.putting_away import known_bin
from inventory.store.names import all_parts, places_of
from inventory.store.stock import lying
from inventory.store.tags import tags_for

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.jobs.acts import Bench


@dataclass(frozen=True, slots=True)
class NumberedBin:
    """A bin with its number for the label, and what lies in it."""

    place: Place
    own_id: str
    contents: tuple[tuple[Item, str, str], ...]
    """Each item once, with its part number as printed and its description."""


def numbered_bins(bench: Bench, names: Sequence[str] = ()) -> list[NumberedBin]:
    """Return the bins named, or all; each is given a number if it has none yet.

    Numbers are given once and stay: printing again gives the same label.
    """
    with bench.store.writing(bench.kit.id) as db:
        every = list(places_of(db, bench.kit.id, PlaceKind.BIN))
        places = [known_bin(db, bench.kit, name) for name in names] or every
        if not places:
            raise NotFoundError(
                "there are no bins yet", remedy="Add them: kitwright bin add B-01..B-12"
            )
        numbers = tags_for(db, bench.kit, places)
        there = lying(db, bench.kit.id, kinds=[PlaceKind.BIN])
        parts = all_parts(db, bench.kit.id)
    return [
        NumberedBin(
            place,
            numbers[place],
            tuple(
                (lies.item, parts[lies.item.part].printed, parts[lies.item.part].description)
                for lies in there
                if lies.place == place
            ),
        )
        for place in places
    ]
