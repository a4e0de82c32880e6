"""What was sent back: to whom, by whom carried, under which reference."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.store.ledger.ids import next_id
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.claiming import return_note as note_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
class ReturnNote:
    """The papers of what was sent back."""

    recipient: str
    reference: str = ""
    """Their number for it."""
    carrier: str = ""
    tracking: str = ""
    wanted: str = ""
    report: int | None = None


def add_return_note(db: Connection, kit: int, slip: int, note: ReturnNote) -> None:
    """Record to whom the act's pieces went."""
    db.execute(
        insert(note_table).values(
            kit=kit,
            id=next_id(db, note_table, kit),
            slip=slip,
            recipient=note.recipient,
            reference=note.reference,
            carrier=note.carrier,
            tracking=note.tracking,
            wanted=note.wanted,
            report=note.report,
        )
    )


def return_notes(db: Connection, kit: int) -> dict[int, ReturnNote]:
    """Return the notes that aren't undone, by the act's number, oldest first."""
    c = note_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(select(note_table).where(c.kit == kit).order_by(c.id)).mappings()
    return {
        row["slip"]: ReturnNote(
            recipient=row["recipient"],
            reference=row["reference"],
            carrier=row["carrier"],
            tracking=row["tracking"],
            wanted=row["wanted"],
            report=row["report"],
        )
        for row in rows
        if row["slip"] not in undone
    }
