"""Lay-outs of a section: which parts were laid down and identified, and what was missing."""

from __future__ import annotations

import json
from dataclasses import field
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert

from inventory.core.frozen import frozen
from inventory.store.ledger.by_slip import add_row, item_of, rows_that_count
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import item_ids
from inventory.store.tables.preparing import laid as laid_table
from inventory.store.tables.preparing import lay_out as lay_out_table
from inventory.store.tables.preparing import lay_out_end as end_table

if TYPE_CHECKING:
    from collections.abc import Sequence

    from sqlalchemy import Connection, RowMapping

    from inventory.core.items import Item


@frozen(kw_only=True)
class LayOut:
    """One lay-out as it stands in the record."""

    id: int
    section: str
    person: str
    on: date
    laid: tuple[tuple[Item, int], ...] = ()
    """What was laid down, in the order it was."""
    ended: date | None = None
    missing: tuple[dict[str, str], ...] = field(default=())
    """What was missing at its end, in words."""


def begin_lay_out(db: Connection, kit: int, slip: int, section: str) -> int:
    """Record that a lay-out begins; return its number."""
    return add_row(db, lay_out_table, kit, slip, section=section)


def add_laid(
    db: Connection, kit: int, slip: int, lay_out: int, laid: Sequence[tuple[Item, int]]
) -> None:
    """Record pieces as laid down and identified."""
    items = item_ids(db, kit, [item for item, _ in laid])
    first = next_id(db, laid_table, kit)
    rows = [
        {
            "kit": kit,
            "id": first + place,
            "slip": slip,
            "lay_out": lay_out,
            "item": items[item],
            "pieces": pieces,
        }
        for place, (item, pieces) in enumerate(laid)
    ]
    db.execute(insert(laid_table), rows)


def end_lay_out(
    db: Connection, kit: int, slip: int, lay_out: int, missing: Sequence[dict[str, str]]
) -> None:
    """Record the end of a lay-out with what is missing."""
    add_row(
        db,
        end_table,
        kit,
        slip,
        lay_out=lay_out,
        missing=json.dumps(list(missing), ensure_ascii=False),
    )


def all_lay_outs(db: Connection, kit: int) -> list[LayOut]:
    """Return the lay-outs that aren't undone, oldest first."""
    laid = rows_that_count(db, laid_table, kit)
    ends = {row["lay_out"]: row for row in rows_that_count(db, end_table, kit)}
    return [
        _lay_out(row, [each for each in laid if each["lay_out"] == row["id"]], ends.get(row["id"]))
        for row in rows_that_count(db, lay_out_table, kit)
    ]


def _lay_out(row: RowMapping, laid: Sequence[RowMapping], end: RowMapping | None) -> LayOut:
    return LayOut(
        id=row["id"],
        section=row["section"],
        person=row["acted_by"],
        on=date.fromisoformat(row["acted_on"]),
        laid=tuple((item_of(each), each["pieces"]) for each in laid),
        ended=date.fromisoformat(end["acted_on"]) if end else None,
        missing=tuple(json.loads(end["missing"])) if end else (),
    )
