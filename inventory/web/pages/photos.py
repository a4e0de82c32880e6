"""Photographs: kept with what they show, and shown again."""

from __future__ import annotations

from functools import partial
from hashlib import sha256
from typing import TYPE_CHECKING, Any

from starlette.datastructures import UploadFile
from starlette.responses import Response

from inventory.core.errors import NotFoundError
from inventory.jobs.receiving.photographs import PhotoOf, photograph, picture
from inventory.web.acts.act import Act, perform, told
from inventory.web.fields import Field, Fields, Kind, from_form
from inventory.web.posting import answer_page
from inventory.web.refusing import UnreadableError
from inventory.web.turns import in_turn
from inventory.web.visit import visit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.requests import Request

    from inventory.web.visit import Visit

TYPES = {"jpg": "image/jpeg", "png": "image/png"}
FIELDS = (
    Field("crate", "The crate it shows."),
    Field("part", "The part it shows."),
    Field("delivery", "The delivery it belongs to.", Kind.WHOLE),
    Field("caption", "What is seen on it."),
)


async def keep_photo(request: Request) -> Response:
    """Keep a photograph of a crate, a part or a delivery."""
    async with request.form(max_files=1, max_fields=12) as form:
        photo = form.get("photo")
        raw = await photo.read() if isinstance(photo, UploadFile) else b""
        name = photo.filename or "" if isinstance(photo, UploadFile) else ""
        sent = {key: str(value) for key, value in form.items() if key != "photo"}
    if not raw:
        raise UnreadableError("no picture was chosen", where="photo", remedy="Choose one.")
    return await in_turn(_keep, request, (name, raw), sent)


def _keep(request: Request, named: tuple[str, bytes], sent: Mapping[str, str]) -> Response:
    at = visit(request)
    said = from_form(FIELDS, sent)
    fields = Fields({**said.values, "sha256": sha256(named[1]).hexdigest()})
    act = Act("photo", "Keep a photograph.", FIELDS, partial(_record, named))
    key = sent.get("slip", "")
    answer = perform(at, act, fields, key)
    return answer_page(request, at, answer, sent.get("then", ""), key)


def _record(named: tuple[str, bytes], at: Visit, fields: Fields) -> dict[str, Any]:
    of = PhotoOf(
        caption=fields.text("caption"),
        crate=fields.text("crate"),
        part=fields.text("part"),
        delivery=fields.pieces("delivery") if fields.text("delivery") else None,
    )
    photograph(at.bench, [named], of, at.slip(of.caption))
    return told("the photograph is kept, without place, time or camera")


def show_photo(request: Request) -> Response:
    """Return a kept photograph; one that is missing or was changed is said to be."""
    at = visit(request)
    digest, _, kind = request.path_params["name"].partition(".")
    if kind not in TYPES:
        raise NotFoundError("no photograph is kept under this name")
    return Response(picture(at.bench, digest, kind), media_type=TYPES[kind])
