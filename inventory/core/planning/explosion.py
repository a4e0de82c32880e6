"""What an assembly takes of every part below it, period by period."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import field
from enum import StrEnum
from typing import TYPE_CHECKING, NamedTuple

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence


class Component(NamedTuple):
    """So many of a part in one piece of the assembly above it."""

    part: str
    quantity: int


Structure = dict[str, tuple[Component, ...]]
"""By assembly: what one piece of it is made of."""


class LotRule(StrEnum):
    """How much is ordered or made at a time."""

    AS_NEEDED = "as needed"
    AT_LEAST = "at least"
    MULTIPLE = "multiple"


@frozen(kw_only=True)
class Holding:
    """What is there of a part, what is coming, and how it is got."""

    on_hand: int = 0
    receipts: Mapping[int, int] = field(default_factory=dict)
    """By period, counted from 1."""
    lead_time: int = 0
    """Periods between ordering and having it."""
    lot_rule: LotRule = LotRule.AS_NEEDED
    lot: int = 1

    def lot_for(self, net: int) -> int:
        """Return how much is ordered where so much is missing."""
        if self.lot_rule is LotRule.AS_NEEDED:
            return net
        if self.lot_rule is LotRule.AT_LEAST:
            return max(net, self.lot)
        return -(-net // self.lot) * self.lot


@frozen(kw_only=True)
class Requirement:
    """One part through all periods; zeros are left out of the mappings."""

    low_level_code: int
    gross: Mapping[int, int]
    net: Mapping[int, int]
    orders_in: Mapping[int, int]
    """Planned receipts, in the period in which they are there."""
    orders_out: Mapping[int, int]
    """The same, in the period in which they must be ordered; before 1 it is too late already."""
    on_hand: tuple[int, ...]
    """At the end of each period."""


def low_level_codes(structure: Mapping[str, Sequence[Component]]) -> dict[str, int]:
    """Return for each part the longest way down to it from anything that nothing is made of.

    Parts are netted in this order: one that is used on two levels would else be netted twice.
    Raises `ValueError` with the circle where an assembly is part of itself.
    """
    codes: dict[str, int] = {}
    for part in sorted(structure):
        if part not in codes:
            _number(part, structure, codes, [part])
    return codes


def _number(
    part: str,
    structure: Mapping[str, Sequence[Component]],
    codes: dict[str, int],
    way: list[str],
) -> None:
    codes[part] = max(codes.get(part, 0), len(way) - 1)
    for component in structure.get(part, ()):
        if component.part in way:
            raise ValueError(
                "an assembly is part of itself: "
                + " -> ".join([*way[way.index(component.part) :], component.part])
            )
        if codes.get(component.part, 0) < len(way):
            _number(component.part, structure, codes, [*way, component.part])


def explode(
    structure: Mapping[str, Sequence[Component]],
    holdings: Mapping[str, Holding],
    demand: Mapping[str, Mapping[int, int]],
    periods: int,
) -> dict[str, Requirement]:
    """Return what is needed, ordered and left of every part, from the top down.

    net = gross - what was left - what comes in; an order for it goes out a lead time earlier and
    makes the gross requirement of the parts below. What should have been ordered before period 1
    keeps its true (past) period; the parts below it are then wanted in period 1.
    """
    codes = low_level_codes(structure)
    every = sorted({*codes, *holdings, *demand}, key=lambda part: (codes.get(part, 0), part))
    gross: defaultdict[str, Counter[int]] = defaultdict(Counter)
    for part, wanted in demand.items():
        gross[part].update(wanted)
    found: dict[str, Requirement] = {}
    for part in every:
        holding = holdings.get(part, Holding())
        found[part] = _netted(gross[part], holding, codes.get(part, 0), periods)
        for period, quantity in found[part].orders_out.items():
            for component in structure.get(part, ()):
                gross[component.part][max(1, period)] += quantity * component.quantity
    return found


def _netted(gross: Mapping[int, int], holding: Holding, code: int, periods: int) -> Requirement:
    left = holding.on_hand
    net: dict[int, int] = {}
    orders: dict[int, int] = {}
    on_hand = []
    for period in range(1, periods + 1):
        there = left + holding.receipts.get(period, 0)
        missing = max(0, gross.get(period, 0) - there)
        if missing:
            net[period] = missing
            orders[period] = holding.lot_for(missing)
        left = there + orders.get(period, 0) - gross.get(period, 0)
        on_hand.append(left)
    return Requirement(
        low_level_code=code,
        gross={period: gross[period] for period in sorted(gross) if gross[period]},
        net=net,
        orders_in=orders,
        orders_out={period - holding.lead_time: quantity for period, quantity in orders.items()},
        on_hand=tuple(on_hand),
    )


def total_below(structure: Mapping[str, Sequence[Component]], top: str) -> dict[str, int]:
    """Return how many of every part are in one piece of an assembly, on all levels together."""
    codes = low_level_codes(structure)
    total: Counter[str] = Counter({top: 1})
    for part in sorted(codes, key=codes.__getitem__):
        for component in structure.get(part, ()):
            total[component.part] += total[part] * component.quantity
    return {part: quantity for part, quantity in total.items() if quantity and part != top}
