"""Questions asked by an address, and the kits that may be asked about."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.exceptions import HTTPException
from starlette.responses import JSONResponse

from inventory.web.api.openapi import description
from inventory.web.api.questions import QUESTIONS
from inventory.web.fields import LONGEST
from inventory.web.refusing import UnreadableError
from inventory.web.visit import serving_of, visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.web.api.question import Question


def answer_question(request: Request) -> Response:
    """Answer the question that the address names."""
    question = QUESTIONS.get(request.path_params["name"])
    if question is None:
        raise HTTPException(404)
    at = visit(request)
    return JSONResponse(question.answer(at, _said(request, question)))


def _said(request: Request, question: Question) -> dict[str, str]:
    said = dict(request.query_params)
    for name, value in said.items():
        if name not in question.takes:
            raise UnreadableError(
                f"there is no parameter {name[:40]!r}",
                where="address",
                remedy=f"There are: {', '.join(question.takes) or 'none'}.",
            )
        if len(value) > LONGEST or not value.isprintable():
            raise UnreadableError(f"the parameter {name!r} holds no plain text", where="address")
    for name in question.needed:
        if not said.get(name, "").strip():
            raise UnreadableError(
                f"the parameter {name!r} is missing", where="address", remedy=question.takes[name]
            )
    return said


def kits(request: Request) -> Response:
    """Return the kits of the store."""
    found = [each.kit for each in serving_of(request).benches()]
    return JSONResponse([{"code": kit.code, "name": kit.name} for kit in found])


def openapi(request: Request) -> Response:
    """Return the description of this interface."""
    serving = serving_of(request)
    codes = [each.kit.code for each in serving.benches()]
    return JSONResponse(description(serving.version, codes))
