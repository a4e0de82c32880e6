"""The pages, one module for each subject."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.routing import Route

from inventory.web.pages import today

if TYPE_CHECKING:
    from starlette.routing import BaseRoute

PAGES: list[BaseRoute] = [
    Route("/", today.kits),
    Route("/{kit}/", today.today),
]
