"""Shapes of documents, as OpenAPI 3.1 writes them (JSON Schema 2020-12)."""

from __future__ import annotations

from typing import Any

Shape = dict[str, Any]

TEXT: Shape = {"type": "string"}
WHOLE: Shape = {"type": "integer"}
YES: Shape = {"type": "boolean"}
DAY: Shape = {"type": "string", "format": "date"}


def record(**fields: Shape) -> Shape:
    """Return an object that has exactly these fields."""
    return {
        "type": "object",
        "properties": fields,
        "required": list(fields),
        "additionalProperties": False,
    }


def many(shape: Shape) -> Shape:
    """Return a list of one shape."""
    return {"type": "array", "items": shape}


def maybe(shape: Shape) -> Shape:
    """Return a shape that may be null."""
    return {"anyOf": [shape, {"type": "null"}]}


HAND: Shape = {"type": "string", "enum": ["left", "right", "either", "none"]}
ITEM = record(part=TEXT, hand=HAND, lot=TEXT, length_nm=WHOLE, worked=YES)
PLACE = record(kind=TEXT, code=TEXT)
LYING = record(place=PLACE, item=ITEM, quantity=WHOLE)
MOVE = record(item=ITEM, quantity=WHOLE, origin=PLACE, destination=PLACE)
NEED = record(
    step=TEXT, part=TEXT, hand=HAND, quantity=WHOLE, length_nm=WHOLE, sheet=TEXT, find_number=TEXT
)
NETTED = record(need=NEED, issued=WHOLE, on_hand=WHOLE, short=WHOLE, stops=YES)
REFUSAL: Shape = {
    "type": "object",
    "properties": {
        "refused": TEXT,
        "where": TEXT,
        "remedy": TEXT,
        "problems": many(TEXT),
        "asks": {"type": "string", "description": "Field whose `true` answers what is asked."},
        "again": YES,
    },
    "required": ["refused", "where", "remedy", "problems"],
    "additionalProperties": False,
}
TOLD = record(words=many(TEXT), again=YES)
SCANNED = record(answer=TEXT, words=many(TEXT), remedy=TEXT, next=TEXT, again=YES)
