"""How weighed counts were found."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from sqlalchemy import select

from inventory.core.receiving.weighing import Sample, Weighing
from inventory.store.ledger.by_slip import add_row
from inventory.store.tables.counting import weighing as weighing_table

if TYPE_CHECKING:
    from sqlalchemy import Connection

_MILLION = 10**6


def add_weighing(db: Connection, kit: int, slip: int, count: int, weighing: Weighing) -> None:
    """Keep what was on the scale for a count."""
    sample = weighing.sample
    add_row(
        db,
        weighing_table,
        kit,
        slip,
        count=count,
        readings=json.dumps(sample.readings),
        pieces_each=sample.pieces_each,
        spread=round((sample.spread or 0) * _MILLION),
        gross=weighing.gross,
        tare=weighing.tare,
        step=weighing.step,
        inside=int(weighing.sample_in_batch),
    )


def weighings(db: Connection, kit: int) -> dict[int, Weighing]:
    """Return what was weighed, by the count's number."""
    c = weighing_table.c
    rows = db.execute(select(weighing_table).where(c.kit == kit)).mappings()
    return {
        row["count"]: Weighing(
            sample=Sample(
                tuple(json.loads(row["readings"])),
                row["pieces_each"],
                row["spread"] / _MILLION if row["spread"] else None,
            ),
            gross=row["gross"],
            tare=row["tare"],
            step=row["step"],
            sample_in_batch=bool(row["inside"]),
        )
        for row in rows
    }
