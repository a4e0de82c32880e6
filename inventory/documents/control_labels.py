"""The control sheet and the scanner's test card."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.scanning.scans import CONTROLS, TEST_CARD, TEST_CARD_LINES
from inventory.documents.label_sheet import printed
from inventory.documents.own_stocks import Use
from inventory.documents.paper import Paper
from inventory.documents.wrapping import PLAIN, SMALL
from labels import Label, Line, Role, code128
from labels.geometry import Rect
from labels.printer import UNKNOWN_PRINTER
from labels.symbol import Square, cells

if TYPE_CHECKING:
    from inventory.documents.label_sheet import LabelSheet, PrintedLabels
    from inventory.documents.page_head import PageHead

_IDENTIFIER = "Z"
"""Mutually defined between customer and supplier, by ANSI MH10.8.2 data identifiers."""
_WORDS = {
    "UNDO": "take back the last scan",
    "DONE": "finish this step or count",
    "YES": "record it all the same",
    "CLEAR": "forget the quantity so far",
}
_QR_CELL = 8
_BAR = 4
_BARS_TALL = 14.0
_TALL = 32.0


def control_labels(sheet: LabelSheet | None = None) -> PrintedLabels:
    """Return the control sheet: undo, done, yes, clear, and the digits of a quantity."""
    order = [*_WORDS, *sorted(CONTROLS - _WORDS.keys())]
    return printed(map(_control, order), sheet, Use.LARGE)


def scanner_card_pdf(head: PageHead) -> bytes:
    """Return a page that shows which characters a scanner changes on this computer.

    One square code holds every character of our labels; three linear codes share them.
    """
    paper = Paper(head, "Scanner test card")
    paper.write(
        "Say `kitwright scan --test` on the computer that the scanner is plugged into, then scan:"
        " what arrives is compared with what stands here, and every changed sign is named."
    )
    paper.heading("For a camera: one scan", keep=60)
    side = cells(TEST_CARD, Square.QR).size * _QR_CELL * UNKNOWN_PRINTER.dot
    quiet = 4 * _QR_CELL * UNKNOWN_PRINTER.dot
    paper.gap(quiet)
    paper.square(TEST_CARD, Rect(paper.left + quiet, paper.y, side, side), _QR_CELL)
    paper.gap(side + quiet)
    paper.write(TEST_CARD, SMALL)
    paper.heading("For a scanner that reads lines only: all three, from the top", keep=100)
    for text in TEST_CARD_LINES:
        quiet = code128.QUIET * _BAR * UNKNOWN_PRINTER.dot
        length = code128.width(text) * _BAR * UNKNOWN_PRINTER.dot
        area = Rect(paper.left + quiet, paper.y, length, _BARS_TALL)
        paper.linear(text, area, _BAR)
        paper.text(area.x, area.bottom + 3, text, PLAIN)
        paper.gap(_TALL)
    return paper.save()


def _control(word: str) -> Label:
    """Return one field of the control sheet."""
    digit = word[1:] if word.startswith("Q") else ""
    return Label(
        content=_IDENTIFIER + word,
        lines=(
            Line(digit or word, Role.HEADLINE),
            Line("digit of a quantity" if digit else _WORDS[word]),
        ),
    )
