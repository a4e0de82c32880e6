"""Letting phones and computers act over the network, and shutting them out again."""

from __future__ import annotations

import secrets
from datetime import timedelta
from hashlib import sha256
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.plain import plain
from inventory.store.devices import (
    Device,
    add_device,
    all_devices,
    find_device,
    invite,
    revoke_device,
    set_person,
    use_invitation,
)

if TYPE_CHECKING:
    from datetime import datetime

    from inventory.store.opening.database import Store

__all__ = [
    "Device",
    "NotInvitedError",
    "Paired",
    "devices",
    "holder_of",
    "invitation",
    "pair",
    "revoke",
    "whose",
]

INVITED_FOR = timedelta(minutes=10)
LONGEST_NAME = 40


class NotInvitedError(InventoryError):
    """The token is wrong, used up, or too old."""


@frozen
class Paired:
    """A device that was let in, and the secret it shows from now on."""

    device: Device
    secret: str


def invitation(store: Store, now: datetime) -> str:
    """Return a new token that lets one device in, once, within ten minutes.

    Only its digest is stored: who reads the store can't use it.
    """
    token = secrets.token_urlsafe(16)
    with store.writing() as db:
        invite(db, _digest(token), (now + INVITED_FOR).isoformat())
    return token


def pair(store: Store, token: str, name: str, person: str, now: datetime) -> Paired:
    """Let a device in; the token is used up by it."""
    label = _label(name) or "phone"
    secret = secrets.token_urlsafe(32)
    with store.writing() as db:
        if not use_invitation(db, _digest(token.strip()), now.isoformat()):
            raise NotInvitedError(
                "this code was used before, is older than ten minutes, or was never given out",
                remedy="Ask for a new one at the computer that serves.",
            )
        device = add_device(db, label, _label(person), _digest(secret), now.isoformat())
    return Paired(device, secret)


def whose(store: Store, secret: str) -> Device | None:
    """Return the device that shows this secret; None where it is unknown or revoked."""
    with store.reading() as db:
        return find_device(db, _digest(secret))


def devices(store: Store) -> list[Device]:
    """Return all devices that were ever let in."""
    with store.reading() as db:
        return all_devices(db)


def revoke(store: Store, number: int, now: datetime) -> Device:
    """Shut a device out; what it recorded stays."""
    with store.writing() as db:
        if not revoke_device(db, number, now.isoformat()):
            raise NotFoundError(
                f"no device {number} may act here", remedy="Look: kitwright devices list"
            )
        return next(each for each in all_devices(db) if each.id == number)


def holder_of(store: Store, device: Device, person: str) -> None:
    """Record who holds a device from now on."""
    with store.writing() as db:
        set_person(db, device.id, _label(person))


def _digest(secret: str) -> str:
    return sha256(secret.encode()).hexdigest()


def _label(text: str) -> str:
    return plain(" ".join(text.split()))[:LONGEST_NAME]
