"""What stands beside a backup: by which it is known to be whole."""

from __future__ import annotations

import json
from dataclasses import asdict
from datetime import datetime
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen

if TYPE_CHECKING:
    from collections.abc import Mapping

KIND = "kitwright backup"
SUFFIX = ".kitwright"
BESIDE = ".json"


@frozen(kw_only=True)
class Note:
    """The note beside a backup's file."""

    file: str
    sha256: str
    """Of the file."""
    state: str
    """Hash over all rows of the record."""
    schema: int
    program: str
    store: str
    """The store's own number."""
    made_at: datetime
    rows: Mapping[str, int]
    seals: Mapping[str, str]
    """Of each kit by its code."""
    photos: tuple[str, ...]
    """File names in the backup's folder of photographs."""


def note_text(note: Note) -> str:
    """Return the note as it is written: JSON for programs, a key a line for people."""
    return json.dumps({"kind": KIND, **asdict(note)}, default=datetime.isoformat, indent=1) + "\n"


def read_note(text: str, where: str) -> Note:
    """Return the note of a text; refuse what isn't one."""
    unreadable = InventoryError(
        "the note beside the backup can't be read", where=where, remedy="Take another backup."
    )
    try:
        found = json.loads(text)
        kind = found.pop("kind")
        found["made_at"] = datetime.fromisoformat(found["made_at"])
        found["photos"] = tuple(found["photos"])
        note = Note(**found)
    except (ValueError, TypeError, KeyError, AttributeError) as error:
        raise unreadable from error
    if kind != KIND:
        raise unreadable
    return note


def backup_name(stem: str, made_at: datetime) -> str:
    """Return the name of a backup's file: `kits-20261125T100000Z.kitwright`."""
    return f"{stem}-{made_at:%Y%m%dT%H%M%SZ}{SUFFIX}"
