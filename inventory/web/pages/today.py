"""What needs doing today."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.responses import RedirectResponse

from inventory.core.places import PlaceKind
from inventory.core.planning.ready import Readiness, steps_ready
from inventory.core.planning.shelf_life import Freshness
from inventory.jobs.planning.shelf_lives import films_on, lots
from inventory.jobs.planning.workshop_today import today as workshop_today
from inventory.jobs.receiving.claiming import claims
from inventory.jobs.receiving.receiving import crates, found
from inventory.jobs.receiving.second_counts import unsettled
from inventory.jobs.receiving.still_coming import coming
from inventory.web.guard import COOKIE
from inventory.web.pairing import with_secret
from inventory.web.short_parts import short_parts
from inventory.web.showing import show, show_at
from inventory.web.visit import looking, serving_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.visit import Visit

CAN_START = frozenset({Readiness.READY, Readiness.READY_ALONE, Readiness.PREPARE})


def kits(request: Request) -> Response:
    """Show the kits to choose from; the only one is chosen already."""
    benches = serving_of(request).benches()
    if len(benches) == 1:
        return RedirectResponse(f"/{benches[0].kit.code}/", 303)
    return show(request, "kits.html", title="Kits", kits=[each.kit for each in benches])


def today(request: Request) -> Response:
    """Show what needs doing, the most pressing first."""
    with looking(request) as at:
        page = show_at(request, at, "today.html", title="Today", section="Today", **_seen(at))
    return with_secret(page, at.serving, request.cookies[COOKIE])


def _seen(at: Visit) -> dict[str, object]:
    """Return what the page tells."""
    now = workshop_today(at.bench)
    steps = steps_ready(now.netting, now.workshop)
    due = coming(at.bench)
    return {
        "day": at.today,
        "crates": [each for each in crates(at.bench) if each.state != "closed"],
        "empty": not (now.lying or steps or due),
        "claims": [each for each in claims(at.bench, at.today) if not each.told],
        "findings": len(found(at.bench)),
        "differing": unsettled(at.bench),
        "lots": [
            each
            for each in lots(at.bench, at.today)
            if each.lying and each.state in (Freshness.EXPIRED, Freshness.SOON)
        ],
        "films": [each for each in films_on(at.bench, at.today) if each.overdue],
        "ready": [each for each in steps if each.readiness in CAN_START],
        "begun": [each for each in steps if each.started and each.readiness is not Readiness.DONE],
        "short": short_parts([net for net in now.netting.needs if net.stops]),
        "overdue": [each for each in due if each.overdue(at.today)],
        "held": sum(lies.place.kind is PlaceKind.HOLD and lies.quantity > 0 for lies in now.lying),
        "steps_done": sum(each.readiness is Readiness.DONE for each in steps),
        "steps": len(steps),
    }
