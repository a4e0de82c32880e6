"""A table on paper: numbers whole, words wrapped, headings again on every page."""

from __future__ import annotations

from dataclasses import replace
from enum import Enum
from typing import TYPE_CHECKING, TypeAlias, assert_never

from inventory.core.errors import InventoryError
from inventory.core.frozen import frozen
from inventory.documents.paper import BOX, FLAG_TALL, FLAG_WIDE, HAIRLINE, RULE, Paper
from inventory.documents.wrapping import PLAIN, STRONG, Type, wrapped
from labels import Flag
from labels.geometry import Rect
from labels.legibility import CLOSE, least_cap
from labels.typeface import Face, tidy

if TYPE_CHECKING:
    from collections.abc import Callable, Iterator, Sequence

    from inventory.documents.page_head import PageHead

GUTTER = 2.5
NARROWEST_FILL = 24.0
_SHRINK = 0.92
_LINE_TO_WRITE = 18.0
_PAD = 0.9


class TooWideError(InventoryError):
    """A table whose numbers don't fit side by side on the page, however small."""


class Mark(Enum):
    """What a person fills in by hand."""

    BOX = "box"
    LINE = "line"


Cell: TypeAlias = str | Flag | Mark


@frozen
class Column:
    """One column: its heading, its type, and whether it takes what room is left and wraps."""

    heading: str
    kind: Type = PLAIN
    fill: float = 0.0
    """Its share of the room that is left; 0 where its widest cell says how wide it is."""
    right: bool = False
    """Ends at the right, as numbers do."""


@frozen
class _Placed:
    """A column with its place on the page."""

    column: Column
    x: float
    width: float


def upright_or_turned(head: PageHead, title: str, draw: Callable[[Paper], None]) -> bytes:
    """Return a paper drawn upright, or on its side where its numbers need the width."""
    paper = Paper(head, title)
    try:
        draw(paper)
    except TooWideError:
        paper = Paper(head, title, landscape=True)
        draw(paper)
    return paper.save()


def table(
    paper: Paper, columns: Sequence[Column], rows: Sequence[Sequence[Cell]], *, tall: float = 0.0
) -> None:
    """Draw the rows, each at least `tall` millimetres high.

    Raises `InventoryError` where a number is so long that it can't be printed whole.
    """
    placed = _placed(paper, columns, rows)
    paper.need(12.0 + tall)
    _headings(paper, placed)
    for row in rows:
        for cells, lines in _parts(paper, placed, row):
            height = max(tall, _height(placed, cells, lines))
            if paper.need(height):
                _headings(paper, placed)
            for at, cell, text in zip(placed, cells, lines, strict=True):
                _draw(paper, at, cell, text, height)
            paper.gap(height)
            paper.rule(HAIRLINE)


def _parts(
    paper: Paper, placed: Sequence[_Placed], row: Sequence[Cell]
) -> Iterator[tuple[Sequence[Cell], list[list[str]]]]:
    """Yield the row with its wrapped lines; one taller than a page in several parts."""
    lines = [
        wrapped(cell, at.column.kind, at.width)
        if isinstance(cell, str) and at.column.fill
        else [tidy(cell) if isinstance(cell, str) else ""]
        for at, cell in zip(placed, row, strict=True)
    ]
    while any(lines):
        most = [int(paper.tallest / at.column.kind.line) - 2 for at in placed]
        yield row, [text[:end] for text, end in zip(lines, most, strict=True)]
        lines = [text[end:] for text, end in zip(lines, most, strict=True)]
        row = [""] * len(row)


def _placed(
    paper: Paper, columns: Sequence[Column], rows: Sequence[Sequence[Cell]]
) -> list[_Placed]:
    """Return the columns side by side; where room is short, all type gets smaller alike."""
    fills = sum(column.fill > 0 for column in columns)
    shares = sum(column.fill for column in columns)
    while True:
        widths = [
            0.0 if column.fill else _widest(column, [row[place] for row in rows])
            for place, column in enumerate(columns)
        ]
        left = paper.inner - sum(widths) - GUTTER * (len(columns) - 1)
        if left >= NARROWEST_FILL * fills and _whole(columns, rows, left / (shares or 1.0)):
            break
        columns = [_smaller(column) for column in columns]
        if min(column.kind.cap for column in columns) < least_cap(CLOSE):
            raise TooWideError(
                "the numbers in this table are too long for the page",
                where=_longest(columns, rows),
                remedy="Take the .xlsx or CSV form of it.",
            )
    placed: list[_Placed] = []
    x = paper.left
    for column, fixed in zip(columns, widths, strict=True):
        width = fixed or left * column.fill / (shares or 1.0)
        placed.append(_Placed(column, x, width))
        x += width + GUTTER
    return placed


