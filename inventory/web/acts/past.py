"""Undoing over the network."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.jobs.bench.undoing import undo
from inventory.web.acts.act import Act, told_moves
from inventory.web.fields import Field, Kind

if TYPE_CHECKING:
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit


def _undo(at: Visit, fields: Fields) -> dict[str, Any]:
    entry = undo(at.bench, at.slip(fields.text("why")), fields.pieces("act"))
    words = f"act {entry.recorded.id} ({entry.recorded.act}) is undone"
    return told_moves(at, entry.movements, words)


PAST = (
    Act(
        "undo",
        "Take an act back by a counter-record; nothing is erased.",
        (
            Field("act", "Its number in the history.", Kind.WHOLE, needed=True),
            Field("why", "The reason."),
        ),
        _undo,
    ),
)
