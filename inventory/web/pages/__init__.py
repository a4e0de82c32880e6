"""The pages, one module for each subject."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.middleware import Middleware
from starlette.middleware.body_limit import RequestBodyLimitMiddleware
from starlette.routing import Route

from inventory.web.pages import bins, crates, find, past, plan, receipt, scan, today

if TYPE_CHECKING:
    from starlette.routing import BaseRoute

MOST_PHOTO_BYTES = 12_500_000
"""Of a request that holds a photograph, with its form around it."""
PHOTO = [Middleware(RequestBodyLimitMiddleware, max_body_size=MOST_PHOTO_BYTES)]

PAGES: list[BaseRoute] = [
    Route("/", today.kits),
    Route("/{kit}/", today.today),
    Route("/{kit}/crates", crates.crates_page),
    Route("/{kit}/crate", crates.crate_page),
    Route("/{kit}/count", crates.count_page),
    Route("/{kit}/scan", scan.scan_page),
    Route("/{kit}/photo", scan.scan_photo, methods=["POST"], middleware=PHOTO),
    Route("/{kit}/waiting", scan.waiting_page),
    Route("/{kit}/find", find.find_page),
    Route("/{kit}/part", find.part_page),
    Route("/{kit}/bins", bins.bins_page),
    Route("/{kit}/bin", bins.bin_page),
    Route("/{kit}/hold", bins.hold_page),
    Route("/{kit}/plan", plan.plan_page),
    Route("/{kit}/plan.svg", plan.plan_picture),
    Route("/{kit}/step", plan.step_page),
    Route("/{kit}/short", plan.short_page),
    Route("/{kit}/findings", receipt.findings_page),
    Route("/{kit}/history", past.history_page),
]
