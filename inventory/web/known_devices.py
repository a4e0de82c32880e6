"""Devices seen a moment ago, so that a page of twenty requests asks the store once."""

from __future__ import annotations

from dataclasses import dataclass, field
from time import monotonic
from typing import TYPE_CHECKING

from inventory.jobs.devices import whose

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.devices import Device
    from inventory.jobs.stores import Store

FRESH = 1.0
"""Seconds after which the store is asked again: so soon a revoked device is shut out."""
MOST = 1000


@dataclass(slots=True)
class KnownDevices:
    """Devices by the secret they show."""

    clock: Callable[[], float] = monotonic
    _seen: dict[str, tuple[float, Device]] = field(default_factory=dict)

    def fresh(self, secret: str) -> Device | None:
        """Return the device if it was seen a moment ago, without asking the store."""
        seen = self._seen.get(secret)
        return seen[1] if seen is not None and self.clock() - seen[0] < FRESH else None

    def device(self, store: Store, secret: str) -> Device | None:
        """Return the device that shows the secret, or None where none may act with it."""
        now = self.clock()
        device = whose(store, secret)
        if device is None:
            self._seen.pop(secret, None)
            return None
        if len(self._seen) >= MOST:
            self._seen.clear()
        self._seen[secret] = (now, device)
        return device

    def forget(self) -> None:
        """Ask the store again for every device: one was renamed or shut out."""
        self._seen.clear()
