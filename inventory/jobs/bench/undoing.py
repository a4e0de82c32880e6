"""Undo: an act is taken back by a counter-record; nothing is erased."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotEnoughError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.places import OUTSIDE, Place, PlaceKind
from inventory.core.record.ledger import reversal
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import known_part
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import (
    all_slips,
    find_slip,
    last_slip_but,
    newest_slips,
    numbered_slip,
    undoings,
    undone_slips,
)
from inventory.store.ledger.stock import lying
from inventory.store.ledger.subjects import subjects
from inventory.store.receiving.counts import all_counts, counts_that_stand, holds_counts, same_pile

if TYPE_CHECKING:
    from collections.abc import Container, Iterable, Mapping, Sequence

    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.store.ledger.history import RecordedMovement
    from inventory.store.ledger.slips import RecordedSlip
    from inventory.store.opening.database import Connection


@frozen
class HistoryEntry:
    """An act as the history shows it."""

    recorded: RecordedSlip
    undone: bool
    movements: tuple[Movement, ...]
    about: tuple[str, ...] = ()
    """The crate, list, plan, step or part that it was about, where its own row names one."""


@tried_again
def undo(bench: Bench, slip: Slip, number: int | None = None, *, key: str = "") -> HistoryEntry:
    """Take back an act by its number in the history, or by its slip's key.

    Without either, the last act that still counts.
    """
    with bench.store.reading() as db:
        named = find_slip(db, bench.kit.id, key) if key else None
        named_act = _target(db, bench.kit.id, named.id if named else number)
        undone_by = undoings(db, bench.kit.id)
        target = _newest_of(named_act, undone_by)
    with acting(bench, "undo", slip, undoes=target.id) as act:
        moved = [each.movement for each in movements(act.db, bench.kit.id, slip=target.id)]
        back = [reversal(movement) for movement in reversed(moved)]
        _refuse_counted_list(act, named_act)
        _refuse_recounted(act, named_act)
        _refuse_moved_on(act, target, back)
        act.move(back)
        return HistoryEntry(target, undone=True, movements=tuple(back))


def _refuse_moved_on(act: Act, target: RecordedSlip, back: Sequence[Movement]) -> None:
    """Say which pieces went on since; the ledger would refuse them with fewer words."""
    there = Counter(
        {
            (lies.place, lies.item): lies.quantity
            for part in dict.fromkeys(move.item.part for move in back)
            for lies in lying(act.db, act.kit.id, part=part)
        }
    )
    for move in back:
        if move.origin.kind not in OUTSIDE and there[move.origin, move.item] < move.quantity:
            raise NotEnoughError(
                f"act {target.id} can't be undone: {move.item.part} has moved on "
                f"from {move.origin} since",
                remedy="Undo the later act first: kitwright history --part " + move.item.part,
            )
        there[move.origin, move.item] -= move.quantity
        there[move.destination, move.item] += move.quantity


def _target(db: Connection, kit: int, number: int | None) -> RecordedSlip:
    gone = undone_slips(db, kit)
    if number is None:
        last = last_slip_but(db, kit, gone)
        if last is None:
            raise NotFoundError("there is nothing to undo")
        return _that_can_be(last)
    found = numbered_slip(db, kit, number)
    if found is None:
        raise NotFoundError(f"there is no act {number}", remedy="Look: kitwright history")
    if found.id in gone:
        raise InventoryError(
            f"act {number} is undone already", remedy="To do it again, undo its undoing."
        )
    return _that_can_be(found)


def _that_can_be(target: RecordedSlip) -> RecordedSlip:
    """Refuse acts that nothing takes back: a bin that was added stays in the record."""
    if target.act == "bin add":
        raise InventoryError(
            f"act {target.id} added bins, and bins stay",
            remedy="An empty bin does no harm. An earlier act is undone by its number: "
            "kitwright history",
        )
    return target


def _newest_of(target: RecordedSlip, undone_by: Mapping[int, RecordedSlip]) -> RecordedSlip:
    """Return the record by which an act stands: itself, or the undoing of its undoing.

    An act is undone once. One that counts again is taken back by undoing what let it count again.
    """
    while target.id in undone_by:
        target = undone_by[undone_by[target.id].id]
    return target


def _refuse_counted_list(act: Act, target: RecordedSlip) -> None:
    """Refuse to take a list back that pieces were counted against: they would all be unlisted."""
    if target.act == "packing-list read" and counts_that_stand(all_counts(act.db, act.kit.id)):
        raise InventoryError(
            f"act {target.id} took in a list, and pieces were counted since",
            remedy="Read the corrected list with --replaces, or undo the counts first.",
        )


def _refuse_recounted(act: Act, target: RecordedSlip) -> None:
    """Refuse to change a count that a later recount took the place of: its number holds now."""
    while target.undoes is not None:
        target = numbered_slip(act.db, act.kit.id, target.undoes) or target
    if not holds_counts(act.db, act.kit.id, target.id):
        return
    own = [
        each.count
        for each in all_counts(act.db, act.kit.id, undone_too=True)
        if each.slip == target.id
    ]
    for later in all_counts(act.db, act.kit.id):
        if (
            later.recount
            and later.slip > target.id
            and any(same_pile(each, later.count) for each in own)
        ):
            raise InventoryError(
                f"act {target.id} counted {later.printed}, and act {later.slip} counted it again",
                remedy=f"Undo act {later.slip} first: kitwright undo {later.slip}",
            )


def newest_acts(bench: Bench, most: int, before: int = 0) -> list[HistoryEntry]:
    """Return the newest acts, or those right before an act, newest first; no others are read."""
    with bench.store.reading() as db:
        slips = newest_slips(db, bench.kit.id, most, before)
        gone = undone_slips(db, bench.kit.id)
        span = range(slips[-1].id, slips[0].id + 1) if slips else range(0)
        moved = movements(db, bench.kit.id, span=span) if span else []
        return _entries(db, bench.kit.id, slips, gone, _by_slip(moved))


def history(bench: Bench, part: str = "", step: str = "") -> list[HistoryEntry]:
    """Return all acts, newest first; only those that moved a part or touched a step if asked."""
    with bench.store.reading() as db:
        slips = all_slips(db, bench.kit.id)
        gone = undone_slips(db, bench.kit.id)
        key = known_part(db, bench.kit, part).key if part else ""
        moved = movements(db, bench.kit.id, part=key)
        asked = Place(PlaceKind.STEP, step)
        by_slip = _by_slip(
            each
            for each in moved
            if not step or asked in (each.movement.origin, each.movement.destination)
        )
        shown = [each for each in reversed(slips) if not (part or step) or each.id in by_slip]
        return _entries(db, bench.kit.id, shown, gone, by_slip)


def _entries(
    db: Connection,
    kit: int,
    slips: Sequence[RecordedSlip],
    gone: Container[int],
    moved: Mapping[int, tuple[Movement, ...]],
) -> list[HistoryEntry]:
    """Return the acts as the history shows them; the newest stands first."""
    span = range(slips[-1].id, slips[0].id + 1) if slips else range(0)
    about = subjects(db, kit, (each.act for each in slips), span) if span else {}
    return [
        HistoryEntry(each, each.id in gone, moved.get(each.id, ()), about.get(each.id, ()))
        for each in slips
    ]


def _by_slip(moved: Iterable[RecordedMovement]) -> dict[int, tuple[Movement, ...]]:
    """Return the movements of each act."""
    found: dict[int, list[Movement]] = {}
    for each in moved:
        found.setdefault(each.slip, []).append(each.movement)
    return {slip: tuple(moves) for slip, moves in found.items()}
