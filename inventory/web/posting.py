"""A form sent: the act is done once, then the browser goes to a page that can be reloaded."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any
from urllib.parse import parse_qsl, urlencode, urlsplit

from starlette.exceptions import HTTPException
from starlette.responses import RedirectResponse

from inventory.core.frozen import frozen
from inventory.web.acts import ACTS
from inventory.web.acts.act import perform
from inventory.web.fields import from_form
from inventory.web.pairing import local_path
from inventory.web.showing import show
from inventory.web.turns import in_turn
from inventory.web.visit import visit

if TYPE_CHECKING:
    from collections.abc import Mapping

    from starlette.requests import Request
    from starlette.responses import Response

    from inventory.jobs.answering import Answer
    from inventory.web.acts.act import Act
    from inventory.web.visit import Visit

DONE = 200


@frozen
class Again:
    """A form as it was sent."""

    act: str
    fields: Mapping[str, str]


async def post_act(request: Request) -> Response:
    """Do the act of a form."""
    act = ACTS.get(request.path_params["name"])
    if act is None:
        raise HTTPException(404)
    async with request.form(max_files=0, max_fields=60) as form:
        sent = dict(form)
    return await in_turn(_post, request, act, sent)


def _post(request: Request, act: Act, sent: Mapping[str, Any]) -> Response:
    at = visit(request)
    key = str(sent.get("slip", ""))
    fields = from_form(act.fields, sent)
    answer = perform(at, act, fields, key)
    again = Again(act.name, {name: said for name, said in fields.values.items() if said})
    return answer_page(request, at, answer, str(sent.get("then", "")), key, again)


def answer_page(  # noqa: PLR0913, PLR0917 - all of one form's answer
    request: Request, at: Visit, answer: Answer, then: str, key: str, again: Again | None = None
) -> Response:
    """Return the page that a form's act leads to; a refused one says why and leads back.

    Where it asks something, `again` is what is sent once more with a YES to it.
    """
    then = local_path(then or f"/{at.bench.kit.code}/")
    if answer.status == DONE:
        return RedirectResponse(with_done(then, key), 303)
    return show(
        request,
        "refused.html",
        title="Not recorded",
        status=answer.status,
        kit=at.bench.kit,
        refusal=answer.content,
        again=again if answer.content.get("asks") else None,
        word="NOT RECORDED",
        back=then,
    )


def with_done(path: str, key: str) -> str:
    """Return the path of a page that tells what was answered to a slip."""
    parts = urlsplit(path)
    query = [pair for pair in parse_qsl(parts.query) if pair[0] != "done"]
    return f"{parts.path}?{urlencode([*query, ('done', key)])}"
