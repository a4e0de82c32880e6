"""What needs doing today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse

from inventory.core.places import PlaceKind
from inventory.core.ready import Readiness, steps_ready
from inventory.jobs.receiving import crates, found
from inventory.jobs.still_coming import coming
from inventory.jobs.workshop_today import today as workshop_today
from inventory.web.guard import COOKIE
from inventory.web.pairing import with_secret
from inventory.web.short_parts import short_parts
from inventory.web.showing import show, show_at
from inventory.web.visit import serving_of, visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

CAN_START = frozenset({Readiness.READY, Readiness.READY_ALONE, Readiness.PREPARE})


def kits(request: Request) -> Response:
    """Show the kits to choose from; the only one is chosen already."""
    benches = serving_of(request).benches()
    if len(benches) == 1:
        return RedirectResponse(f"/{benches[0].kit.code}/", 303)
    return show(request, "kits.html", title="Kits", kits=[each.kit for each in benches])


def today(request: Request) -> Response:
    """Show what needs doing, the most pressing first."""
    at = visit(request)
    now = workshop_today(at.bench)
    steps = steps_ready(now.netting, now.workshop)
    due = coming(at.bench)
    page = show_at(
        request,
        at,
        "today.html",
        title="Today",
        section="Today",
        day=at.today,
        crates=[each for each in crates(at.bench) if each.state != "closed"],
        findings=found(at.bench),
        ready=[each for each in steps if each.readiness in CAN_START],
        begun=[each for each in steps if each.started and each.readiness is not Readiness.DONE],
        short=short_parts([net for net in now.netting.needs if net.stops]),
        overdue=[each for each in due if each.overdue(at.today)],
        held=sum(
            lies.quantity
            for lies in now.lying
            if lies.place.kind is PlaceKind.HOLD and lies.quantity > 0
        ),
        steps_done=sum(each.readiness is Readiness.DONE for each in steps),
        steps=len(steps),
    )
    return with_secret(page, at.serving, request.cookies[COOKIE])
