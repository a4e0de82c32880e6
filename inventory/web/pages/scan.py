"""The scan page: type, photograph, or hold the label before the camera."""

from __future__ import annotations

from typing import TYPE_CHECKING

from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile
from starlette.responses import JSONResponse, RedirectResponse

from inventory.jobs.answering import first_answer
from inventory.web.acts import ACTS
from inventory.web.acts.act import perform
from inventory.web.addresses import to
from inventory.web.decoding import one_text
from inventory.web.fields import Fields
from inventory.web.posting import with_done
from inventory.web.refusing import UnreadableError
from inventory.web.showing import show_at
from inventory.web.visit import visit

if TYPE_CHECKING:
    from starlette.requests import Request
    from starlette.responses import Response

LOOKS = {"OK": "ok", "NOT OK": "no", "QUESTION": "question", "UNDONE": "undone", "NOTED": "noted"}
SIGNS = {"OK": "✔", "NOT OK": "✖", "QUESTION": "?", "UNDONE": "↶", "NOTED": "·"}
CONTROLS = (("ZUNDO", "UNDO"), ("ZYES", "YES"), ("ZCLEAR", "CLEAR"), ("ZDONE", "DONE"))


def scan_page(request: Request) -> Response:
    """Show what is set, and what was answered to the scan before."""
    at = visit(request)
    after = request.query_params.get("done", "")
    answer = first_answer(at.bench, after) if after else None
    content = answer.content if answer and "answer" in answer.content else None
    return show_at(
        request,
        at,
        "scan.html",
        title="Scan",
        section="Scan",
        done=(),
        after=after if content else "",
        answer=content,
        looks=LOOKS,
        signs=SIGNS,
        controls=CONTROLS,
    )


async def scan_photo(request: Request) -> Response:
    """Read a photograph of one label and scan its text; several texts are not guessed at."""
    async with request.form(max_files=1, max_fields=8) as form:
        photo = form.get("photo")
        raw = await photo.read() if isinstance(photo, UploadFile) else b""
        key, after = str(form.get("slip", "")), str(form.get("after", ""))
    return await run_in_threadpool(_scan_photo, request, raw, key, after)


def _scan_photo(request: Request, raw: bytes, key: str, after: str) -> Response:
    at = visit(request)
    page = to(at.bench.kit.code, "scan")
    scan = ACTS["scan"]
    answer = perform(at, scan, Fields({"text": one_text(raw), "after": after}), key)
    if "answer" not in answer.content:
        raise UnreadableError(answer.content["refused"], remedy=answer.content["remedy"])
    return RedirectResponse(with_done(page, key), 303)


async def read_photo(request: Request) -> Response:
    """Return the one text in a photograph, for a page that scans it itself."""
    async with request.form(max_files=1, max_fields=2) as form:
        photo = form.get("photo")
        raw = await photo.read() if isinstance(photo, UploadFile) else b""
    if not raw:
        raise UnreadableError("the field 'photo' holds no picture", where="body")
    return JSONResponse({"text": await run_in_threadpool(one_text, raw)})


def waiting_page(request: Request) -> Response:
    """Show what this device still has to send, and what was refused later."""
    return show_at(request, visit(request), "waiting.html", title="Waiting", section="")
