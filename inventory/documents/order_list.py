"""The order list: what to order or claim, supplier by supplier, the earliest needed first."""

from __future__ import annotations

from itertools import groupby
from typing import TYPE_CHECKING

from inventory.core.counted import counted
from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper import Paper
from inventory.documents.paper_table import Cell, Column, Mark, table
from inventory.documents.tables import Table, Value
from inventory.documents.wrapping import NUMBER, SMALL, STRONG

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from inventory.documents.page_head import PageHead


@frozen(kw_only=True)
class WantedLine:
    """Pieces of one part of one hand to order or to claim."""

    supplier: str = ""
    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    quantity: str
    """With its unit where it isn't pieces; pieces to cut with their length."""
    sticks: str = ""
    """Of what is to be cut: which lengths to buy, by the cutting plan."""
    why: str
    steps: str = ""
    """Which steps wait for it."""
    needed_by: dt.date | None = None
    order_by: dt.date | None = None
    price: str = ""
    claimed: bool = False
    """Owed by the supplier: claimed, not bought."""


def order_list_pdf(head: PageHead, lines: Iterable[WantedLine]) -> bytes:
    """Return the list with a box to tick for each line, supplier by supplier."""
    every = list(lines)
    paper = Paper(head, "To order")
    claimed = sum(line.claimed for line in every)
    owed = f"; {claimed} of them are owed: claim them, don't buy them" if claimed else ""
    paper.write(f"{counted(len(every), 'line')}{owed}.")
    paper.write("What is ordered already and still to come is taken off.", SMALL)
    for supplier, group in groupby(every, key=lambda line: line.supplier):
        paper.heading(supplier or "No supplier known", keep=24.0)
        table(paper, _COLUMNS, [_row(line) for line in group], tall=8.0)
    return paper.save()


def order_list_table(lines: Iterable[WantedLine]) -> Table:
    """Return the list as a table."""
    return Table("To order", _HEADINGS, tuple(_values(line) for line in lines))


_COLUMNS = (
    Column(""),
    Column("Pieces", STRONG, right=True),
    Column("Part number", NUMBER),
    Column("Hand", STRONG),
    Column("Description", SMALL, fill=1.0),
    Column("Why, for steps", SMALL, fill=1.0),
    Column("Needed", SMALL),
    Column("Price", SMALL, right=True),
)
_HEADINGS = (
    "Supplier",
    "Part number",
    "Hand",
    "Description",
    "Quantity",
    "Stock to buy",
    "Why",
    "Steps",
    "Needed by",
    "Order by",
    "Price",
)


def _row(line: WantedLine) -> list[Cell]:
    """Return one row on paper."""
    why = f"{line.why}: {line.steps}" if line.steps else line.why
    words = f"{line.description}\nbuy {line.sticks}" if line.sticks else line.description
    days = [
        f"by {line.needed_by}" if line.needed_by else "",
        f"order {line.order_by}" if line.order_by else "",
    ]
    return [
        Mark.BOX,
        line.quantity,
        line.part,
        hand_flag(line.hand) or "",
        words,
        why,
        "\n".join(day for day in days if day),
        line.price,
    ]


def _values(line: WantedLine) -> tuple[Value, ...]:
    """Return one row of the table; a whole number stays a number, a day a day."""
    quantity: Value = int(line.quantity) if line.quantity.isdecimal() else line.quantity
    return (
        line.supplier, line.part, hand_word(line.hand), line.description, quantity, line.sticks,
        line.why, line.steps, line.needed_by, line.order_by, line.price,
    )  # fmt: skip
