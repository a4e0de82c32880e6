"""The routes, the table from refusals to answers, and the door before them."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.applications import Starlette
from starlette.exceptions import HTTPException
from starlette.middleware import Middleware
from starlette.middleware.body_limit import RequestBodyLimitMiddleware
from starlette.responses import JSONResponse, PlainTextResponse

from inventory.core.errors import InventoryError
from inventory.web.guard import SAFE, Guard
from inventory.web.refusing import API, refusal_content, status_of
from inventory.web.routes import routes

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response
    from starlette.types import ASGIApp

    from inventory.web.serving import Serving

MOST_BYTES = 65_536
"""Of a request that holds no photograph."""


def make_app(serving: Serving) -> ASGIApp:
    """Return the whole application: nothing gets past the door in front of it."""
    app = Starlette(
        routes=routes(),
        middleware=[Middleware(RequestBodyLimitMiddleware, max_body_size=MOST_BYTES)],
        exception_handlers={InventoryError: _refused, HTTPException: _no_such},
    )
    app.state.serving = serving
    return Guard(app, serving)


def _refused(request: Request, error: Exception) -> Response:
    """Say a refusal: as a document to programs, as a page to people."""
    if not isinstance(error, InventoryError):
        raise error
    content = refusal_content(error)
    status = status_of(error)
    if request.url.path.startswith(API):
        return JSONResponse(content, status)
    from inventory.web.showing import show  # noqa: PLC0415 - only a page needs the templates

    looked = request.method in SAFE
    return show(
        request,
        "refused.html",
        title="Not found" if looked else "Not recorded",
        status=status,
        kit=_kit_of(request),
        refusal=content,
        word="NOT FOUND" if looked else "NOT RECORDED",
        again=None,
        back="/",
    )


def _kit_of(request: Request) -> object:
    """Return the kit of a page that was refused, so that its ways lead on from there."""
    try:
        serving: Serving = request.app.state.serving
        return serving.bench(request.path_params.get("kit", "")).kit
    except InventoryError:
        return None


def _no_such(request: Request, error: Exception) -> Response:
    """Answer what no route answers."""
    if not isinstance(error, HTTPException):
        raise error
    if request.url.path.startswith(API):
        content = {"refused": error.detail, "where": "", "remedy": "", "problems": []}
        return JSONResponse(content, error.status_code, error.headers)
    return PlainTextResponse(f"{error.detail}\n", error.status_code, error.headers)
