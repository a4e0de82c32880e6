"""Cutting diagrams on paper: each bar to scale, with the marks of one tape measure."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.documents.cut_bars import (
    CutBar,
    Placed,
    left_over,
    left_words,
    placed_pieces,
    shown,
    title,
)
from inventory.documents.paper import HAIRLINE, Paper
from inventory.documents.paper_table import Cell, Column, Mark, table
from inventory.documents.tables import Table
from inventory.documents.wrapping import NUMBER, SMALL, STRONG
from labels.geometry import Rect

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.documents.page_head import PageHead

_TALL = 9.0
_TICK = 2.0
_THINNEST_CUT = 0.35


def cutting_pdf(head: PageHead, bars: Iterable[CutBar], claim: str = "") -> bytes:
    """Return the diagrams; `claim` says how good the plan is proven to be."""
    every = list(bars)
    paper = Paper(head, "Cutting")
    total = sum(bar.times for bar in every)
    pieces = sum(bar.times * len(bar.pieces) for bar in every)
    paper.write(f"{counted(pieces, 'piece')} from {counted(total, 'bar')}. {claim}".strip())
    paper.write(
        "Hook the tape to the bar's first end once: every mark counts from there,"
        " saw cuts included. Mark, check against the drawing, then cut.",
        SMALL,
    )
    longest = max((bar.length for bar in every), default=1)
    for bar in every:
        _bar(paper, bar, longest)
    return paper.save()


def cutting_table(bars: Iterable[CutBar]) -> Table:
    """Return every piece with its marks as a table."""
    return Table(
        "Cutting",
        ("Bar", "Times", "Stock", "No.", "Piece", "Step", "Length", "From", "To", "Left over"),
        tuple(
            (
                bar.name,
                bar.times,
                bar.stock,
                at.number,
                at.piece.name,
                at.piece.step,
                shown(bar, at.piece.length),
                shown(bar, at.start),
                shown(bar, at.end),
                left_words(bar),
            )
            for bar in bars
            for at in placed_pieces(bar)
        ),
    )


_COLUMNS = (
    Column(""),
    Column("No.", STRONG, right=True),
    Column("Length", NUMBER, right=True),
    Column("Tape from", NUMBER, right=True),
    Column("to", NUMBER, right=True),
    Column("Piece", NUMBER, fill=1.0),
    Column("For step", NUMBER),
)


def _bar(paper: Paper, bar: CutBar, longest: int) -> None:
    """Draw one bar and the table of its pieces."""
    placed = placed_pieces(bar)
    paper.heading(title(bar), keep=_TALL + 26.0)
    paper.write(f"Kerf {shown(bar, bar.kerf)}, {left_words(bar)}.", SMALL)
    paper.gap(1)
    scale = paper.inner / longest
    whole = Rect(paper.left, paper.y, bar.length * scale, _TALL)
    _ends(paper, bar, whole, scale)
    for at in placed:
        _piece(paper, at, whole, scale)
        _cut(paper, bar, at.end, whole, scale)
    paper.box(whole, 0.4)
    paper.gap(_TALL + _TICK + 1.0)
    if placed:
        table(paper, _COLUMNS, [_row(bar, at) for at in placed])
    paper.gap(2)


def _ends(paper: Paper, bar: CutBar, whole: Rect, scale: float) -> None:
    """Grey the trims and what is left."""
    front = bar.front_trim * scale
    paper.bar(Rect(whole.x, whole.y, front, _TALL), grey=0.5)
    trim, back = bar.back_trim * scale, (bar.back_trim + left_over(bar)) * scale
    paper.bar(Rect(whole.right - back, whole.y, back, _TALL), grey=0.85)
    paper.bar(Rect(whole.right - trim, whole.y, trim, _TALL), grey=0.5)
    words = bar.remnant or "scrap"
    if left_over(bar) and STRONG.width(words) + 2 < back:
        paper.text_middle(whole.right - back / 2, whole.y + _TALL / 2 + 1, words, STRONG)


def _piece(paper: Paper, at: Placed, whole: Rect, scale: float) -> None:
    """Write a piece's number, and its length where there is room."""
    middle = whole.x + (at.start + at.end) / 2 * scale
    width = (at.end - at.start) * scale
    number = str(at.number)
    if STRONG.width(number) < width:
        paper.text_middle(middle, whole.y + _TALL / 2 + 1, number, STRONG)


def _cut(paper: Paper, bar: CutBar, end: int, whole: Rect, scale: float) -> None:
    """Draw a saw cut, no wider than it is but never invisible, with its mark below."""
    if end >= bar.length:
        return
    x = whole.x + end * scale
    width = max(_THINNEST_CUT, bar.kerf * scale)
    paper.bar(Rect(x, whole.y, width, _TALL))
    paper.line((x, whole.bottom), (x, whole.bottom + _TICK), HAIRLINE)


def _row(bar: CutBar, at: Placed) -> list[Cell]:
    """Return one row of the table."""
    return [
        Mark.BOX,
        str(at.number),
        shown(bar, at.piece.length),
        shown(bar, at.start),
        shown(bar, at.end),
        at.piece.name,
        at.piece.step,
    ]
