"""Shipments: what came by whom, what was wrong with it, whom to tell by when, what is due."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.cautions import DATES, NO_CALENDAR
from inventory.core.errors import NotFoundError
from inventory.core.receiving.deadlines import CARRIAGES, SALES
from inventory.core.receiving.delivery import PackageState
from inventory.documents.delivery_facts import named_facts, when_words
from inventory.jobs.receiving.claiming import claims, other_clocks
from inventory.jobs.receiving.deliveries import crates_of, deliveries, delivery_named, untied_lists
from inventory.jobs.receiving.photographs import photographs
from inventory.jobs.receiving.receiving import crates
from inventory.jobs.receiving.still_coming import coming
from inventory.web.showing import show_at
from inventory.web.visit import looking

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.visit import Visit


def shipments_page(request: Request) -> Response:
    """Show all deliveries, what to tell whom by when, and what is still to come."""
    with looking(request) as at:
        return _all_at(request, at)


def _all_at(request: Request, at: Visit) -> Response:
    found = claims(at.bench, at.today)
    return show_at(
        request,
        at,
        "shipments.html",
        title="Shipments",
        section="Shipments",
        deliveries=[(each, when_words(each.facts)) for each in deliveries(at.bench)],
        claims=found,
        others=other_clocks(at.bench, at.today),
        coming=sorted(
            coming(at.bench), key=lambda one: (one.promised is None, one.promised or at.today)
        ),
        today=at.today,
        carriages=CARRIAGES,
        sales=SALES,
        caution=DATES,
    )


def shipment_page(request: Request) -> Response:
    """Show one delivery: its facts, exceptions, crates, photographs and claims."""
    with looking(request) as at:
        return _one_at(request, at)


def _one_at(request: Request, at: Visit) -> Response:
    said = request.query_params.get("number", "")
    if not said.isascii() or not said.isdecimal():
        raise NotFoundError("which delivery?", remedy="Choose one of the list.")
    whole = delivery_named(at.bench, int(said))
    mine = set(crates_of(at.bench, whole))
    found = [
        each
        for each in claims(at.bench, at.today)
        if each.delivery is not None and each.delivery.number == whole.number
    ]
    dated = [each.claim.next for each in found if each.claim.next]
    return show_at(
        request,
        at,
        "shipment.html",
        title=f"Shipment {whole.number}",
        section="Shipments",
        whole=whole,
        when=when_words(whole.facts),
        facts=[pair for pair in named_facts(whole.facts) if pair[1]],
        crates=[each for each in crates(at.bench) if each.crate in mine],
        claims=found,
        pictures=[each for each in photographs(at.bench) if each.of.delivery == whole.number],
        states=list(PackageState),
        loose=untied_lists(at.bench),
        today=at.today,
        carriages=CARRIAGES,
        sales=SALES,
        caution=DATES if all(one.calendar_known for one in dated) else f"{DATES} {NO_CALENDAR}",
    )
