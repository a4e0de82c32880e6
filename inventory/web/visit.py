"""One request: which kit, which device, who holds it, at which moment."""

from __future__ import annotations

import secrets
from contextlib import contextmanager
from dataclasses import replace
from typing import TYPE_CHECKING, cast

from inventory.core.frozen import frozen
from inventory.core.record.slips import Slip

if TYPE_CHECKING:
    from collections.abc import Iterator
    from datetime import date, datetime

    from starlette.requests import Request

    from inventory.jobs.acts import Bench
    from inventory.jobs.devices import Device
    from inventory.web.serving import Serving


@frozen
class Visit:
    """A paired device at the bench of one kit."""

    serving: Serving
    bench: Bench
    device: Device
    now: datetime
    key: str = ""
    """Of the slip that came with the request; empty where it only looks."""
    asked: str = ""
    """Digest of what it asks for."""

    @property
    def today(self) -> date:
        """The day at the place of the server."""
        return self.now.astimezone().date()

    def slip(self, note: str = "", part: str = "") -> Slip:
        """Return the slip of the act; `part` tells several acts of one request apart."""
        return Slip(
            key=f"{self.key}.{part}" if part else self.key,
            recorded_at=self.now,
            happened_on=self.today,
            person=self.device.person,
            device=self.device.name,
            note=note,
            asked=self.asked,
        )

    def on(self, bench: Bench) -> Visit:
        """Return the same visit at a bench whose acts are stored together."""
        return replace(self, bench=bench)


def visit(request: Request) -> Visit:
    """Return the visit that a request is; refused where the kit isn't known."""
    serving = serving_of(request)
    bench = serving.bench(request.path_params["kit"])
    return Visit(serving, bench, device_of(request), serving.now())


@contextmanager
def looking(request: Request) -> Iterator[Visit]:
    """Give the visit of a page that asks many questions: all see one moment, each is read once."""
    from inventory.jobs.together import at_one_moment  # noqa: PLC0415 - a server starts without

    at = visit(request)
    with at_one_moment(at.bench) as bench:
        yield at.on(bench)


def serving_of(request: Request) -> Serving:
    """Return the server that a request came to."""
    return cast("Serving", request.app.state.serving)


def device_of(request: Request) -> Device:
    """Return the device that asks; the door lets no other through."""
    return cast("Device", request.state.device)


def new_key() -> str:
    """Return a key for an act that may be asked for from a page."""
    return secrets.token_hex(16)
