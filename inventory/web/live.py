"""Server-sent events: a page hears within about a second that something was recorded."""

from __future__ import annotations

import asyncio
from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.responses import StreamingResponse

from inventory.web.presence import Present
from inventory.web.visit import visit

if TYPE_CHECKING:
    from collections.abc import AsyncIterator

    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.visit import Visit

EVERY = 1.0
"""Seconds between two looks."""
STILL_THERE = 20
"""Looks after which a line is sent even if nothing happened, so that a dead phone is noticed."""
LONGEST_SPOT = 100


def events(request: Request) -> Response:
    """Tell the page when an act was recorded, or somebody came to another crate."""
    at = visit(request)
    spot = request.query_params.get("spot", "")[:LONGEST_SPOT]
    return StreamingResponse(_events(request, at, spot), media_type="text/event-stream")


async def _events(request: Request, at: Visit, spot: str) -> AsyncIterator[str]:
    serving, bench = at.serving, at.bench
    present = Present(at.device.name, at.device.person, spot)
    told = ""
    looks = 0
    while not (serving.ending() or await request.is_disconnected()):
        if spot:
            serving.presence.at(bench.kit.code, present)
        newest = await run_in_threadpool(serving.watch.newest, bench)
        now = f"{newest}.{serving.presence.changes}"
        if now != told:
            told = now
            yield f"event: changed\ndata: {now}\n\n"
        elif looks % STILL_THERE == 0:
            yield ": still here\n\n"
        looks += 1
        await asyncio.sleep(EVERY)
    serving.presence.at(bench.kit.code, Present(at.device.name, at.device.person, ""))
