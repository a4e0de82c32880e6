"""Slips: one row an act, recorded once."""

from __future__ import annotations

from datetime import date, datetime
from typing import TYPE_CHECKING

from sqlalchemy import bindparam, func, insert, select

from inventory.core.errors import AlreadyDoneError, SlipConflictError
from inventory.core.frozen import frozen
from inventory.core.record.slips import Slip
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.quick import Quick
from inventory.store.opening.one_moment import read_once
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, Row


@frozen
class RecordedSlip:
    """A slip as it stands in the record."""

    id: int
    act: str
    slip: Slip
    undoes: int | None


_same = slip_table.alias("same")
_NEWEST = Quick(
    select(
        func.max(slip_table.c.id),
        select(_same.c.id)
        .where(_same.c.kit == bindparam("kit"), _same.c.key == bindparam("key"))
        .scalar_subquery(),
    ).where(slip_table.c.kit == bindparam("kit"))
)
_ADD = Quick(insert(slip_table), slip_table.c.keys())


def add_slip(
    db: Connection, kit: int, act: str, slip: Slip, undoes: int | None = None
) -> RecordedSlip:
    """Record an act; the same key a second time is refused."""
    ((newest, known),) = _NEWEST.rows(db, {"kit": kit, "key": slip.key})
    earlier = find_slip(db, kit, slip.key) if known is not None else None
    if earlier is not None:
        if (earlier.act, earlier.slip.asked) != (act, slip.asked):
            raise SlipConflictError(
                f"slip {slip.key} was recorded before with another content",
                remedy="Give this act a slip of its own.",
            )
        raise AlreadyDoneError("this was recorded before", where=f"slip {slip.key}")
    number = (newest or 0) + 1
    row = {
        "kit": kit,
        "id": number,
        "key": slip.key,
        "act": act,
        "person": slip.person,
        "device": slip.device,
        "happened_on": slip.happened_on.isoformat(),
        "recorded_at": slip.recorded_at.isoformat(),
        "note": slip.note,
        "asked": slip.asked,
        "undoes": undoes,
    }
    _ADD.add(db, row)
    return RecordedSlip(number, act, slip, undoes)


def find_slip(db: Connection, kit: int, key: str) -> RecordedSlip | None:
    """Return the slip with this key, or None."""
    c = slip_table.c
    row = db.execute(select(slip_table).where(c.kit == kit, c.key == key)).one_or_none()
    return None if row is None else _recorded(row)


def all_slips(db: Connection, kit: int) -> list[RecordedSlip]:
    """Return all acts of a kit, oldest first."""
    c = slip_table.c
    return [
        _recorded(row) for row in db.execute(select(slip_table).where(c.kit == kit).order_by(c.id))
    ]


def newest_slips(db: Connection, kit: int, most: int, before: int = 0) -> list[RecordedSlip]:
    """Return the newest acts of a kit, newest first; where asked, those before an act."""
    c = slip_table.c
    earlier = [c.id < before] if before else []
    rows = db.execute(
        select(slip_table).where(c.kit == kit, *earlier).order_by(c.id.desc()).limit(most)
    )
    return list(map(_recorded, rows))


def numbered_slip(db: Connection, kit: int, number: int) -> RecordedSlip | None:
    """Return an act by its number, or None."""
    c = slip_table.c
    row = db.execute(select(slip_table).where(c.kit == kit, c.id == number)).one_or_none()
    return None if row is None else _recorded(row)


def last_slip_but(db: Connection, kit: int, gone: frozenset[int]) -> RecordedSlip | None:
    """Return the newest act that undoes nothing and isn't among those that are gone."""
    c = slip_table.c
    rows = db.execute(
        select(slip_table)
        .where(c.kit == kit, c.undoes.is_(None))
        .order_by(c.id.desc())
        .limit(len(gone) + 1)  # one of so many stands
    )
    return next((_recorded(row) for row in rows if row.id not in gone), None)


def undoings(db: Connection, kit: int) -> dict[int, RecordedSlip]:
    """Return the acts that undo another one, by that one's number."""
    c = slip_table.c
    rows = db.execute(select(slip_table).where(c.kit == kit, c.undoes > 0).order_by(c.id))
    return {row.undoes: _recorded(row) for row in rows}


def newest_slip(db: Connection, kit: int) -> int:
    """Return the number of the newest act of a kit; 0 where there is none."""
    return next_id(db, slip_table, kit) - 1


@read_once
def undone_slips(db: Connection, kit: int) -> frozenset[int]:
    """Return the numbers of the acts that don't count, since an act that counts undoes them."""
    c = slip_table.c
    rows = db.execute(
        select(c.id, c.undoes).where(c.kit == kit, c.undoes > 0).order_by(c.id.desc())
    )
    undone: set[int] = set()
    for number, undoes in rows:
        if number not in undone and undoes is not None:
            undone.add(undoes)
    return frozenset(undone)


def _recorded(row: Row[*tuple[object, ...]]) -> RecordedSlip:
    named = row._mapping  # noqa: SLF001
    return RecordedSlip(
        id=named["id"],
        act=named["act"],
        slip=Slip(
            key=named["key"],
            recorded_at=datetime.fromisoformat(named["recorded_at"]),
            happened_on=date.fromisoformat(named["happened_on"]),
            person=named["person"],
            device=named["device"],
            note=named["note"],
            asked=named["asked"],
        ),
        undoes=named["undoes"],
    )
