"""Labels for bins, drawers, shelves and hooks."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.documents.hands import hand_flag
from inventory.documents.label_sheet import printed
from labels import Label, Line, Role, Square

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.documents.label_sheet import LabelSheet, PrintedLabels

IDENTIFIER = "L"
"""Storage location, by ANSI MH10.8.2 data identifiers (ISO/IEC 15418)."""


@frozen(kw_only=True)
class BinLabel:
    """One bin: the name a person chose, and what lies in it."""

    own_id: str
    """The bin's own number, kit code before and check character behind; never the name."""
    name: str
    part: str = ""
    """Part number as printed, where the bin is for one part."""
    description: str = ""
    hand: Hand = Hand.NONE
    note: str = ""
    """Small print, for instance the date; quantities don't belong on a bin."""
    distance: float = 700.0
    """Millimetres from which the name is read: 700 at a bench, 1500 at a shelf."""


def bin_labels(
    bins: Iterable[BinLabel], sheet: LabelSheet | None = None, *, tiny: bool = False
) -> PrintedLabels:
    """Return a sheet of bin labels; `tiny` drawers get Data Matrix instead of QR.

    Raises `InventoryError` where a name or part number can't be printed large enough to read.
    """
    square = Square.DATA_MATRIX if tiny else Square.QR
    return printed((_label(bin_, square) for bin_ in bins), sheet)


def _label(bin_: BinLabel, square: Square) -> Label:
    """Return the label: name large, contents smaller."""
    return Label(
        content=IDENTIFIER + bin_.own_id,
        lines=(
            Line(bin_.name, Role.HEADLINE),
            Line(bin_.part, Role.NUMBER),
            Line(bin_.description),
            Line(bin_.note, Role.SMALL),
        ),
        flag=hand_flag(bin_.hand),
        square=square,
        distance=bin_.distance,
    )
