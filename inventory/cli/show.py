"""Values to stdout: as a table for people, as one JSON document for programs."""

from __future__ import annotations

import dataclasses
import json
import sys
from datetime import date, datetime
from typing import TYPE_CHECKING

from inventory.cli.table import Column, drawn

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.items import Item

SCHEMA = 1
"""Number of the JSON documents' form; grows when a key changes its meaning."""


def say(text: str = "") -> None:
    """Write a line of the answer."""
    sys.stdout.write(text + "\n")


def note(text: str) -> None:
    """Write a line about what goes on; not part of the answer."""
    sys.stderr.write(text + "\n")


def table(columns: Sequence[Column], rows: Iterable[Sequence[object]]) -> None:
    """Write a table."""
    sys.stdout.write(drawn(columns, rows))


def document(kind: str, content: object) -> None:
    """Write one JSON document; every value keeps the name it has in the program."""
    whole = {"schema": SCHEMA, "kind": kind, "content": content}
    escaped = not (sys.stdout.encoding or "").lower().startswith("utf")
    sys.stdout.write(json.dumps(whole, default=_plain, ensure_ascii=escaped, indent=1) + "\n")


def _plain(value: object) -> object:
    if dataclasses.is_dataclass(value) and not isinstance(value, type):
        named = {field.name: getattr(value, field.name) for field in dataclasses.fields(value)}
        return {name: each for name, each in named.items() if not name.startswith("_")}
    if isinstance(value, (date, datetime)):
        return value.isoformat()
    if isinstance(value, (set, frozenset)):
        return sorted(value)
    if isinstance(value, bytes):
        return value.hex()
    raise TypeError(f"{type(value).__name__} has no place in a JSON document")


def hand_word(hand: str) -> str:
    """Return LEFT, RIGHT or EITHER; nothing for a part without a hand."""
    return "" if hand == "none" else hand.upper()


def kind_words(item: Item) -> str:
    """Return what tells an item from others of its number, or a dash."""
    from inventory.core.measures.lengths import show_length

    length = show_length(item.length) if item.length else ""
    lot = f"lot {item.lot}" if item.lot else ""
    worked = "worked" if item.state == "worked" else ""
    return " ".join(word for word in (hand_word(item.hand), length, lot, worked) if word)


PART = Column("part number")
HAND = Column("hand")
PIECES = Column("pieces", number=True)
