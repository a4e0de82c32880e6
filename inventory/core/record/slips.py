"""The slip: one act at the bench, recorded once however often it is sent."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from datetime import date, datetime


@frozen(kw_only=True)
class Slip:
    """Who did something, when, and the act's own id."""

    key: str
    """Made by the face that asks: the same key is the same act."""
    recorded_at: datetime
    """UTC, by the clock of the computer that records."""
    happened_on: date
    """The day the person says it happened."""
    person: str = ""
    device: str = ""
    note: str = ""
    asked: str = ""
    """Digest of what was asked, so that the same key with another content is noticed."""
