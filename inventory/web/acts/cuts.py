"""Cuts over the network: sticks to the saw, pieces and remnants from it."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.measures.lengths import parse_length, show_length
from inventory.jobs.bench.place_names import place_named
from inventory.jobs.cutting.recording import Cut, pieces_typed, record_cut
from inventory.web.acts.act import Act, told_moves
from inventory.web.fields import Field, Kind

if TYPE_CHECKING:
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit


def _record(at: Visit, fields: Fields) -> dict[str, Any]:
    origin, to = fields.text("from"), fields.text("to")
    remnant = fields.text("remnant")
    cut = Cut(
        asked=fields.asked(),
        sticks=fields.pieces("sticks") if fields.text("sticks") else 1,
        origin=place_named(at.bench, origin) if origin else None,
        pieces=tuple(pieces_typed(each) for each in fields.text("pieces").split(";")),
        remnant=parse_length(remnant) if remnant else None,
        destination=place_named(at.bench, to) if to else None,
    )
    done = record_cut(at.bench, cut, at.slip(fields.text("why")))
    kept = f"mark each remnant with its length, {show_length(done.remnant)}, and its lot"
    words = told_moves(at, done.movements)
    return {"words": [*words["words"], *([kept] if done.remnant else [])]}


CUTS = (
    Act(
        "record-cut",
        "Record a cut that was made: sticks go to the saw, pieces and remnants come from it.",
        (
            Field("part", "Number of the stock.", needed=True),
            Field("hand", "left, right, either or none.", Kind.HAND),
            Field("lot", "Lot of the sticks."),
            Field("length", "Of each stick, as `48in`."),
            Field("sticks", "How many, cut alike.", Kind.WHOLE),
            Field("from", "The bin they lie in; empty where they lie in one bin only."),
            Field("pieces", "From each stick: `4x11-1/2in; 75mm`.", needed=True),
            Field("to", "A bin, or `step 11-01`; else where the sticks lie."),
            Field("remnant", "Of each stick, as measured; else by the saw's kerf."),
            Field("why", "Anything worth knowing."),
        ),
        _record,
    ),
)
