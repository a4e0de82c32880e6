"""The bin map: shelf by shelf, each bin a field with what lies in it."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.natural_order import natural
from inventory.web.addresses import to
from inventory.web.drawings.marks import WIDE_CHARACTER, Spot, box, link, number, svg, text

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.documents.bin_map import Lying, MappedBin

ACROSS = 2
"""Bins side by side on a phone."""
_FIELD = Spot(0, 0, 176, 34)
_GAP = 8.0
_LINE = 17.0
_SHELF = 34.0
_SHORT = 6
_NARROW = 6.6
"""Width of a character of the small type, which long quantities are in."""
_SHOWN = 3
"""Items shown in a field; the table beside has all."""


def bin_map_svg(kit: str, bins: Sequence[MappedBin], across: int = ACROSS) -> str:
    """Return a field for each bin, some side by side, shelf by shelf; each leads to its page."""
    shelves: defaultdict[str, list[MappedBin]] = defaultdict(list)
    for each in sorted(bins, key=lambda one: natural(one.name)):
        shelves[each.shelf].append(each)
    marks: list[str] = []
    y = 0.0
    for shelf in sorted(shelves, key=lambda name: (not name, natural(name))):
        marks.append(text(0, y + 22, shelf or "On no shelf", "strong"))
        y += _SHELF
        for row in _rows(shelves[shelf], across):
            tall = _FIELD.height + _LINE * max(min(len(each.contents), _SHOWN) for each in row)
            for place, each in enumerate(row):
                x = place * (_FIELD.width + _GAP)
                marks.append(_field(kit, each, Spot(x, y, _FIELD.width, tall)))
            y += tall + _GAP
    empty = sum(not each.contents for each in bins)
    title = f"Bin map: {counted(len(bins), 'bin')}, {empty} of them empty"
    return svg((across * (_FIELD.width + _GAP) - _GAP, max(y, 1.0)), title, marks)


def _rows(bins: Sequence[MappedBin], across: int) -> list[Sequence[MappedBin]]:
    return [bins[first : first + across] for first in range(0, len(bins), across)]


def _field(kit: str, bin_: MappedBin, spot: Spot) -> str:
    x, y = spot.x, spot.y
    marks = [box(spot), text(x + 8, y + 20, bin_.name, "number")]
    lines = bin_.contents[:_SHOWN]
    for place, each in enumerate(lines):
        marks += _line(each, x, y + 40 + _LINE * place)
    more = len(bin_.contents) - len(lines)
    words = "empty" if not bin_.contents else f"and {more} more" if more else ""
    if words:
        marks.append(text(x + spot.width - 8, y + 20, words, "small end"))
    return link(to(kit, "bin", name=bin_.name), marks)


def _line(one: Lying, x: float, y: float) -> list[str]:
    hand = {"left": " L", "right": " R"}.get(one.hand, "")
    quantity = one.quantity
    long = len(quantity) > _SHORT
    room = _FIELD.width - 24 - len(quantity) * (_NARROW if long else WIDE_CHARACTER)
    return [
        number(x + 8, y, one.part + hand, room, "narrow"),
        text(x + _FIELD.width - 8, y, quantity, "small end" if long else "strong end"),
    ]
