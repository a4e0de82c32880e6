"""Unmarked parts over the network: held for a part by measures, settled by a second person."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from inventory.core.parts.measuring import Dimension
from inventory.jobs.receiving.measured_parts import Held, hold_for, measured_typed, settle
from inventory.web.acts.act import Act, told
from inventory.web.fields import HAND, Field, Kind

if TYPE_CHECKING:
    from inventory.core.parts.measuring import Measured
    from inventory.jobs.receiving.measured_parts import Identification
    from inventory.web.fields import Fields
    from inventory.web.visit import Visit

MEASURES = (
    Field("thickness", "Of the sheet, as `.032in` or `0.8mm`."),
    Field("width", "The side across the longest one."),
    Field("length", "The longest side."),
    Field("holes", "How many; empty where nobody counted them.", Kind.WHOLE),
)
"""What can be measured on a part in the hand."""


def measured_of(fields: Fields) -> Measured:
    """Return the measures that were sent."""
    typed = {each: fields.text(each.value) for each in Dimension}
    return measured_typed(typed, fields.pieces("holes") if fields.text("holes") else None)


def _hold_for(at: Visit, fields: Fields) -> dict[str, Any]:
    held = Held(
        asked=fields.asked_of_hand(),
        measured=measured_of(fields),
        crate=fields.text("crate"),
        bag=fields.text("bag"),
        pieces=fields.pieces("pieces") if fields.text("pieces") else 1,
    )
    found = hold_for(at.bench, held, at.slip())
    return told(
        f"{_words(found)}, says {found.by}; not counted yet",
        "A second person holds it against the drawing and says so on the page of its crate.",
    )


def _settle(at: Visit, fields: Fields) -> dict[str, Any]:
    confirmed = fields.yes("confirmed")
    found = settle(at.bench, fields.pieces("number"), at.slip(), confirmed=confirmed)
    if not confirmed:
        return told(f"{_words(found)}: refused, nothing is counted")
    mark = "Mark it at once: number, hand and UP or FWD, with a felt pen on a face that hides."
    return told(f"{_words(found)}: confirmed, counted as identified by measurement", mark)


def _words(found: Identification) -> str:
    hand = "" if found.hand == "none" else f" {found.hand.upper()}"
    return f"{found.pieces} x {found.part}{hand}"


MEASURING = (
    Act(
        "hold-for",
        "Record that one person holds unmarked pieces for a part, by their measures.",
        (
            Field("crate", "Where they lay.", needed=True),
            Field("bag", "The bag in the crate."),
            Field("part", "The number they are held for.", needed=True),
            HAND,
            *MEASURES,
            Field("pieces", "So many alike; one where nothing is said.", Kind.WHOLE),
        ),
        _hold_for,
    ),
    Act(
        "settle-identified",
        "Record what a second person says: it is that part, or it isn't.",
        (
            Field("number", "Of the identification.", Kind.WHOLE, needed=True),
            Field("confirmed", "It is that part; else nothing is counted.", Kind.YES),
        ),
        _settle,
    ),
)
