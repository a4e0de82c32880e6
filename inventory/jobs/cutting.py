"""Cutting: which piece from which stick, and the record of what was cut."""

from __future__ import annotations

from collections import Counter, defaultdict
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING

from inventory.core.cutting import CutJob, CutPiece, CutStock, Owned
from inventory.core.errors import InventoryError
from inventory.core.ledger import Movement
from inventory.core.lengths import show_length
from inventory.core.places import Place, PlaceKind
from inventory.core.plan import NeedKind
from inventory.core.workshop import Saw
from inventory.jobs.acts import acting
from inventory.jobs.finding_items import enough_lying
from inventory.jobs.workshop_today import today

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.cutting import CutPlan, CutStick
    from inventory.core.items import Item
    from inventory.core.shortage import NetNeed
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.finding_items import Taking
    from inventory.jobs.workshop_today import Today

SAW = Place(PlaceKind.SAW)
LEAST_REMNANT = 50_800_000
"""Two inches: a shorter rest is thrown away unless the person says otherwise (own choice)."""


@dataclass(frozen=True, slots=True)
class Cutting:
    """The person's saw, what is worth keeping, and what can be bought."""

    saw: Saw = field(default_factory=Saw)
    least_remnant: int = LEAST_REMNANT
    to_buy: tuple[CutStock, ...] = ()


@dataclass(frozen=True, slots=True)
class ProfilePlan:
    """The cutting plan of one stock part."""

    part: str
    description: str
    job: CutJob
    plan: CutPlan


@dataclass(frozen=True, slots=True)
class StickFromBin:
    """One stick with the bin it lies in, and how it is cut."""

    place: Place
    item: Item
    stick: CutStick


def cut_plans(bench: Bench, codes: Sequence[str], cutting: Cutting) -> list[ProfilePlan]:
    """Return a plan for each stock part that the steps want pieces of; all open steps if none.

    Pieces that were cut before and lie in a bin, or were issued, aren't cut again.
    """
    now = today(bench)
    wanted = {now.step(code).code for code in codes}
    needs = [net for net in now.netting.needs if not wanted or net.need.step in wanted]
    return [_profile(now, part, of_part, cutting) for part, of_part in _by_part(needs).items()]


def _by_part(needs: Iterable[NetNeed]) -> dict[str, list[NetNeed]]:
    by_part: defaultdict[str, list[NetNeed]] = defaultdict(list)
    for net in needs:
        if net.need.kind is NeedKind.CUT and net.chosen and _uncut(net):
            by_part[net.need.part].append(net)
    return dict(by_part)


def _uncut(net: NetNeed) -> int:
    return net.open - sum(share.quantity for share in net.filled)


def _profile(now: Today, part: str, needs: Sequence[NetNeed], cutting: Cutting) -> ProfilePlan:
    from inventory.core.cutting_plan import cut_plan

    pieces = tuple(CutPiece(net.need.length, _uncut(net), f"step {net.need.step}") for net in needs)
    job = CutJob(
        pieces=pieces,
        stock=(*_owned(now, part, min(piece.length for piece in pieces)), *cutting.to_buy),
        saw=cutting.saw,
        least_remnant=cutting.least_remnant,
    )
    words = next((net.need.description for net in needs if net.need.description), "")
    return ProfilePlan(part, words, job, cut_plan(job))


def _owned(now: Today, part: str, shortest: int) -> list[CutStock]:
    lengths: Counter[int] = Counter()
    for _, item, quantity in now.in_bins():
        if item.part == part and item.length > shortest:
            lengths[item.length] += quantity
    longest = max(lengths, default=0)
    return [
        CutStock(
            length=length,
            quantity=quantity,
            owned=Owned.BAR if length == longest else Owned.REMNANT,
        )
        for length, quantity in sorted(lengths.items())
    ]


def sticks_for(now: Today, needs: Sequence[NetNeed]) -> list[StickFromBin]:
    """Return how the pieces that a step still wants cut come out of the sticks in the bins."""
    found: list[StickFromBin] = []
    for part, of_part in _by_part(needs).items():
        lying = {
            (place, item): quantity
            for place, item, quantity in now.in_bins()
            if item.part == part and item.length
        }
        plan = _profile(now, part, of_part, Cutting(now.workshop.saw)).plan
        for stick in plan.sticks:
            if stick.pieces and stick.stock.owned is not Owned.TO_BUY:
                place, item = next(
                    key
                    for key, left in lying.items()
                    if left and key[1].length == stick.stock.length
                )
                lying[place, item] -= 1
                found.append(StickFromBin(place, item, stick))
    return found


def cut_movements(from_bin: StickFromBin, destination: Place) -> list[Movement]:
    """Return what a cut moves: the stick to the saw, pieces and remnant from it.

    Stick = pieces + remnant + what the saw took, to the nanometre; the saw's balance shows it.
    """
    stick, bar = from_bin.stick, from_bin.item
    lengths = Counter(piece.length for piece in stick.pieces)
    moves = [Movement(bar, 1, from_bin.place, SAW)]
    moves += [
        Movement(replace(bar, length=length), pieces, SAW, destination)
        for length, pieces in sorted(lengths.items(), reverse=True)
    ]
    if stick.remnant >= LEAST_REMNANT:
        moves.append(Movement(replace(bar, length=stick.remnant), 1, SAW, from_bin.place))
    return moves


@dataclass(frozen=True, slots=True)
class Cut:
    """A cut as it was made: one stick, the pieces, and what was left; nanometres."""

    taking: Taking
    pieces: tuple[tuple[int, int], ...]
    """Length and number of each kind of piece."""
    remnant: int
    destination: Place
    remnant_to: Place


def record_cut(bench: Bench, cut: Cut, slip: Slip) -> list[Movement]:
    """Record a cut that was made; pieces and remnant can't be longer than the stick."""
    with acting(bench, "cut record", slip) as act:
        bar = enough_lying(act.db, bench.kit, cut.taking)
        used = sum(length * number for length, number in cut.pieces) + cut.remnant
        if not cut.pieces or used > bar.length:
            raise InventoryError(
                f"{show_length(used)} can't come out of a stick of {show_length(bar.length)}",
                where=str(cut.taking.origin),
                remedy="Measure again; pieces and remnant together are shorter by the saw cuts.",
            )
        moves = [Movement(bar, 1, cut.taking.origin, SAW)]
        moves += [
            Movement(replace(bar, length=length), number, SAW, cut.destination)
            for length, number in cut.pieces
        ]
        if cut.remnant:
            moves.append(Movement(replace(bar, length=cut.remnant), 1, SAW, cut.remnant_to))
        act.move(moves)
        return moves
