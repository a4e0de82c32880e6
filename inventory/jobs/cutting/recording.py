"""The record of what was cut: one slip, its lengths balanced to the nanometre."""

from __future__ import annotations

from collections import Counter
from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.cutting.job import CutPiece, CutStick, CutStock
from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.measures.lengths import parse_length, show_length
from inventory.core.places import PlaceKind
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import Asked, Taking, enough_lying
from inventory.jobs.bench.issuing import check_for_step, only_bin
from inventory.jobs.cutting.saw import OwnSaw, saw_within
from inventory.jobs.cutting.sticks import SAW

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.items import Item
    from inventory.core.places import Place
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.cutting.sticks import StickFromBin


@frozen(kw_only=True)
class Cut:
    """A cut as it was made: sticks of one kind cut alike, lengths in nanometres."""

    asked: Asked
    sticks: int = 1
    origin: Place | None = None
    """The bin the sticks come from; None where the part lies in one bin only."""
    pieces: tuple[tuple[int, int], ...]
    """Length and number of each kind of piece from one stick."""
    remnant: int | None = None
    """As measured, of each stick; None where it is what the saw leaves by its kerf."""
    destination: Place | None = None
    """Where the pieces go; None for the bin of the sticks."""
    remnant_to: Place | None = None
    """None for the bin of the sticks."""


@frozen
class CutRecord:
    """What was recorded, and what the saw took of each stick."""

    movements: tuple[Movement, ...]
    lost: int
    """What the saw took of each stick, and what was thrown away; nanometres."""
    by_kerf: int
    """What the saw takes by its kerf and the trims."""
    remnant: int
    """What was kept of each stick; 0 where the rest was too short."""


def pieces_typed(text: str) -> tuple[int, int]:
    """Return length and number of pieces, typed as `11-1/2in` or `4x11-1/2in`."""
    number, times, length = text.replace("×", "x").partition("x")
    if times and number.strip().isdigit():
        return parse_length(length), int(number)
    return parse_length(text), 1


@tried_again
def record_cut(bench: Bench, cut: Cut, slip: Slip) -> CutRecord:
    """Record a cut that was made: the sticks go to the saw, pieces and remnants come from it.

    Stick = pieces + remnant + what the saw took, to the nanometre; what is longer than the stick
    is refused. A rest shorter than the least worth keeping stays at the saw.
    """
    with acting(bench, "cut record", slip) as act:
        own = saw_within(act.db)
        origin = cut.origin or only_bin(act.db, bench.kit, cut.asked)
        bar = enough_lying(act.db, bench.kit, Taking(cut.asked, cut.sticks, origin))
        planned = _as_sawn(bar, cut, own)
        remnant = _remnant(planned, cut, own, origin)
        destination = cut.destination or origin
        pieces = _pieces_from_saw(bar, _lengths(planned), destination, cut.sticks)
        if destination.kind is PlaceKind.STEP:
            for move in pieces:
                check_for_step(act.db, bench.kit, move)
        moves = [Movement(bar, cut.sticks, origin, SAW), *pieces]
        if remnant:
            rest = replace(bar, length=remnant)
            moves.append(Movement(rest, cut.sticks, SAW, cut.remnant_to or origin))
        act.move(moves)
        lost = taken_by_saw(moves) // cut.sticks
        return CutRecord(tuple(moves), lost, planned.sawn, remnant)


def _as_sawn(bar: Item, cut: Cut, own: OwnSaw) -> CutStick:
    """Return the cut as it comes out by kerf and trims; without trims where it needs them."""
    pieces = tuple(CutPiece(length, 1) for length, number in cut.pieces for _ in range(number))
    if not bar.length or not pieces:
        raise InventoryError(
            "no length is known of this stick" if pieces else "which pieces were cut?",
            where=bar.part,
            remedy="Say the lengths, for instance: 4x11-1/2in --length 48in",
        )
    trim = own.saw if cut.remnant is None else replace(own.saw, trim=0)
    return CutStick(CutStock(length=bar.length), pieces, trim)


def _remnant(planned: CutStick, cut: Cut, own: OwnSaw, origin: Place) -> int:
    """Return what is kept of each stick; pieces and remnant can't be longer than the stick."""
    wanted = sum(piece.length for piece in planned.pieces)
    measured = cut.remnant or 0
    if planned.left < 0 or wanted + measured > planned.stock.length:
        saw = planned.saw.kerf * (len(planned.pieces) - 1) + planned.saw.trim
        raise InventoryError(
            f"pieces and remnant of {show_length(wanted + measured)} together, and "
            f"{show_length(saw)} for the saw, don't come out of a stick of "
            f"{show_length(planned.stock.length)}",
            where=str(origin),
            remedy="Measure again; or tell what your saw takes: kitwright cut saw --kerf 1/16in",
        )
    if cut.remnant is not None:
        return cut.remnant
    return planned.remnant if planned.remnant >= own.least_remnant else 0


def cut_movements(from_bin: StickFromBin, destination: Place, own: OwnSaw) -> list[Movement]:
    """Return what a planned cut moves: the stick to the saw, pieces and remnant from it."""
    stick, bar = from_bin.stick, from_bin.item
    moves = [Movement(bar, 1, from_bin.place, SAW)]
    moves += _pieces_from_saw(bar, _lengths(stick), destination)
    if stick.remnant >= own.least_remnant:
        moves.append(Movement(replace(bar, length=stick.remnant), 1, SAW, from_bin.place))
    return moves


def _lengths(stick: CutStick) -> Counter[int]:
    return Counter(piece.length for piece in stick.pieces)


def _pieces_from_saw(
    bar: Item, lengths: Counter[int], destination: Place, sticks: int = 1
) -> list[Movement]:
    return [
        Movement(replace(bar, length=length), pieces * sticks, SAW, destination)
        for length, pieces in sorted(lengths.items(), reverse=True)
    ]


def taken_by_saw(movements: Iterable[Movement]) -> int:
    """Return the nanometres that stay at the saw: sticks less pieces and remnants."""
    return sum(
        move.item.length * move.quantity * (1 if move.destination == SAW else -1)
        for move in movements
        if SAW in (move.origin, move.destination)
    )
