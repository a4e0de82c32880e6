"""What one running server holds: the store, the names it answers to, its one writer lock."""

from __future__ import annotations

import secrets
from dataclasses import dataclass, field
from datetime import UTC, datetime
from threading import Lock
from typing import TYPE_CHECKING

from inventory import __version__
from inventory.core.errors import NotFoundError
from inventory.jobs.acts import Bench
from inventory.jobs.kits import list_kits
from inventory.web.attempts import Attempts
from inventory.web.known_devices import KnownDevices
from inventory.web.presence import Presence
from inventory.web.watch import Watch

if TYPE_CHECKING:
    from collections.abc import Callable

    from inventory.jobs.devices import Device
    from inventory.jobs.stores import Store

DEFAULT_PORT = 8737


def utc_now() -> datetime:
    """Return this moment by the computer's clock, in whole seconds."""
    return datetime.now(UTC).replace(microsecond=0)


def not_yet() -> bool:
    """Say that the server goes on."""
    return False


def told_nobody(_device: Device) -> None:
    """Say to nobody that a device was paired."""


@dataclass(slots=True, kw_only=True)
class Serving:
    """One server on one store."""

    store: Store
    hosts: frozenset[str]
    """Host names and addresses that a request may be sent to, without the port."""
    port: int = DEFAULT_PORT
    secure: bool = False
    """Whether it answers by https."""
    now: Callable[[], datetime] = utc_now
    paired: Callable[[Device], None] = told_nobody
    """Called when a device was let in."""
    ending: Callable[[], bool] = not_yet
    """Whether the server was told to stop: what streams without end, ends then."""
    version: str = __version__
    started: str = field(default_factory=lambda: secrets.token_hex(4))
    """Tells this run from others, so that pages of a former one reload."""
    writer: Lock = field(default_factory=Lock)
    """One act at a time: phones wait here rather than in the database."""
    attempts: Attempts = field(default_factory=Attempts)
    known: KnownDevices = field(default_factory=KnownDevices)
    presence: Presence = field(default_factory=Presence)
    watch: Watch = field(default_factory=Watch)
    _benches: dict[str, Bench] = field(default_factory=dict)

    @property
    def page_version(self) -> str:
        """Return what pages of this run say they are of."""
        return f"{self.version}.{self.started}"

    @property
    def scheme(self) -> str:
        """Return how addresses of this server begin."""
        return "https" if self.secure else "http"

    @property
    def origins(self) -> frozenset[str]:
        """Return what a browser calls the pages of this server."""
        port = "" if self.port == (443 if self.secure else 80) else f":{self.port}"
        return frozenset(f"{self.scheme}://{_in_url(host)}{port}" for host in self.hosts)

    def benches(self) -> list[Bench]:
        """Return a bench for each kit of the store."""
        return [Bench(self.store, kit) for kit in list_kits(self.store)]

    def bench(self, code: str) -> Bench:
        """Return the bench of the kit with this two-character code."""
        if code not in self._benches:
            self._benches = {each.kit.code: each for each in self.benches()}
        if code not in self._benches:
            raise NotFoundError(f"there is no kit {code!r} here", remedy="Choose one of the kits.")
        return self._benches[code]


def _in_url(host: str) -> str:
    return f"[{host}]" if ":" in host else host
