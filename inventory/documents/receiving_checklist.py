"""The receiving checklist: what to look at while the driver waits, and in the days after."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.cautions import DATES
from inventory.core.frozen import frozen
from inventory.documents.paper import BOX, Paper
from inventory.documents.paper_table import Cell, Column, Mark, table
from inventory.documents.wrapping import BIG_NUMBER, PLAIN, SMALL, STRONG, one_line, wrapped
from labels.geometry import Rect

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from inventory.documents.page_head import PageHead


@frozen(kw_only=True)
class ExpectedDelivery:
    """What is known of a delivery before it comes; whatever is empty is written in by hand."""

    supplier: str = ""
    order: str = ""
    carrier: str = ""
    shipment: str = ""
    """Number of the bill of lading, waybill or progressive (PRO) number."""
    place: str = ""
    packages: int = 0
    """As advised; 0 where nobody said."""
    crates: tuple[str, ...] = ()
    """As marked, for instance `1 OF 3`."""
    first_notice_by: dt.date | None = None
    """Last day of the shortest notice period, where the delivery date is known."""


_AT_THE_TRUCK = (
    "The driver's paper names this shipment and us.",
    "Packages: ______ on the paper, {advised} advised, ______ counted by ourselves.",
    "Every crate is there, from the first number to the last.",
    "Each crate is photographed from all six sides, with labels and seals in the picture.",
    "Looked for: holes, crushed corners, damp, fork marks, torn bands, lids nailed twice.",
    "Looked at: tape over tape, tip and shock indicators that have gone off.",
    "Long crates sighted along for a bend; both ends looked at.",
    "Whatever is wrong stands in plain words on BOTH copies: which crate, where, what.",
    "The driver has signed beside those words.",
    "Signed by us with day, hour and name; the signed paper is photographed.",
)
_SAME_DAY = (
    "Every crate is open, at least down to its first layer.",
    "Looked at first, since dear and easily hurt: glazing, welded mounts, spars, skin edges.",
    "Each layer is photographed before the next one is lifted.",
    "All packing is kept until the last claim is answered.",
    "Paper and foam were felt through by hand before they left the bench.",
)
_IN_TIME = (
    "Every line is counted; hand, revision and damage compared.",
    "What is on back-order is noted apart from what is short.",
    "Notices are out, by a way that leaves a proof; copies kept.",
    "Every doubtful part lies on HOLD with its tag.",
)
_CAUTION = (
    "A crate without a mark on the outside can hold broken parts. A signature without a remark"
    " says that all looked well. Refuse a delivery only where all of it is lost: storage may cost"
    " from then on. Local law and the contract rule; this list is common practice."
)


def receiving_checklist_pdf(head: PageHead, delivery: ExpectedDelivery) -> bytes:
    """Return the checklist: one page, unless there are many crates."""
    paper = Paper(head, "Receiving checklist")
    _known(paper, delivery)
    advised = str(delivery.packages) if delivery.packages else "______"
    _section(paper, "While the driver waits", (
        item.format(advised=advised) for item in _AT_THE_TRUCK
    ))  # fmt: skip
    _crates(paper, delivery.crates)
    _section(paper, "The same day", _SAME_DAY)
    by = delivery.first_notice_by
    when = f"By {by.isoformat()}" if by else "Before the first notice period ends: by ____________"
    _section(paper, when, _IN_TIME)
    paper.gap(2)
    paper.write(_CAUTION, SMALL)
    if by:
        paper.write(DATES, SMALL)
    paper.signature("Received by")
    return paper.save()


def _known(paper: Paper, delivery: ExpectedDelivery) -> None:
    """Write what is known of the delivery, in two columns with room to fill in."""
    fields = (
        ("Supplier", delivery.supplier),
        ("Carrier", delivery.carrier),
        ("Order", delivery.order),
        ("Shipment number", delivery.shipment),
        ("Delivered on, hour", ""),
        ("Where", delivery.place),
    )
    half = paper.inner / 2
    for number, (word, value) in enumerate(fields):
        x = paper.left + half * (number % 2)
        base = paper.y + 4
        paper.text(x, base, word, SMALL)
        start = x + 26
        paper.text(start, base, one_line(value, STRONG, half - 31), STRONG)
        paper.line((start, base + 0.9), (x + half - 4, base + 0.9))
        if number % 2:
            paper.gap(6.4)


def _section(paper: Paper, heading: str, items: Iterable[str]) -> None:
    """Write a heading and its boxes to tick."""
    paper.heading(heading, keep=BOX)
    for item in items:
        lines = wrapped(item, PLAIN, paper.inner - BOX - 3)
        height = max(BOX + 1.3, PLAIN.line * len(lines) + 1.3)
        paper.need(height)
        paper.box(Rect(paper.left, paper.y, BOX, BOX))
        base = paper.y + (BOX - PLAIN.line * (len(lines) - 1) + PLAIN.cap) / 2
        for line in lines:
            paper.text(paper.left + BOX + 3, max(base, paper.y + PLAIN.cap), line)
            base += PLAIN.line
        paper.gap(height)


def _crates(paper: Paper, crates: tuple[str, ...]) -> None:
    """Draw a row for each crate, three empty ones where none is known."""
    paper.gap(1)
    columns = (
        Column("Crate", BIG_NUMBER),
        Column("Seal number"),
        Column("Photos"),
        Column("What is wrong with it, in words that also stand on both copies", fill=1.0),
    )
    rows: list[list[Cell]] = [[crate, Mark.LINE, Mark.BOX, ""] for crate in crates or ("", "", "")]
    table(paper, columns, rows, tall=8.0)
