"""Every address that is answered, and which module answers it; loaded when first asked for."""

from __future__ import annotations

from importlib import import_module
from inspect import iscoroutinefunction
from typing import TYPE_CHECKING, Any

from starlette.concurrency import run_in_threadpool
from starlette.middleware import Middleware
from starlette.middleware.body_limit import RequestBodyLimitMiddleware
from starlette.routing import Mount, Route

from inventory.web.still_files import manifest, service_worker, still_files

if TYPE_CHECKING:
    from collections.abc import Awaitable, Callable

    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.routing import BaseRoute

MOST_PHOTO_BYTES = 12_500_000
"""Of a request that holds a photograph, with its form around it."""
_PHOTO = [Middleware(RequestBodyLimitMiddleware, max_body_size=MOST_PHOTO_BYTES)]
_loaded: dict[str, Callable[[Request], Any]] = {}

LOOKED_AT = {
    "/pair": "pairing.pair_page",
    "/devices": "pairing.devices_page",
    "/api/v1/openapi.json": "api.asking.openapi",
    "/api/v1/kits": "api.asking.kits",
    "/api/v1/{kit}/events": "live.events",
    "/api/v1/{kit}/{name}": "api.asking.answer_question",
    "/": "pages.today.kits",
    "/{kit}/": "pages.today.today",
    "/{kit}/crates": "pages.crates.crates_page",
    "/{kit}/crate": "pages.crates.crate_page",
    "/{kit}/count": "pages.crates.count_page",
    "/{kit}/measure": "pages.measuring.measure_page",
    "/{kit}/scan": "pages.scan.scan_page",
    "/{kit}/waiting": "pages.scan.waiting_page",
    "/{kit}/find": "pages.find.find_page",
    "/{kit}/part": "pages.find.part_page",
    "/{kit}/bins": "pages.bins.bins_page",
    "/{kit}/bin": "pages.bins.bin_page",
    "/{kit}/hold": "pages.bins.hold_page",
    "/{kit}/plan": "pages.plan.plan_page",
    "/{kit}/plan.svg": "pages.plan.plan_picture",
    "/{kit}/step": "pages.plan.step_page",
    "/{kit}/short": "pages.plan.short_page",
    "/{kit}/findings": "pages.receipt.findings_page",
    "/{kit}/findings.xlsx": "pages.papers.findings_paper",
    "/{kit}/reports/{name}": "pages.papers.report_paper",
    "/{kit}/shipments": "pages.shipments.shipments_page",
    "/{kit}/shipment": "pages.shipments.shipment_page",
    "/{kit}/lots": "pages.lots.lots_page",
    "/{kit}/lot": "pages.lots.lot_page",
    "/{kit}/cutting": "pages.cutting.cutting_page",
    "/{kit}/photos/{name}": "pages.photos.show_photo",
    "/{kit}/history": "pages.past.history_page",
}
SENT_TO = {
    "/pair": "pairing.pair_device",
    "/devices/invite": "pairing.invite_device",
    "/devices/revoke": "pairing.revoke_device",
    "/holder": "pairing.change_holder",
    "/look": "pairing.change_look",
    "/api/v1/{kit}/read-photo": "pages.scan.read_photo",
    "/api/v1/{kit}/{name}": "api.acting.ask_act",
    "/{kit}/photo": "pages.scan.scan_photo",
    "/{kit}/photos": "pages.photos.keep_photo",
    "/{kit}/act/{name}": "posting.post_act",
}
_WITH_PHOTO = {"/api/v1/{kit}/read-photo", "/{kit}/photo", "/{kit}/photos"}


def routes() -> list[BaseRoute]:
    """Return all routes; of two that fit, the one that stands first answers."""
    return [
        Mount("/static", still_files()),
        Route("/manifest.webmanifest", manifest),
        Route("/sw.js", service_worker),
        *(Route(path, later(where)) for path, where in LOOKED_AT.items()),
        *(
            Route(
                path,
                later(where),
                methods=["POST"],
                middleware=_PHOTO if path in _WITH_PHOTO else None,
            )
            for path, where in SENT_TO.items()
        ),
    ]


def later(where: str) -> Callable[[Request], Awaitable[Response]]:
    """Return an endpoint whose module is loaded when the first request comes for it.

    A server that only just started answers at once, and one that nobody asks for cutting plans
    never loads the solver. A plain function runs in a thread, so that it may wait for the store.
    """

    async def endpoint(request: Request) -> Response:
        answer = _loaded.get(where)
        if answer is None:
            answer = await run_in_threadpool(_load, where)
        if iscoroutinefunction(answer):
            response: Response = await answer(request)
        else:
            response = await run_in_threadpool(answer, request)
        return response

    return endpoint


def _load(where: str) -> Callable[[Request], Any]:
    module, _, name = where.rpartition(".")
    found: Callable[[Request], Any] = getattr(import_module(f"inventory.web.{module}"), name)
    _loaded[where] = found
    return found
