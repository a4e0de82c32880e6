"""Links of the ledger's chain: each movement is sealed together with all before it.

It shows careless changes and decay of old records. It proves nothing against the owner of the
file, who could seal everything anew, unless an earlier seal was handed to somebody else.
"""

from __future__ import annotations

import json
import re
from hashlib import sha256
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.places import Place
    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip

START = bytes(32)
"""The link before a kit's first movement."""

SEAL_DIGITS = 16
"""So many hexadecimal digits of a link are printed on papers."""
_SEAL = re.compile(r"([0-9]{1,15}):([0-9a-f]{8,64})")


@frozen
class Link:
    """A movement as the record holds it, with the seal it was given."""

    number: int
    act: str
    slip: Slip
    movement: Movement
    chain: bytes


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


def first_broken(links: Iterable[Link]) -> int | None:
    """Return the number of the first movement that doesn't fit its seal or its place, or None."""
    before = START
    for place, each in enumerate(links, 1):
        sealed = link(before, each.number, each.act, each.slip, each.movement)
        if each.number != place or each.chain != sealed:
            return place
        before = sealed
    return None


def printed_seal(number: int, chain: bytes) -> str:
    """Return a seal as papers print it: `412:9f3a0c11d2e4b756`."""
    return f"{number}:{chain.hex()[:SEAL_DIGITS]}"


def read_seal(text: str) -> tuple[int, str]:
    """Return a printed seal's movement number and digits, lower case, blanks left out."""
    found = _SEAL.fullmatch("".join(text.lower().split()))
    if found is None:
        raise InventoryError(
            f"{text!r} is no seal", remedy="Type it as printed: 412:9f3a0c11d2e4b756."
        )
    return int(found[1]), found[2]
