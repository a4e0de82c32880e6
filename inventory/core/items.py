"""Part, hand, lot and state: what is counted."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass, replace
from enum import StrEnum

_DASHES = dict.fromkeys(
    map(ord, "\u2010\u2011\u2012\u2013\u2014\u2015\u2212\ufe58\ufe63\uff0d"), "-"
)
_INVISIBLE = dict.fromkeys(map(ord, "\u00ad\u200b\u200c\u200d\u2060\ufeff"))


class Hand(StrEnum):
    """Which side of the aircraft a part is for."""

    LEFT = "left"
    RIGHT = "right"
    EITHER = "either"
    """The list says that the part fits both sides."""
    NONE = "none"
    """No hand is said, or none is possible."""


class State(StrEnum):
    """Whether a piece is as delivered, or was trimmed or drilled."""

    NEW = "new"
    WORKED = "worked"


class Measure(StrEnum):
    """What a whole number of an item counts."""

    PIECES = "pieces"
    LENGTH = "length"
    """Nanometres."""
    MASS = "mass"
    """Nanograms."""
    VOLUME = "volume"
    """Picolitres."""
    AREA = "area"
    """Square micrometres: fabric and sheet sold by the square foot."""


@dataclass(frozen=True, slots=True, order=True)
class Item:
    """One kind of thing that lies somewhere: lots, lengths and worked pieces never merge."""

    part: str
    """The part number's key, as `part_key` makes it."""
    hand: Hand = Hand.NONE
    lot: str = ""
    length: int = 0
    """Nanometres of one bar, tube or remnant; 0 where length says nothing."""
    state: State = State.NEW


def part_key(printed: str) -> str:
    """Return the part number as it is compared: case, dashes and blanks evened out.

    Nothing else is repaired: O and 0, I and 1, lost zeros and lost dashes stay different.
    """
    text = printed
    if not text.isascii():
        text = unicodedata.normalize("NFKC", text).translate(_INVISIBLE).translate(_DASHES)
    return " ".join(text.split()).upper()


_OTHER = {Hand.LEFT: Hand.RIGHT, Hand.RIGHT: Hand.LEFT}


def mirror(item: Item) -> Item:
    """Return the same part of the other hand; a part without a hand is its own mirror."""
    other = _OTHER.get(item.hand)
    return replace(item, hand=other) if other else item


def fits(need: Hand, have: Hand) -> bool:
    """Say whether a piece of hand `have` may fill a need of hand `need`.

    Left never fills right. A part that the list calls EITHER fills any side; a need that says
    nothing about hand, or EITHER, is filled only by parts without a hand of their own.
    """
    return have is need or have is Hand.EITHER or (need is Hand.EITHER and have is Hand.NONE)
