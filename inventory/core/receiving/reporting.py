"""What a discrepancy report says, in values that are kept as they were written."""

from __future__ import annotations

import datetime as dt
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.receiving.findings import Addressee, Finding, FindingKind

if TYPE_CHECKING:
    from collections.abc import Mapping

_ASKED = {
    FindingKind.PACKAGE_MISSING: "find the package, or settle what was in it",
    FindingKind.WRONG_HAND: "send the hand that is listed; say what to do with the other",
    FindingKind.WRONG_PART: "say what to do with what came",
    FindingKind.DAMAGED: "replace it, or credit it",
    FindingKind.DEFECTIVE: "replace it, or credit it",
    FindingKind.SHORT: "send what is missing",
    FindingKind.EXPIRED: "send stock that is in date",
    FindingKind.WRONG_REVISION: "send the revision listed, or confirm this one in writing",
    FindingKind.SUBSTITUTE: "send the part listed, or confirm this one in writing",
    FindingKind.UNMARKED: "say how to tell it from others",
    FindingKind.PAPERS_MISSING: "send the papers",
    FindingKind.NOT_LISTED: "say what to do with it",
    FindingKind.DUPLICATE: "say what to do with it",
    FindingKind.OVER: "say what to do with it",
}
_OF_CARRIER = {
    FindingKind.DAMAGED: "inspect it where it lies, and settle the damage",
    FindingKind.SHORT: "look for it, and settle the loss",
}
REPLACED = frozenset(
    {
        FindingKind.SHORT, FindingKind.DAMAGED, FindingKind.DEFECTIVE, FindingKind.WRONG_HAND,
        FindingKind.WRONG_REVISION, FindingKind.SUBSTITUTE, FindingKind.EXPIRED,
    }
)  # fmt: skip
"""Kinds that are settled by pieces sent.

A wrong part isn't: the listed one that didn't come is short, and stands on that line.
"""

_LETTERS = {
    Addressee.SUPPLIER: (
        "We counted this delivery against your packing list. What differs is listed below, line by "
        "line, with what we ask for. What your own list shows as on back-order stands apart: it is "
        "not claimed here, but please say when it will come.\n\n"
        "Please answer in writing and name the number of this report."
    ),
    Addressee.CARRIER: (
        "This delivery came with the loss or damage listed below; this is our notice of it. We "
        "keep the goods and their packing as we found them and ask you to inspect them here, or to "
        "tell us in writing that you will not. A claim for a stated amount follows.\n\n"
        "Please confirm in writing that you have this notice, and name your reference."
    ),
}


@frozen(kw_only=True)
class LetterLine:
    """One finding as it is put to the addressee; quantities as a person reads them."""

    kind: FindingKind
    part: str
    """The part number's key."""
    printed: str
    description: str = ""
    hand: Hand = Hand.NONE
    length: int = 0
    pieces: int
    """What the difference is, in the line's measure."""
    to_send: int = 0
    """How much, if it were sent, would settle the line; 0 where sending settles nothing."""
    packing_list: int | None = None
    sheet: str = ""
    row: int = 0
    crate: str = ""
    bag: str = ""
    unit: str = "EA"
    shipped: str = ""
    received: str = ""
    difference: str = ""
    words: str = ""
    evidence: str = ""
    """Counted by whom, when and how."""
    wanted: str = ""
    code: str = ""


@frozen(kw_only=True)
class LetterDue:
    """A line on back-order: due, not claimed."""

    printed: str
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    promised: str = ""


@frozen
class LetterPhoto:
    """A photograph by its hash, with what it shows."""

    sha256: str
    kind: str
    caption: str = ""


@frozen(kw_only=True)
class Letter:
    """A report to one addressee, whole; its number is given when it is kept."""

    addressee: Addressee
    recipient: str
    """Name and address, lines separated by line feeds."""
    sender: str
    text: str
    shipper: str = ""
    order: str = ""
    invoice: str = ""
    shipment: str = ""
    carrier: str = ""
    delivered_on: dt.date | None = None
    noted_on_receipt: str = ""
    lines: tuple[LetterLine, ...] = ()
    due: tuple[LetterDue, ...] = ()
    photos: tuple[LetterPhoto, ...] = ()


def letter_text(addressee: Addressee) -> str:
    """Return the words a letter begins with; a person writes their own."""
    return _LETTERS[addressee]


def asked_of(addressee: Addressee, kind: FindingKind) -> str:
    """Return what is asked for a kind of finding."""
    if addressee is Addressee.CARRIER and kind in _OF_CARRIER:
        return _OF_CARRIER[kind]
    return _ASKED.get(kind, "say what to do")


def code_of(finding: Finding) -> str:
    """Return the codes of open lists with the lists' names; empty where none was read."""
    codes = finding.codes
    named = (("SF 364", codes.sf364), ("EDIFACT 4221", codes.edifact))
    return ", ".join(f"{name} {code}" for name, code in named if code)


def content_of(letter: Letter) -> dict[str, Any]:
    """Return the letter as plain values that can be written down as JSON."""
    content = asdict(letter)
    content["delivered_on"] = letter.delivered_on.isoformat() if letter.delivered_on else ""
    return content


def letter_from(content: Mapping[str, Any]) -> Letter:
    """Return the letter that was written down."""
    named = dict(content)
    day = named.pop("delivered_on")
    lines = tuple(
        LetterLine(**{**line, "kind": FindingKind(line["kind"]), "hand": Hand(line["hand"])})
        for line in named.pop("lines")
    )
    due = tuple(LetterDue(**{**line, "hand": Hand(line["hand"])}) for line in named.pop("due"))
    photos = tuple(LetterPhoto(**photo) for photo in named.pop("photos"))
    return Letter(
        addressee=Addressee(named.pop("addressee")),
        delivered_on=dt.date.fromisoformat(day) if day else None,
        lines=lines,
        due=due,
        photos=photos,
        **named,
    )
