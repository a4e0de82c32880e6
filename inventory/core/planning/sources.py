"""What covers the needs today: stock, sub-assemblies that steps make, stock to be cut."""

from __future__ import annotations

from collections import defaultdict
from typing import TYPE_CHECKING, NamedTuple, Protocol, TypeVar

from inventory.core.cutting.cut_needs import CutWanted, Stick, pieces_to_cut
from inventory.core.items import fits
from inventory.core.planning.filling import Filling, Share, Wanted, fill
from inventory.core.planning.open_needs import OpenNeed, Pool, takes_from_stock
from inventory.core.planning.plan import NeedKind

if TYPE_CHECKING:
    from collections.abc import Iterable, Mapping, Sequence

    from inventory.core.items import Hand
    from inventory.core.planning.plan import Step
    from inventory.core.planning.workshop import Saw

Shares = tuple[Share[Pool], ...]


class Taken(NamedTuple):
    """What one step uses, or makes, of something."""

    step: str
    quantity: int


class Covered(NamedTuple):
    """What covers one need before anything more is delivered."""

    filled: Shares
    from_steps: tuple[Taken, ...]
    to_cut: Shares
    spare_short: int

    @property
    def quantity(self) -> int:
        """All of it together."""
        made = sum(quantity for _, quantity in self.from_steps)
        return made + sum(quantity for _, quantity in (*self.filled, *self.to_cut))


class Makers:
    """The steps still to be done that make a sub-assembly, one piece each."""

    def __init__(self, order: Sequence[Step], done: frozenset[str]) -> None:
        self._place = {step.code: place for place, step in enumerate(order)}
        self._by_part: defaultdict[str, list[Step]] = defaultdict(list)
        for step in order:
            if step.makes and step.code not in done:
                self._by_part[step.makes].append(step)

    def __bool__(self) -> bool:
        """Say whether any step makes something."""
        return bool(self._by_part)

    def before(self, line: OpenNeed) -> tuple[str, ...]:
        """Return the earlier steps that make what this need asks for."""
        here = self._place[line.need.step]
        return tuple(
            step.code
            for step in self._by_part.get(line.need.part, ())
            if self._place[step.code] < here and fits(line.need.hand, step.makes_hand)
        )


def covered(
    lines: Sequence[OpenNeed], supply: Mapping[Pool, int], makers: Makers, saw: Saw
) -> list[Covered]:
    """Return what covers each need, in the order given: stock, then what steps make, then cuts."""
    filling = Filling(supply)
    wanted = [line.open if takes_from_stock(line.need) else 0 for line in lines]
    amounts = [
        filling.take(line.pools, want) if want else 0
        for line, want in zip(lines, wanted, strict=True)
    ]
    standing_in = _stand_in_pools(lines)
    if standing_in:
        filling.prefer(standing_in)
    filled = filling.shared_out([line.pools for line in lines], amounts)
    rest = [line.open - amount for line, amount in zip(lines, amounts, strict=True)]
    made = _from_steps(lines, rest, makers) if makers else [()] * len(lines)
    cut = _from_bars(lines, rest, filling.free, saw)
    spare = [
        line.spare_open - filling.take(line.pools, line.spare_open) if line.spare_open else 0
        for line in lines
    ]
    return [
        Covered(shares if takes_from_stock(line.need) else _lent(line, supply), steps, bars, less)
        for line, shares, steps, bars, less in zip(lines, filled, made, cut, spare, strict=True)
    ]


def _stand_in_pools(lines: Sequence[OpenNeed]) -> set[Pool]:
    """Return the pools of needs that accept several part numbers, and of those they compete with.

    Among these the own number is to go before a stand-in wherever an exchange allows it.
    """
    several = {line.pools for line in lines if line.pools[0].part != line.pools[-1].part}
    found = {pool for pools in several for pool in pools}
    rivals = {line.pools for line in lines if len(line.pools) > 1} if found else set()
    while (
        more := {pool for pools in rivals if not found.isdisjoint(pools) for pool in pools} - found
    ):
        found |= more
    return found


def _lent(line: OpenNeed, supply: Mapping[Pool, int]) -> Shares:
    """Return what lies there for a need that uses nothing up."""
    shares: list[Share[Pool]] = []
    rest = line.open
    for pool in line.pools:
        quantity = min(rest, supply.get(pool, 0))
        if quantity:
            shares.append(Share(pool, quantity))
            rest -= quantity
    return tuple(shares)


def _from_steps(
    lines: Sequence[OpenNeed], rest: list[int], makers: Makers
) -> list[tuple[Taken, ...]]:
    nothing: Wanted[str] = Wanted((), 0)
    wanted = [
        Wanted(makers.before(line), missing) if missing else nothing
        for line, missing in zip(lines, rest, strict=True)
    ]
    every = {code: 1 for want in wanted for code in want.pools}
    shares = fill(every, wanted)
    for number, share in enumerate(shares):
        rest[number] -= sum(quantity for _, quantity in share)
    return [tuple(Taken(step, quantity) for step, quantity in share) for share in shares]


def _from_bars(
    lines: Sequence[OpenNeed], rest: Sequence[int], free: Mapping[Pool, int], saw: Saw
) -> list[Shares]:
    """Return what comes from bars, tubes and remnants that no need takes as they are."""
    parts = {
        line.need.part
        for line, missing in zip(lines, rest, strict=True)
        if missing and line.need.kind is NeedKind.CUT
    }
    sticks = [
        Stick(pool, pool.length)
        for pool, quantity in free.items()
        if pool.part in parts and pool.length
        for _ in range(quantity)
    ]
    return cut_from(lines, rest, sticks, saw) if sticks else [()] * len(lines)


class Stock(Protocol):
    """What sticks can be told by: of which part and hand they are, and who may cut them."""

    @property
    def part(self) -> str:
        """The part number's key."""

    @property
    def hand(self) -> Hand:
        """The side the stock is for, if any."""

    @property
    def kept_for(self) -> str:
        """The step it is set aside for; empty where any step may have it."""

    def __hash__(self) -> int:
        """Stock is a key."""


K = TypeVar("K", bound=Stock)


def cut_from(
    lines: Sequence[OpenNeed], rest: Sequence[int], sticks: Sequence[Stick[K]], saw: Saw
) -> list[tuple[Share[K], ...]]:
    """Return what the cut needs get out of these sticks, profile by profile."""
    found: list[tuple[Share[K], ...]] = [()] * len(lines)
    by_part: defaultdict[str, list[Stick[K]]] = defaultdict(list)
    for stick in sticks:
        by_part[stick.stock.part].append(stick)
    for part, of_part in by_part.items():
        numbers = [
            number
            for number, line in enumerate(lines)
            if line.need.part == part and line.need.kind is NeedKind.CUT and rest[number]
        ]
        wanted = [
            CutWanted(lines[number].need.length, rest[number], _may_cut(lines[number], of_part))
            for number in numbers
        ]
        for number, shares in zip(numbers, pieces_to_cut(wanted, of_part, saw), strict=True):
            found[number] = shares
    return found


def _may_cut(line: OpenNeed, sticks: Iterable[Stick[K]]) -> tuple[K, ...]:
    return tuple(
        dict.fromkeys(
            stick.stock
            for stick in sticks
            if fits(line.need.hand, stick.stock.hand)
            and stick.stock.kept_for in {"", line.need.step}
        )
    )
