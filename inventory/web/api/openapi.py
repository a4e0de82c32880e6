"""The description of the open interface, made from the same tables that answer it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.web.acts import ACTS
from inventory.web.acts.act import KEY_WORDS
from inventory.web.api.questions import QUESTIONS
from inventory.web.api.shapes import REFUSAL, SCANNED, TEXT, TOLD, Shape, many, record
from inventory.web.fields import LONGEST, Kind

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.web.acts.act import Act
    from inventory.web.api.question import Question
    from inventory.web.fields import Field

_WORDS = {
    "400": "Sent to a name that this server doesn't answer to.",
    "401": "The device isn't paired, or was shut out.",
    "403": "Sent by a page of another site.",
    "404": "There is no such kit, part, bin, crate or step.",
    "409": "Refused; nothing was recorded.",
    "412": "Sent by a page of another version.",
    "413": "More was sent than is ever read.",
    "422": "The document or a parameter can't be read.",
    "503": "The store can't be reached or written; ask again.",
}
_DESCRIPTION = (
    "The acts at the bench and the questions about a kit, the same as on the pages. A program "
    "pairs like a phone: it posts the form fields `token`, `name` and `person` to `/pair` and "
    "keeps the cookie. It sends the server's own address as `Origin` with every POST. Each act "
    "carries a `slip` of its own: the same slip is the same act, answered once, and its first "
    "answer is given again. Lengths are nanometres; other quantities are pieces, or the smallest "
    "unit of the part's measure. It records what people say; it never says that a part is good."
)
_KINDS: dict[Kind, Shape] = {
    Kind.TEXT: {"type": "string", "maxLength": LONGEST},
    Kind.WHOLE: {"type": "integer", "minimum": 0, "maximum": 10**15},
    Kind.HAND: {"type": "string", "enum": ["", "left", "right", "either", "none"]},
    Kind.YES: {"type": "boolean"},
}
_KIT = {"$ref": "#/components/parameters/kit"}


def description(version: str, kits: Sequence[str]) -> dict[str, Any]:
    """Return the whole description of a store with these kits, OpenAPI 3.1."""
    kit = {
        "name": "kit",
        "in": "path",
        "required": True,
        "description": "The kit's two-character code.",
        "schema": {"type": "string", "enum": list(kits)} if kits else TEXT,
    }
    paths: dict[str, Any] = {"/api/v1/kits": {"get": _kits()}}
    paths |= {f"/api/v1/{{kit}}/{name}": {"get": _asked(one)} for name, one in QUESTIONS.items()}
    paths |= {f"/api/v1/{{kit}}/{name}": {"post": _act(act)} for name, act in ACTS.items()}
    return {
        "openapi": "3.1.0",
        "info": {"title": "Kitwright", "version": version, "description": _DESCRIPTION},
        "paths": paths,
        "components": {
            "schemas": {"Refusal": REFUSAL},
            "parameters": {"kit": kit},
            "securitySchemes": {"paired": {"type": "apiKey", "in": "cookie", "name": "kitwright"}},
        },
        "security": [{"paired": []}],
    }


def _kits() -> dict[str, Any]:
    return {
        "operationId": "kits",
        "summary": "The kits of the store.",
        "responses": _responses(many(record(code=TEXT, name=TEXT)), ("400", "401", "503")),
    }


def _asked(question: Question) -> dict[str, Any]:
    parameters = [
        {
            "name": name,
            "in": "query",
            "required": name in question.needed,
            "description": words,
            "schema": _KINDS[Kind.TEXT],
        }
        for name, words in question.takes.items()
    ]
    return {
        "operationId": question.name,
        "summary": question.summary,
        "parameters": [_KIT, *parameters],
        "responses": _responses(question.shape, ("400", "401", "404", "409", "422", "503")),
    }


def _act(act: Act) -> dict[str, Any]:
    return {
        "operationId": act.name,
        "summary": act.summary,
        "parameters": [_KIT],
        "requestBody": {
            "required": True,
            "content": {"application/json": {"schema": _body(act.fields)}},
        },
        "responses": _responses(SCANNED if act.name == "scan" else TOLD, tuple(_WORDS)),
    }


def _body(fields: Iterable[Field]) -> Shape:
    named = {field.name: {**_KINDS[field.kind], "description": field.words} for field in fields}
    slip = {"type": "string", "pattern": "^[0-9A-Za-z._-]{8,64}$", "description": KEY_WORDS}
    return {
        "type": "object",
        "properties": {"slip": slip, **named},
        "required": ["slip", *(field.name for field in fields if field.needed)],
        "additionalProperties": False,
    }


def _responses(shape: Shape, statuses: Iterable[str]) -> dict[str, Any]:
    refusal = {"schema": {"$ref": "#/components/schemas/Refusal"}}
    by_door = {"400", "403", "413"}
    refused = {
        status: {
            "description": _WORDS[status],
            "content": {"text/plain": {"schema": TEXT}}
            if status in by_door
            else {"application/json": refusal},
        }
        for status in statuses
    }
    answered = {"description": "Answered.", "content": {"application/json": {"schema": shape}}}
    return {"200": answered, **refused}
