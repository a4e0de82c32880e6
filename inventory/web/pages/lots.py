"""Lots: which are in date, and where every piece of one is."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.cautions import EXPIRED
from inventory.core.items import Item
from inventory.core.planning.shelf_life import Freshness
from inventory.jobs.planning.lots import trace
from inventory.jobs.planning.shelf_lives import films_on, lots
from inventory.web.showing import show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response


def lots_page(request: Request) -> Response:
    """Show every lot, what expires first at the top, and film that is still on."""
    at = visit(request)
    found = lots(at.bench, at.today)
    return show_at(
        request,
        at,
        "lots.html",
        title="Lots",
        section="Lots",
        lots=found,
        films=films_on(at.bench, at.today),
        caution=EXPIRED if any(each.state is Freshness.EXPIRED for each in found) else "",
    )


def lot_page(request: Request) -> Response:
    """Show where every piece of a lot is, with what is marked on it."""
    at = visit(request)
    part, lot = (request.query_params.get(name, "") for name in ("part", "lot"))
    found = trace(at.bench, part, lot)
    return show_at(
        request,
        at,
        "lot.html",
        title=f"Lot {lot}" if lot else f"All of {found.which.part}",
        section="Lots",
        found=found,
        never_received=[
            (Item(of_part, hand), pieces) for of_part, hand, pieces in found.never_received
        ],
        marked=[
            each
            for each in lots(at.bench, at.today)
            if each.lot.lot == found.which.lot and found.which.part in ("", each.lot.part)
        ],
    )
