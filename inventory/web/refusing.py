"""From a refusal to a status, and to a page or a document that says why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from starlette.responses import JSONResponse, PlainTextResponse

from inventory.core.errors import (
    AlreadyDoneError,
    InventoryError,
    NotFoundError,
    ProblemsError,
    StoreError,
)
from inventory.jobs.devices import NotInvitedError
from inventory.web.attempts import TooOftenError

if TYPE_CHECKING:
    from starlette.responses import Response


class UnreadableError(InventoryError):
    """A field is missing, unknown, or holds what it can't."""


API = "/api/"
_STATUS = (
    (AlreadyDoneError, 200),
    (NotFoundError, 404),
    (StoreError, 503),
    (NotInvitedError, 403),
    (TooOftenError, 429),
    (UnreadableError, 422),
)
CONFLICT = 409
"""Of every other refusal."""


def status_of(error: InventoryError) -> int:
    """Return the HTTP status of a refusal."""
    return next((status for kind, status in _STATUS if isinstance(error, kind)), CONFLICT)


def refusal_content(error: InventoryError) -> dict[str, Any]:
    """Return a refusal as a document: what, where, remedy, and every problem of a file."""
    from inventory.web.remedies import asked_by, remedy_on_a_page  # noqa: PLC0415 - starts without

    problems = error.problems if isinstance(error, ProblemsError) else ()
    content = {
        "refused": error.what,
        "where": error.where,
        "remedy": remedy_on_a_page(error),
        "problems": [str(problem) for problem in problems],
    }
    asked = asked_by(error)
    return {**content, "asks": asked} if asked else content


def plain_refusal(status: int, words: str) -> Response:
    """Return a refusal in one line, for whoever isn't a page of this server."""
    return PlainTextResponse(f"{words}\n", status)


def refusal_at_the_door(path: str, error: InventoryError) -> Response:
    """Return a refusal that came up before it was known which device asks."""
    content = refusal_content(error)
    if path.startswith(API):
        return JSONResponse(content, status_of(error))
    return plain_refusal(status_of(error), f"{content['refused']}. {content['remedy']}")


def unpaired_document() -> Response:
    """Return what a program gets whose device isn't paired."""
    content = {
        "refused": "this device isn't paired, or was shut out",
        "where": "",
        "remedy": "Run `kitwright serve` at the computer and scan the code it shows.",
        "problems": [],
    }
    return JSONResponse(content, 401)
