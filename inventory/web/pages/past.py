"""The history, with undo."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.jobs.bench.undoing import history, newest_acts
from inventory.web.showing import show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

SHOWN = 50
_LONGEST = 16
"""Digits of an act's number; no kit has so many."""


def history_page(request: Request) -> Response:
    """Show what was done, newest first; undone acts stay, with a mark."""
    at = visit(request)
    part = request.query_params.get("part", "")
    step = request.query_params.get("step", "")
    before = _number(request.query_params.get("before", ""))
    if part or step:
        entries = [
            entry
            for entry in history(at.bench, part, step)
            if not before or entry.recorded.id < before
        ]
    else:
        entries = newest_acts(at.bench, SHOWN + 1, before)
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


def _number(text: str) -> int:
    """Return the act that a link names; 0 where it names none."""
    return int(text) if text.isascii() and text.isdecimal() and len(text) < _LONGEST else 0
