"""Unmarked parts that somebody holds for one of the list, until a second person has said so."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.parts.measuring import Dimension
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.tables.identity import identification as identification_table
from inventory.store.tables.identity import identification_event as event_table

if TYPE_CHECKING:
    from collections.abc import Mapping

    from sqlalchemy import Connection, RowMapping


WAITING = "waits for a second person"


@frozen(kw_only=True)
class Identification:
    """Pieces that one person holds for a part of the list, by their measures."""

    number: int = 0
    crate: str
    bag: str = ""
    part: str
    hand: Hand = Hand.NONE
    pieces: int
    sizes: Mapping[Dimension, int]
    """Nanometres."""
    holes: int | None = None
    tail: int = 0
    """How likely measures as far off are for this very part, in millionths."""
    by: str = ""
    state: str = WAITING
    """This, confirmed or refused."""


def add_identification(db: Connection, kit: int, slip: int, found: Identification) -> int:
    """Record what somebody holds the pieces for; return its number."""
    measured = {dimension.value: size for dimension, size in found.sizes.items()}
    return add_row(
        db,
        identification_table,
        kit,
        slip,
        crate=found.crate,
        bag=found.bag,
        part=part_ids(db, kit, [PartName(found.part, found.part)])[found.part],
        hand=found.hand.value,
        pieces=found.pieces,
        measured=json.dumps({"sizes": measured, "holes": found.holes}, sort_keys=True),
        tail=found.tail,
    )


def add_verdict(db: Connection, kit: int, slip: int, identification: int, event: str) -> None:
    """Record that a second person confirmed or refused it."""
    add_row(
        db,
        event_table,
        kit,
        slip,
        identification=identification,
        event=event,
    )


def identifications(db: Connection, kit: int) -> list[Identification]:
    """Return all that aren't undone, oldest first, each with its state."""
    verdicts = rows_that_count(db, event_table, kit)
    states = {row["identification"]: row["event"] for row in verdicts}
    return [_read(row, states) for row in rows_that_count(db, identification_table, kit)]


def _read(row: RowMapping, states: Mapping[int, str]) -> Identification:
    measured = json.loads(row["measured"])
    return Identification(
        number=row["id"],
        crate=row["crate"],
        bag=row["bag"],
        part=row["part_key"],
        hand=Hand(row["hand"]),
        pieces=row["pieces"],
        sizes={Dimension(name): size for name, size in measured["sizes"].items()},
        holes=measured["holes"],
        tail=row["tail"],
        by=row["acted_by"],
        state=states.get(row["id"], WAITING),
    )
