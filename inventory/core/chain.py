"""Links of the ledger's chain: each movement is sealed together with all before it.

It shows careless changes and decay of old records. It proves nothing against the owner of the
file, who could seal everything anew, unless an earlier seal was handed to somebody else.
"""

from __future__ import annotations

import json
from hashlib import sha256
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from inventory.core.ledger import Movement
    from inventory.core.places import Place
    from inventory.core.slips import Slip

START = bytes(32)
"""The link before a kit's first movement."""


def link(before: bytes, number: int, act: str, slip: Slip, movement: Movement) -> bytes:
    """Return the 32 bytes that seal a movement; `number` is its place in the kit's ledger."""
    item = movement.item
    words = [
        number,
        [slip.key, act, slip.person, slip.device, slip.note],
        [slip.happened_on.isoformat(), slip.recorded_at.isoformat()],
        [item.part, item.hand, item.lot, item.length, item.state],
        movement.quantity,
        _words(movement.origin),
        _words(movement.destination),
    ]
    text = json.dumps(words, ensure_ascii=False, separators=(",", ":"))
    return sha256(before + text.encode()).digest()


def _words(place: Place) -> list[str]:
    return [place.kind, place.code]
