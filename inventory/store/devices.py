"""Phones and computers that may act over the network: paired, listed, revoked."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sqlalchemy import func, insert, select, update

from inventory.core.frozen import frozen
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.devices import device as device_table
from inventory.store.tables.devices import invitation as invitation_table
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from datetime import datetime

    from sqlalchemy import Connection


@frozen
class Device:
    """A paired device, and who holds it."""

    id: int
    name: str
    person: str
    paired_at: str
    revoked_at: str
    """Empty while it may act."""


def invite(db: Connection, token: str, expires_at: str) -> None:
    """Keep the digest of a token that lets one device in."""
    db.execute(insert(invitation_table).values(token=token, expires_at=expires_at))


def use_invitation(db: Connection, token: str, now: str) -> bool:
    """Use a token up; False where it is unknown, used or expired."""
    c = invitation_table.c
    used = db.execute(
        update(invitation_table)
        .where(c.token == token, c.used_at == "", c.expires_at > now)
        .values(used_at=now)
    )
    return used.rowcount == 1


def add_device(db: Connection, name: str, person: str, secret: str, now: str) -> Device:
    """Record a device under the first free name: `phone`, `phone 2`, `phone 3`."""
    c = device_table.c
    taken = set(db.execute(select(c.name)).scalars())
    free = name
    number = 1
    while free in taken:
        number += 1
        free = f"{name} {number}"
    new = Device((db.execute(select(func.max(c.id))).scalar() or 0) + 1, free, person, now, "")
    db.execute(
        insert(device_table).values(
            id=new.id, name=free, person=person, secret=secret, paired_at=now
        )
    )
    return new


def find_device(db: Connection, secret: str) -> Device | None:
    """Return the device of a secret's digest that isn't revoked, or None."""
    c = device_table.c
    found = db.execute(
        select(c.id, c.name, c.person, c.paired_at, c.revoked_at).where(
            c.secret == secret, c.revoked_at == ""
        )
    ).one_or_none()
    return None if found is None else Device(*found)


def all_devices(db: Connection) -> list[Device]:
    """Return all devices that were ever paired, in the order they came."""
    c = device_table.c
    rows = db.execute(select(c.id, c.name, c.person, c.paired_at, c.revoked_at).order_by(c.id))
    return [Device(*row) for row in rows]


def revoke_device(db: Connection, number: int, now: str) -> bool:
    """Let a device act no longer; False where none of this number may."""
    c = device_table.c
    where = (c.id == number, c.revoked_at == "")
    return db.execute(update(device_table).where(*where).values(revoked_at=now)).rowcount == 1


def set_person(db: Connection, number: int, person: str) -> None:
    """Record who holds a device from now on."""
    db.execute(update(device_table).where(device_table.c.id == number).values(person=person))


def last_key(db: Connection, kit: int, device: str, act: str, since: datetime) -> str:
    """Return the key of a device's newest act of a kind that counts; empty where there is none.

    Acts before `since` (by UTC) aren't looked at.
    """
    c = slip_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(
        select(c.id, c.key)
        .where(c.kit == kit, c.device == device, c.act == act)
        .where(c.recorded_at >= since.isoformat())
        .order_by(c.id.desc())
    )
    return next((key for number, key in rows if number not in undone), "")
