"""How often somebody tried to get in with a wrong code."""

from __future__ import annotations

from collections import defaultdict, deque
from dataclasses import dataclass, field
from threading import Lock
from time import monotonic
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Callable

PERIOD = 60.0
"""Seconds."""
MOST = 5
"""Wrong codes from one address in the period."""
MOST_OF_ALL = 30
"""Wrong codes from all addresses together."""


class TooOftenError(InventoryError):
    """Too many wrong codes came in a minute."""


@dataclass(slots=True)
class Attempts:
    """Wrong codes of the last minute, by the address they came from."""

    clock: Callable[[], float] = monotonic
    _wrong: defaultdict[str, deque[float]] = field(default_factory=lambda: defaultdict(deque))
    _lock: Lock = field(default_factory=Lock)

    def check(self, address: str) -> None:
        """Refuse an address that guessed too often; a right code is refused then as well."""
        with self._lock:
            self._forget()
            here = len(self._wrong[address])
            everywhere = sum(map(len, self._wrong.values()))
        if here >= MOST or everywhere >= MOST_OF_ALL:
            raise TooOftenError(
                "too many wrong codes came in the last minute", remedy="Wait a minute."
            )

    def wrong(self, address: str) -> None:
        """Remember a wrong code."""
        with self._lock:
            self._wrong[address].append(self.clock())

    def _forget(self) -> None:
        before = self.clock() - PERIOD
        for address in list(self._wrong):
            times = self._wrong[address]
            while times and times[0] <= before:
                times.popleft()
            if not times:
                del self._wrong[address]
