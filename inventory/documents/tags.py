"""HOLD and SCRAP tags."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from inventory.core.items import Hand
from inventory.documents.hands import hand_word
from inventory.documents.label_sheet import LabelSheet, PrintedLabels, printed
from inventory.documents.part_labels import part_content
from labels import Flag, Label, Line, Role, Shape

if TYPE_CHECKING:
    from collections.abc import Iterable

TAG_STOCK = "letter-2x3-90x42-fold"


@dataclass(frozen=True, slots=True, kw_only=True)
class Tag:
    """A piece that must not be used, or not yet."""

    part: str
    own_id: str = ""
    hand: Hand = Hand.NONE
    lot: str = ""
    why: str = ""
    on: str = ""
    """Day and name, in words."""


def hold_tags(tags: Iterable[Tag], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return tags for pieces on hold; their code still says what they are."""
    return printed(map(_hold, tags), sheet or LabelSheet(stock=TAG_STOCK))


def scrap_tags(tags: Iterable[Tag], sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return tags for spoiled pieces; without a code, so that none can be scanned out again."""
    return printed(map(_scrap, tags), sheet or LabelSheet(stock=TAG_STOCK))


def _hold(tag: Tag) -> Label:
    """Return a HOLD tag."""
    return Label(
        content=part_content(tag.part, tag.own_id),
        lines=_lines(tag),
        flag=Flag("HOLD", Shape.STRIPED),
    )


def _scrap(tag: Tag) -> Label:
    """Return a SCRAP tag."""
    return Label(content="", lines=_lines(tag), flag=Flag("SCRAP", Shape.CROSSED))


def _lines(tag: Tag) -> tuple[Line, ...]:
    """Return what a person reads below the flag."""
    return (
        Line(tag.part, Role.NUMBER),
        Line(hand_word(tag.hand), Role.NUMBER),
        Line(f"lot {tag.lot}" if tag.lot else ""),
        Line(tag.why),
        Line(tag.on, Role.SMALL),
    )