def _whole(columns: Sequence[Column], rows: Sequence[Sequence[Cell]], share: float) -> bool:
    """Say whether codes that are wrapped break between their words only."""
    coded = [
        place for place, each in enumerate(columns) if each.fill and each.kind.face is Face.CODE
    ]
    return all(
        columns[place].kind.width(word) <= columns[place].fill * share
        for place in coded
        for row in rows
        if isinstance(cell := row[place], str)
        for word in tidy(cell).split()
    )


def _longest(columns: Sequence[Column], rows: Sequence[Sequence[Cell]]) -> str:
    """Return the longest text that may not be wrapped."""
    whole = [
        cell
        for row in rows
        for column, cell in zip(columns, row, strict=True)
        if isinstance(cell, str) and not column.fill
    ]
    return max(whole, key=len, default="")


def _smaller(column: Column) -> Column:
    """Return the column in smaller type."""
    return replace(column, kind=replace(column.kind, cap=column.kind.cap * _SHRINK))


def _widest(column: Column, cells: Sequence[Cell]) -> float:
    """Return the width of the widest cell, heading included."""
    return max([STRONG.width(column.heading), *(_width(cell, column.kind) for cell in cells)])


def _width(cell: Cell, kind: Type) -> float:
    """Return how wide a cell has to be."""
    match cell:
        case str():
            return kind.width(tidy(cell))
        case Flag():
            return kind.width(cell.word) + FLAG_WIDE * kind.cap
        case Mark.BOX:
            return BOX
        case Mark.LINE:
            return _LINE_TO_WRITE
        case _:
            assert_never(cell)


def _height(
    placed: Sequence[_Placed], row: Sequence[Cell], lines: Sequence[Sequence[str]]
) -> float:
    """Return the height of a row."""
    heights = [0.0]
    for at, cell, text in zip(placed, row, lines, strict=True):
        kind = at.column.kind
        if isinstance(cell, Mark):
            heights.append(BOX)
        elif isinstance(cell, Flag):
            heights.append(FLAG_TALL * kind.cap)
        else:
            heights.append(kind.line * (len(text) - 1) + kind.cap * 1.35)
    return max(heights) + 2 * _PAD


def _headings(paper: Paper, placed: Sequence[_Placed]) -> None:
    """Draw the headings over a rule."""
    base = paper.y + STRONG.cap + 0.4
    for at in placed:
        if at.column.right:
            paper.text_right(at.x + at.width, base, at.column.heading, STRONG)
        else:
            paper.text(at.x, base, at.column.heading, STRONG)
    paper.gap(STRONG.line + 0.6)
    paper.rule(RULE)


def _draw(paper: Paper, at: _Placed, cell: Cell, lines: Sequence[str], height: float) -> None:
    """Draw one cell, its first line level with the others of the row."""
    kind = at.column.kind
    top = paper.y + _PAD
    match cell:
        case Mark.BOX:
            paper.box(Rect(at.x, paper.y + (height - BOX) / 2, BOX, BOX))
        case Mark.LINE:
            level = paper.y + height - _PAD
            paper.line((at.x, level), (at.x + at.width, level))
        case Flag():
            paper.flag(at.x, paper.y + (height - FLAG_TALL * kind.cap) / 2, cell, kind)
        case str():
            spare = height - 2 * _PAD - kind.line * (len(lines) - 1) - kind.cap
            base = top + spare / 2 + kind.cap
            for line in lines:
                if at.column.right:
                    paper.text_right(at.x + at.width, base, line, kind)
                else:
                    paper.text(at.x, base, line, kind)
                base += kind.line
        case _:
            assert_never(cell)
