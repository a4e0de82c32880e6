"""What lies where today, as far as a plan asks."""

from __future__ import annotations

from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping

    from inventory.core.items import Item


class Aside(StrEnum):
    """Why pieces that lie there don't count."""

    HOLD = "on hold"
    EXPIRED = "expired"
    CRATE = "still in its crate"
    WORKED = "worked"
    OTHER_HAND = "of the other hand"
    OTHER_LENGTH = "of another length"
    KEPT = "set aside for another step"


@frozen(kw_only=True)
class Due:
    """Pieces still to come."""

    part: str
    hand: Hand = Hand.NONE
    length: int = 0
    """Nanometres of each stock length; 0 where length says nothing."""
    quantity: int
    source: str
    """From which shipment or order, in words."""
    promised: dt.date | None = None
    """None where nobody named a date: never a far date instead."""
    latest: dt.date | None = None
    """The late end where the supplier gave a range."""


@frozen
class StandIn:
    """A recorded decision: where the plan says `part`, `instead` may be used."""

    part: str
    instead: str
    step: str = ""
    """Only for this step; everywhere where it is empty."""
    decided: str = ""
    """Who decided, by what source."""


@frozen
class SetAside:
    """Pieces that a person keeps for one step; no other step may have them."""

    step: str
    item: Item
    quantity: int


@frozen
class Saw:
    """What the saw takes away; nanometres."""

    kerf: int = 3_175_000
    """One cut: 1/8 in unless the person measured their own saw (hardware practice, no source)."""
    trim: int = 0
    """Both ends of a stick together, where they are dirty or out of square."""


@frozen(kw_only=True)
class Workshop:
    """The state of one kit on one day; every quantity is whole and in the part's measure."""

    usable: Mapping[Item, int] = field(default_factory=dict)
    """In bins: nothing on hold, nothing expired, nothing in a crate."""
    issued: Mapping[tuple[str, Item], int] = field(default_factory=dict)
    """By step and item: what lies in the step."""
    done: frozenset[str] = frozenset()
    started: frozenset[str] = frozenset()
    due: tuple[Due, ...] = ()
    set_aside: tuple[SetAside, ...] = ()
    """Part of `usable`."""
    aside: Mapping[Aside, Mapping[Item, int]] = field(default_factory=dict)
    """On hold, expired, in a crate: shown, never counted."""
    prepared: Mapping[tuple[str, Item], int] = field(default_factory=dict)
    """By the builder's own word (for instance primed) and item: how many of the usable pieces."""
    stand_ins: tuple[StandIn, ...] = ()
    saw: Saw = Saw()
