"""Tables of the phones and computers that may act over the network."""

from __future__ import annotations

from sqlalchemy import Column, Text, TypedColumns

from inventory.store.tables.base import Whole, table, unique, words


class DeviceColumns(TypedColumns):
    """One paired device; its row stays when it is revoked, since acts name it."""

    id: Column[int] = Column(Whole, primary_key=True, autoincrement=False)
    name: Column[str] = words()
    person: Column[str] = words("")
    secret: Column[str] = words()
    """SHA-256 of what the device shows with each request."""
    paired_at: Column[str] = words()
    revoked_at: Column[str] = words("")


class InvitationColumns(TypedColumns):
    """A token that lets one device in, once."""

    token: Column[str] = Column(Text, primary_key=True)
    """SHA-256 of the token."""
    expires_at: Column[str] = words()
    used_at: Column[str] = words("")


device = table("device", DeviceColumns, unique("name"), unique("secret"))
invitation = table("invitation", InvitationColumns)
