"""HOLD and SCRAP tags."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.documents.hands import hand_word
from inventory.documents.label_sheet import printed
from inventory.documents.own_stocks import Use
from inventory.documents.part_labels import part_content
from labels import Flag, Label, Line, Role, Shape

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels


@frozen(kw_only=True)
class Tag:
    """A piece that must not be used, or not yet."""

    part: str
    own_id: str = ""
    description: str = ""
    hand: Hand = Hand.NONE
    lot: str = ""
    why: str = ""
    on: str = ""
    """Day and name, in words."""
    scrapped: bool = False
    """Spoiled for good, not only held back."""


def tags(wanted: Iterable[Tag], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return a tag for each piece on hold or scrapped.

    The code on a HOLD tag still says what the piece is; a SCRAP tag has none, so that nothing
    scrapped can be scanned out again.
    """
    return printed(map(_tag, wanted), sheet, Use.TAG)


def _tag(tag: Tag) -> Label:
    """Return a tag."""
    return Label(
        content="" if tag.scrapped else part_content(tag.part, tag.own_id),
        lines=(
            Line(tag.part, Role.NUMBER),
            Line(hand_word(tag.hand), Role.NUMBER),
            Line(tag.description),
            Line(f"lot {tag.lot}" if tag.lot else ""),
            Line(tag.why),
            Line(tag.on, Role.SMALL),
        ),
        flag=Flag("SCRAP", Shape.CROSSED) if tag.scrapped else Flag("HOLD", Shape.STRIPED),
    )
