"""The door: who may ask what from where, and the headers that every answer carries.

Against DNS rebinding: only requests to names of this server. Against pages of other sites: an
unsafe method needs this server's own origin. Against everybody else on the network: a paired
device. Each rule has its test in `tests/web/test_guard.py`.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import Headers, MutableHeaders
from starlette.requests import cookie_parser

from inventory.core.errors import InventoryError
from inventory.web.refusing import API, plain_refusal, refusal_at_the_door, unpaired_document

if TYPE_CHECKING:
    from starlette.types import ASGIApp, Message, Receive, Scope, Send

    from inventory.jobs.devices import Device
    from inventory.web.serving import Serving

COOKIE = "kitwright"
SAFE = frozenset({"GET", "HEAD"})
OPEN_PATHS = ("/pair", "/manifest.webmanifest", "/sw.js", "/favicon.ico")
OPEN_FOLDER = "/static/"
POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' blob:; media-src 'self' blob:; connect-src 'self'; worker-src 'self'; "
    "manifest-src 'self'; font-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'"
)
PICTURE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; frame-ancestors 'none'"
"""For a drawing opened by itself: its style stands in it, and nothing in it may run."""
HEADERS = {
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",  # `no-referrer` makes browsers send `Origin: null`
    "Cross-Origin-Resource-Policy": "same-origin",
    "X-Frame-Options": "DENY",
}


class Guard:
    """Stands before every route."""

    def __init__(self, app: ASGIApp, serving: Serving) -> None:
        self._app = app
        self._serving = serving

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer, or hand on to the routes."""
        if scope["type"] != "http":
            if scope["type"] == "lifespan":
                await self._app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = self._refused(scope, headers)
        guarded = _with_headers(send)
        if refused:
            await plain_refusal(*refused)(scope, receive, guarded)
            return
        try:
            device = await self._device(cookie_parser(headers.get("cookie", "")).get(COOKIE, ""))
        except InventoryError as error:  # nobody can be asked who this is
            await refusal_at_the_door(scope["path"], error)(scope, receive, guarded)
            return
        scope.setdefault("state", {})["device"] = device
        if device is not None or is_open(scope["path"]):
            await self._app(scope, receive, guarded)
        elif scope["path"].startswith(API):
            await unpaired_document()(scope, receive, guarded)
        else:
            way_in = {**scope, "path": "/pair", "raw_path": b"/pair", "method": "GET"}
            await self._app(way_in, receive, _with_status(guarded, 401))

    async def _device(self, secret: str) -> Device | None:
        """Return the device that asks; looked up in a thread, at most once a second."""
        known, store = self._serving.known, self._serving.store
        if not secret:
            return None
        return known.fresh(secret) or await run_in_threadpool(known.device, store, secret)

    def _refused(self, scope: Scope, headers: Headers) -> tuple[int, str] | None:
        """Return status and words for a request that never gets to a route."""
        if _host(headers.get("host", "")) not in self._serving.hosts:
            return 400, "this server doesn't answer to that name"
        if scope["method"] in SAFE:
            return None
        origin = headers.get("origin")
        if origin is not None:
            same = origin in self._serving.origins
        else:
            same = headers.get("sec-fetch-site") == "same-origin"
        return None if same else (403, "this came from a page of another site")


def is_open(path: str) -> bool:
    """Say whether a path answers devices that aren't paired, too."""
    return path in OPEN_PATHS or path.startswith(OPEN_FOLDER)


def _host(header: str) -> str:
    """Return the host's name without its port."""
    if header.startswith("["):
        return header[1:].partition("]")[0]
    return header.rpartition(":")[0] or header


def _with_headers(send: Send) -> Send:
    async def guarded(message: Message) -> None:
        if message["type"] == "http.response.start":
            headers = MutableHeaders(scope=message)
            for name, value in HEADERS.items():
                headers[name] = value
            is_picture = headers.get("content-type", "").startswith("image/svg")
            headers["Content-Security-Policy"] = PICTURE_POLICY if is_picture else POLICY
            headers.setdefault("Cache-Control", "no-store")
        await send(message)

    return guarded


def _with_status(send: Send, status: int) -> Send:
    async def changed(message: Message) -> None:
        if message["type"] == "http.response.start":
            message = {**message, "status": status}
        await send(message)

    return changed
