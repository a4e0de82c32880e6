"""Which stock each kind of label takes where nobody names one, by the paper that is at hand."""

from __future__ import annotations

from enum import StrEnum
from typing import TYPE_CHECKING

from inventory.documents.page_head import PaperSize

if TYPE_CHECKING:
    from pathlib import Path


class Use(StrEnum):
    """What a label is for, as far as its size goes."""

    LABEL = "label"
    LARGE = "large"
    """Read standing, or hit with a scanner in a hurry: crates, controls."""
    TAG = "tag"
    """Folded over and tied on."""


_OWN = {
    (Use.LABEL, PaperSize.A4): "a4-3x7-63.5x38.1",
    (Use.LABEL, PaperSize.LETTER): "letter-3x10-66.7x25.4",
    (Use.LARGE, PaperSize.A4): "a4-2x7-99.1x38.1",
    (Use.LARGE, PaperSize.LETTER): "letter-2x5-101.6x50.8",
    (Use.TAG, PaperSize.A4): "a4-2x3-90x45-fold",
    (Use.TAG, PaperSize.LETTER): "letter-2x3-90x42-fold",
}


def stock_for(named: str | Path, paper: PaperSize, use: Use = Use.LABEL) -> str | Path:
    """Return the stock that is named, else the one of this use on this paper."""
    return named or _OWN[use, paper]
