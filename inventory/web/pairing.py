"""Pairing: a device shows a one-time code once, and a secret of its own from then on."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.responses import RedirectResponse

from inventory.documents.address_code import code_svg
from inventory.jobs.devices import (
    NotInvitedError,
    devices,
    holder_of,
    invitation,
    pair,
    revoke,
)
from inventory.web.guard import COOKIE
from inventory.web.refusing import UnreadableError
from inventory.web.showing import LOOK_COOKIE, LOOKS, drawing, show
from inventory.web.visit import device_of, serving_of

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.serving import Serving

STAYS = 7 * 24 * 3600
"""Seconds a browser keeps its secret after it was last renewed."""


def pair_page(request: Request) -> Response:
    """Show the form that pairs a device; a GET never uses a code up."""
    return show(request, "pair.html", title="Pair this device", error=None)


async def pair_device(request: Request) -> Response:
    """Pair the device that sends a code."""
    form = await request.form()
    values = [str(form.get(name, "")) for name in ("token", "name", "person")]
    return await run_in_threadpool(_pair, request, values)


def _pair(request: Request, values: list[str]) -> Response:
    serving = serving_of(request)
    address = request.client.host if request.client else ""
    serving.attempts.check(address)
    token, name, person = values
    try:
        paired = pair(serving.store, token, name, person, serving.now())
    except NotInvitedError as error:
        serving.attempts.wrong(address)
        return show(request, "pair.html", title="Pair this device", status=403, error=error)
    serving.paired(paired.device)
    return with_secret(RedirectResponse("/", 303), serving, paired.secret)


def with_secret(response: Response, serving: Serving, secret: str) -> Response:
    """Let a browser keep the secret, out of reach of every script and every other site."""
    response.set_cookie(
        COOKIE,
        secret,
        max_age=STAYS,
        httponly=True,
        samesite="strict",
        secure=serving.secure,
        path="/",
    )
    return response


def devices_page(request: Request) -> Response:
    """Show all devices, and let in another."""
    serving = serving_of(request)
    return show(request, "devices.html", title="Devices", devices=devices(serving.store), code="")


def invite_device(request: Request) -> Response:
    """Show a code that lets another device in."""
    serving = serving_of(request)
    token = invitation(serving.store, serving.now())
    address = f"{_origin(request)}/pair#t={token}"
    return show(
        request,
        "devices.html",
        title="Devices",
        devices=devices(serving.store),
        code=drawing(code_svg(address)),
        address=address,
        token=token,
    )


def _origin(request: Request) -> str:
    return f"{request.url.scheme}://{request.url.netloc}"


async def revoke_device(request: Request) -> Response:
    """Shut a device out."""
    form = await request.form()
    number = str(form.get("device", ""))
    if not number.isascii() or not number.isdecimal():
        raise UnreadableError("which device?", remedy="Choose one of the list.")
    return await run_in_threadpool(_revoke, request, int(number))


def _revoke(request: Request, number: int) -> Response:
    serving = serving_of(request)
    revoke(serving.store, number, serving.now())
    serving.known.forget()
    return RedirectResponse("/devices", 303)


async def change_holder(request: Request) -> Response:
    """Record who holds the device from now on."""
    form = await request.form()
    person = str(form.get("person", ""))
    return await run_in_threadpool(_change_holder, request, person)


def _change_holder(request: Request, person: str) -> Response:
    serving = serving_of(request)
    holder_of(serving.store, device_of(request), person)
    serving.known.forget()
    return RedirectResponse("/devices", 303)


async def change_look(request: Request) -> Response:
    """Keep whether this device shows the pages dark or light."""
    form = await request.form()
    look = str(form.get("look", ""))
    response = RedirectResponse(local_path(str(form.get("then", "/"))), 303)
    if look in LOOKS:
        response.set_cookie(LOOK_COOKIE, look, max_age=STAYS * 52, samesite="strict", path="/")
    return response


def local_path(path: str) -> str:
    """Return a path of this server, whatever was asked for: never another site's address."""
    fine = path.startswith("/") and path[1:2] not in {"/", "\\"} and path.isprintable()
    return path if fine else "/"
