"""Acts asked for by a document."""

from __future__ import annotations

import json
from typing import TYPE_CHECKING

from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse

from inventory.web.acts import ACTS
from inventory.web.acts.act import perform
from inventory.web.fields import from_document
from inventory.web.refusing import UnreadableError
from inventory.web.turns import in_turn
from inventory.web.visit import serving_of, visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.acts.act import Act

VERSION_HEADER = "kitwright-version"
OUTDATED = 412


async def ask_act(request: Request) -> Response:
    """Do the act that the address names, as the document says."""
    act = ACTS.get(request.path_params["name"])
    if act is None:
        raise HTTPException(404)
    outdated = _outdated(request)
    if outdated is not None:
        return outdated
    document = _document(await request.body())
    return await in_turn(_ask, request, act, document)


def _document(body: bytes) -> dict[str, object]:
    try:
        document = json.loads(body)
    except (ValueError, RecursionError):
        document = None
    if not isinstance(document, dict):
        raise UnreadableError(
            "the body is no JSON object",
            where="body",
            remedy="Send `Content-Type: application/json`.",
        )
    return document


def _ask(request: Request, act: Act, document: dict[str, object]) -> Response:
    at = visit(request)
    key = document.pop("slip", "")
    fields = from_document(act.fields, document)
    answer = perform(at, act, fields, key if isinstance(key, str) else "")
    content = {name: value for name, value in answer.content.items() if name != "state"}
    return JSONResponse({**content, "again": answer.again}, answer.status)


def _outdated(request: Request) -> Response | None:
    """Tell a page of a former version to load itself anew; what it asked for isn't done yet."""
    said = request.headers.get(VERSION_HEADER)
    serving = serving_of(request)
    if said in (None, serving.page_version):
        return None
    content = {
        "refused": "this page is of another version than the server",
        "where": "",
        "remedy": "Load it again; what waits is kept.",
        "problems": [],
    }
    return JSONResponse(content, OUTDATED)
