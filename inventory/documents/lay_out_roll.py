"""The lay-out roll: every major part of a section, left and right set side by side."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.natural_order import natural
from inventory.documents.hands import hand_word
from inventory.documents.paper_table import Cell, Column, Mark, table, upright_or_turned
from inventory.documents.tables import Table
from inventory.documents.wrapping import NUMBER, SMALL, Type
from labels.typeface import Face

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.documents.page_head import PageHead
    from inventory.documents.paper import Paper

_TALL = 7.2
"""Millimetres of a row: a box to tick, or two lines of a description."""
_PART = Type(Face.CODE, 2.6)


@frozen(kw_only=True)
class RollLine:
    """One part of one hand to lay out."""

    plan_page: str = ""
    find_number: str = ""
    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    lies_in: str = ""
    missing: str = ""
    """In words, where it isn't there to be laid out."""


def lay_out_roll_pdf(head: PageHead, section: str, lines: Iterable[RollLine]) -> bytes:
    """Return the roll to tick while the parts of a section are laid out and identified."""
    every = list(lines)
    return upright_or_turned(
        head, f"Lay-out, section {section}", lambda paper: _write(paper, every)
    )


def _write(paper: Paper, every: Sequence[RollLine]) -> None:
    """Write how much there is to lay out, then part by part."""
    missing = sum(bool(line.missing) for line in every)
    words = f"; {missing} missing" if missing else ""
    paper.write(f"{counted(len(every), 'part')} of a hand or without{words}.")
    paper.write(
        "Identify each by number and hand against the plans before it is ticked:"
        " left set on the left, right set on the right."
    )
    paper.gap(2)
    if every:
        columns = _TURNED if paper.width > paper.height else _UPRIGHT
        table(paper, columns, _rows(every), tall=_TALL)
    paper.signature("Laid out by")


def lay_out_table(section: str, lines: Iterable[RollLine]) -> Table:
    """Return the roll as a table, one row for each part of each hand."""
    return Table(
        f"Lay-out {section}",
        ("Plans", "Find", "Part number", "Hand", "Quantity", "Lies in", "Missing", "Description"),
        tuple(
            (
                line.plan_page,
                line.find_number,
                line.part,
                hand_word(line.hand),
                line.quantity,
                line.lies_in,
                line.missing,
                line.description,
            )
            for line in _ordered(lines)
        ),
    )


def _columns(side: float, description: float) -> tuple[Column, ...]:
    """Return the columns; `side` is the share of each hand's words, 0 where they don't wrap."""
    return (
        Column("Plans", NUMBER),
        Column("Find", NUMBER, right=True),
        Column(""),
        Column("LEFT", NUMBER, fill=side),
        Column("Part number", _PART),
        Column(""),
        Column("RIGHT", NUMBER, fill=side),
        Column(""),
        Column("No hand", NUMBER, fill=side),
        Column("Description", SMALL, fill=description),
    )


_UPRIGHT = _columns(1.0, 1.6)
_TURNED = _columns(0.0, 1.0)
"""Where a bin's name is too long for the upright page."""


def _ordered(lines: Iterable[RollLine]) -> list[RollLine]:
    """Return the lines in the order of the plans."""
    return sorted(
        lines,
        key=lambda line: (natural(line.plan_page), natural(line.find_number), natural(line.part)),
    )


def _rows(lines: Iterable[RollLine]) -> list[list[Cell]]:
    """Return one row for each place on the plans, its left and right part in one row.

    What stands in one place twice gets a row of its own, so that nothing is hidden.
    """
    rows: list[tuple[RollLine, dict[Hand, RollLine]]] = []
    for line in _ordered(lines):
        side = line.hand if line.hand in {Hand.LEFT, Hand.RIGHT} else Hand.NONE
        if rows and _same_place(rows[-1][0], line) and side not in rows[-1][1]:
            rows[-1][1][side] = line
        else:
            rows.append((line, {side: line}))
    return [_row(first, sides) for first, sides in rows]


def _same_place(first: RollLine, line: RollLine) -> bool:
    """Say whether two lines are the hands of one part in one place on the plans."""
    return (first.plan_page, first.find_number, first.part) == (
        line.plan_page,
        line.find_number,
        line.part,
    )


def _row(first: RollLine, sides: dict[Hand, RollLine]) -> list[Cell]:
    """Return one row; a side without a part has no box."""
    cells = {side: _side(sides.get(side)) for side in (Hand.LEFT, Hand.RIGHT, Hand.NONE)}
    return [
        first.plan_page,
        first.find_number,
        *cells[Hand.LEFT],
        first.part,
        *cells[Hand.RIGHT],
        *cells[Hand.NONE],
        first.description,
    ]


def _side(line: RollLine | None) -> tuple[Cell, Cell]:
    """Return a box, and how many lie where."""
    if line is None:
        return "", ""
    words = line.missing.upper() if line.missing else line.lies_in
    either = " either side" if line.hand is Hand.EITHER else ""
    return Mark.BOX, f"{line.quantity} {words}{either}".strip()
