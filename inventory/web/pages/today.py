"""What needs doing today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse

from inventory.web.showing import show, show_at
from inventory.web.visit import serving_of, visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


def kits(request: Request) -> Response:
    """Show the kits to choose from; the only one is chosen already."""
    benches = serving_of(request).benches()
    if len(benches) == 1 and "all" not in request.query_params:
        return RedirectResponse(f"/{benches[0].kit.code}/", 303)
    return show(request, "kits.html", title="Kits", kits=[each.kit for each in benches])


def today(request: Request) -> Response:
    """Show what needs doing."""
    at = visit(request)
    return show_at(request, at, "today.html", title="Today", section="Today")
