"""Labels for bags of hardware, for single parts, and for remnants of stock."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand, part_key
from inventory.documents.hands import hand_flag
from inventory.documents.label_sheet import printed
from labels import Label, Line, Role
from labels.legibility import IN_HAND

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels

PART_IDENTIFIER = "1P"
"""Item number of the supplier, by ANSI MH10.8.2 data identifiers (ISO/IEC 15418)."""
TAG_IDENTIFIER = "9S"
"""Package number, mutually defined (same list): bags, and parts of a hand."""
REMNANT_IDENTIFIER = "20S"
"""Traceability code given by the customer (same list)."""


@frozen(kw_only=True)
class PartLabel:
    """One part or bag.

    With a number of ours the code stands for this part of this hand and lot; without one it can
    only say the part number, which doesn't tell left from right.
    """

    part: str
    """Part number as printed by the supplier."""
    own_id: str = ""
    description: str = ""
    hand: Hand = Hand.NONE
    lot: str = ""
    steps: str = ""
    """Where it is used: `step 10-02`, or `5 steps`."""
    note: str = ""
    """Small print; a count belongs here only as `counted 48 on 2026-11-25`."""


@frozen(kw_only=True)
class RemnantLabel:
    """What is left of a bar, tube or sheet; its length stands in words, never in the code."""

    own_id: str
    stock: str
    """Part number of the stock."""
    section: str = ""
    """Profile and its measures."""
    material: str = ""
    """Alloy and temper."""
    length: str
    """With its unit."""
    lot: str = ""
    note: str = ""


def part_labels(parts: Iterable[PartLabel], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return a sheet of labels for parts or bags: number large, hand as word and shape.

    Raises `InventoryError` where a part number can't be printed large enough to read.
    """
    return printed(map(_part, parts), sheet)


def remnant_labels(
    remnants: Iterable[RemnantLabel], sheet: LabelSheet | None = None
) -> PrintedLabels:
    """Return a sheet of labels for remnants: length large, then what it is.

    Raises `InventoryError` where a number can't be printed large enough to read.
    """
    return printed(map(_remnant, remnants), sheet)


def part_content(part: str, own_id: str) -> str:
    """Return what the symbols say: our number where there is one, else the part number."""
    return TAG_IDENTIFIER + own_id if own_id else PART_IDENTIFIER + part_key(part)


def _part(part: PartLabel) -> Label:
    """Return the label of a part or bag."""
    lot = f"lot {part.lot}" if part.lot else ""
    steps = f"for {part.steps}" if part.steps else ""
    return Label(
        content=part_content(part.part, part.own_id),
        lines=(
            Line(part.part, Role.HEADLINE),
            Line(part.description),
            Line(" · ".join(word for word in (lot, steps) if word)),
            Line(part.note, Role.SMALL),
        ),
        flag=hand_flag(part.hand),
        distance=IN_HAND,
    )


def _remnant(remnant: RemnantLabel) -> Label:
    """Return the label of a remnant."""
    lot = f"lot {remnant.lot}" if remnant.lot else ""
    return Label(
        content=REMNANT_IDENTIFIER + remnant.own_id,
        lines=(
            Line(remnant.length, Role.HEADLINE),
            Line(remnant.stock, Role.NUMBER),
            Line(remnant.section),
            Line(" · ".join(word for word in (remnant.material, lot) if word)),
            Line(remnant.note, Role.SMALL),
        ),
        distance=IN_HAND,
    )
