"""The full stock list: every item in every place."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.natural_order import natural
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper_table import Cell, Column, table, upright_or_turned
from inventory.documents.tables import Table, Value
from inventory.documents.wrapping import NUMBER, SMALL, STRONG, Type
from labels.typeface import Face

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.documents.page_head import PageHead
    from inventory.documents.paper import Paper

_HAND = Type(Face.BOLD, 1.6)


@frozen(kw_only=True)
class StockLine:
    """One item in one place."""

    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    lot: str = ""
    state: str = ""
    """`worked` where it was trimmed or drilled, a length for stock, else empty."""
    place: str
    quantity: str
    unit: str = "pieces"
    note: str = ""
    """On hold, expired, about (weighed) and the like."""


def stock_list_pdf(head: PageHead, lines: Iterable[StockLine]) -> bytes:
    """Return the list by part number."""
    ordered = _ordered(lines)
    return upright_or_turned(head, "Stock list", lambda paper: _write(paper, ordered))


def _write(paper: Paper, ordered: Sequence[StockLine]) -> None:
    """Write how much there is, then line by line."""
    parts = len({line.part for line in ordered})
    places = len({line.place for line in ordered})
    paper.write(
        f"{counted(parts, 'part number')} in {counted(places, 'place')},"
        f" {counted(len(ordered), 'line')}."
    )
    paper.gap(2)
    if ordered:
        table(paper, _COLUMNS, [_row(line) for line in ordered])


def stock_table(lines: Iterable[StockLine]) -> Table:
    """Return the list as a table."""
    return Table("Stock list", _HEADINGS, tuple(_values(line) for line in _ordered(lines)))


_COLUMNS = (
    Column("Part number", NUMBER),
    Column("Hand", _HAND),
    Column("Description", SMALL, fill=1.0),
    Column("Lot, state", SMALL),
    Column("Lies in", NUMBER),
    Column("Quantity", STRONG, right=True),
    Column("Note", SMALL),
)
_HEADINGS = (
    "Part number",
    "Hand",
    "Description",
    "Lot",
    "State",
    "Lies in",
    "Quantity",
    "Unit",
    "Note",
)


def _ordered(lines: Iterable[StockLine]) -> list[StockLine]:
    """Return the lines by part number, hand and place."""
    return sorted(lines, key=lambda line: (natural(line.part), line.hand, natural(line.place)))


def _row(line: StockLine) -> list[Cell]:
    """Return one row on paper."""
    unit = "" if line.unit == "pieces" else f" {line.unit}"
    state = ", ".join(word for word in (line.lot, line.state) if word)
    return [
        line.part,
        hand_flag(line.hand) or "",
        line.description,
        state,
        line.place,
        line.quantity + unit,
        line.note,
    ]


def _values(line: StockLine) -> tuple[Value, ...]:
    """Return one row of the table; a whole number stays a number."""
    quantity: Value = int(line.quantity) if line.quantity.isdecimal() else line.quantity
    hand = hand_word(line.hand)
    return (
        line.part, hand, line.description, line.lot, line.state, line.place, quantity,
        line.unit, line.note,
    )  # fmt: skip
