"""The history, with undo."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.jobs.bench.undoing import history
from inventory.web.showing import show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

SHOWN = 50


def history_page(request: Request) -> Response:
    """Show what was done, newest first; undone acts stay, with a mark."""
    at = visit(request)
    part = request.query_params.get("part", "")
    step = request.query_params.get("step", "")
    entries = history(at.bench, part, step)
    before = request.query_params.get("before", "")
    if before.isascii() and before.isdecimal():
        entries = [entry for entry in entries if entry.recorded.id < int(before)]
    return show_at(
        request,
        at,
        "history.html",
        title="History",
        section="History",
        entries=entries[:SHOWN],
        older=entries[SHOWN - 1].recorded.id if len(entries) > SHOWN else 0,
        part=part,
        step=step,
    )
