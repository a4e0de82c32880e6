"""Sending pieces back: out of stock at once, with whom, by whom carried, under which number."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.core.places import Place, PlaceKind
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import enough_lying
from inventory.jobs.receiving.letters import report_numbered
from inventory.store.ledger.history import movements
from inventory.store.ledger.slips import all_slips
from inventory.store.receiving.return_notes import ReturnNote, add_return_note, return_notes

if TYPE_CHECKING:
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Taking
    from inventory.store.ledger.slips import RecordedSlip

__all__ = ["WANTED", "ReturnNote", "SentBack", "send_back", "sent_back"]

RETURNED = Place(PlaceKind.RETURNED)
WANTED = ("replacement", "credit", "nothing")
FROM = frozenset({PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP})


@frozen
class SentBack:
    """One act of sending back."""

    recorded: RecordedSlip
    note: ReturnNote
    movements: tuple[Movement, ...]


@tried_again
def send_back(bench: Bench, taking: Taking, note: ReturnNote, slip: Slip) -> Movement:
    """Record that pieces left the house for the supplier or carrier."""
    if not note.recipient.strip():
        raise InventoryError("to whom are they sent?", remedy="Say it with --to.")
    if note.wanted and note.wanted not in WANTED:
        raise InventoryError(
            f"{note.wanted!r} can't be asked for", remedy=f"One of: {', '.join(WANTED)}."
        )
    if taking.origin.kind not in FROM:
        raise InventoryError(
            f"nothing can be sent back from {taking.origin}",
            remedy="Say a bin, a crate, hold or a step with --from.",
        )
    with acting(bench, "send-back", slip) as act:
        if note.report is not None:
            report_numbered(act.db, bench.kit, note.report)
        item = enough_lying(act.db, bench.kit, taking)
        move = Movement(item, taking.pieces, taking.origin, RETURNED)
        act.move([move])
        add_return_note(act.db, bench.kit.id, act.recorded.id, note)
        return move


def sent_back(bench: Bench) -> list[SentBack]:
    """Return what was sent back, newest first."""
    with bench.store.reading() as db:
        notes = return_notes(db, bench.kit.id)
        return [
            SentBack(
                each,
                notes[each.id],
                tuple(one.movement for one in movements(db, bench.kit.id, slip=each.id)),
            )
            for each in reversed(all_slips(db, bench.kit.id))
            if each.id in notes
        ]
