"""Notices that something was recorded, by a phone, by the terminal, or by another program."""

from __future__ import annotations

from dataclasses import dataclass, field
from threading import Lock
from time import monotonic
from typing import TYPE_CHECKING

from inventory.jobs.news import newest_act

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.acts import Bench

FRESH = 0.9
"""Seconds for which an answer of the store serves every listener."""


@dataclass(slots=True)
class Watch:
    """The newest act of each kit, asked for at most about once a second."""

    clock: Callable[[], float] = monotonic
    _seen: dict[str, tuple[float, int]] = field(default_factory=dict)
    _lock: Lock = field(default_factory=Lock)

    def newest(self, bench: Bench) -> int:
        """Return the number of the newest act of the bench's kit."""
        with self._lock:
            seen = self._seen.get(bench.kit.code)
            if seen is None or self.clock() - seen[0] > FRESH:
                seen = (self.clock(), newest_act(bench))
                self._seen[bench.kit.code] = seen
            return seen[1]

    def changed(self, kit: str) -> None:
        """Ask the store again for a kit: something was recorded here."""
        with self._lock:
            self._seen.pop(kit, None)
