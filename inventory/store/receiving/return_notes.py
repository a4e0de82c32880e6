"""What was sent back: to whom, by whom carried, under which reference."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.tables.claiming import return_note as note_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@frozen(kw_only=True)
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
    add_row(
        db,
        note_table,
        kit,
        slip,
        recipient=note.recipient,
        reference=note.reference,
        carrier=note.carrier,
        tracking=note.tracking,
        wanted=note.wanted,
        report=note.report,
    )


def return_notes(db: Connection, kit: int) -> dict[int, ReturnNote]:
    """Return the notes that aren't undone, by the act's number, oldest first."""
    return {
        row["slip"]: ReturnNote(
            recipient=row["recipient"],
            reference=row["reference"],
            carrier=row["carrier"],
            tracking=row["tracking"],
            wanted=row["wanted"],
            report=row["report"],
        )
        for row in rows_that_count(db, note_table, kit)
    }
