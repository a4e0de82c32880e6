"""Who works at which crate or step just now; kept in memory only."""

from __future__ import annotations

from dataclasses import dataclass, field
from time import monotonic
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Callable

STAYS = 120.0
"""Seconds after the last sign of a device until it counts as gone."""


@frozen
class Present:
    """One device at one spot."""

    device: str
    person: str
    spot: str


@dataclass(slots=True)
class Presence:
    """The spot where each device was seen last."""

    clock: Callable[[], float] = monotonic
    changes: int = 0
    """Grows whenever somebody comes to another spot."""
    _seen: dict[tuple[str, str], tuple[float, Present]] = field(default_factory=dict)

    def at(self, kit: str, present: Present) -> None:
        """Take note of where a device is; an empty spot is nowhere."""
        key = (kit, present.device)
        before = self._seen.get(key)
        if present.spot:
            self._seen[key] = (self.clock(), present)
        else:
            self._seen.pop(key, None)
        if (before[1] if before else None) != (present if present.spot else None):
            self.changes += 1

    def others(self, kit: str, device: str) -> list[Present]:
        """Return who else is at which spot of a kit."""
        fresh = self.clock() - STAYS
        return [
            present
            for (of, name), (when, present) in list(self._seen.items())
            if of == kit and name != device and when > fresh
        ]
