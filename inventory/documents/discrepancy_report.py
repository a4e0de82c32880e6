"""The discrepancy report: what one addressee is told and asked, with the evidence."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.documents.hands import hand_flag, hand_word
from inventory.documents.paper import Paper
from inventory.documents.paper_table import Cell, Column, table
from inventory.documents.pictures import Photo, place_photos
from inventory.documents.tables import Table, Value, to_xlsx
from inventory.documents.wrapping import NUMBER, SMALL, STRONG, Type
from labels.typeface import Face

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Sequence

    from inventory.core.receiving.reporting import LetterDue
    from inventory.documents.page_head import PageHead

_HAND = Type(Face.BOLD, 1.6)


@frozen(kw_only=True)
class ReportLine:
    """One finding as it is put to the addressee.

    What came instead of another part stands on a line of its own, beside the part that should
    have come (as the filling rules of the US Standard Form 364 ask).
    """

    part: str
    description: str = ""
    hand: Hand = Hand.NONE
    where: str = ""
    """Crate and bag, sheet and row of the packing list."""
    unit: str = "EA"
    shipped: str = ""
    """As the papers say."""
    received: str = ""
    difference: str = ""
    finding: str = ""
    words: str = ""
    """Counted by whom, when and how; lot, maker's name and dates where they matter."""
    wanted: str = ""
    """What is asked for: send, credit, take back, advise."""
    price: str = ""
    """Unit price as billed, with its currency; empty where it isn't known."""
    cost: str = ""
    code: str = ""
    """Code of an open list where one was read, with the list's name."""


@frozen(kw_only=True)
class Correspondence:
    """What was sent or answered when, and by which way."""

    on: dt.date
    words: str


@frozen(kw_only=True)
class DiscrepancyReport:
    """A report to one addressee; printing it again changes nothing."""

    number: str
    to: str
    """Name and address, lines separated by line feeds."""
    sender: str
    shipper: str = ""
    order: str = ""
    invoice: str = ""
    """Number and date."""
    shipment: str = ""
    """Number of the transport document."""
    carrier: str = ""
    delivered_on: dt.date | None = None
    noted_on_receipt: str = ""
    """The exceptions written on the driver's paper; empty where there were none."""
    letter: str = ""
    lines: tuple[ReportLine, ...] = ()
    due: tuple[LetterDue, ...] = ()
    photos: tuple[Photo, ...] = ()
    sent: tuple[Correspondence, ...] = ()
    cautions: tuple[str, ...] = field(default=())
    """Words that stand with every date."""


def discrepancy_pdf(head: PageHead, report: DiscrepancyReport) -> bytes:
    """Return the report as a letter with its evidence."""
    paper = Paper(head, f"Discrepancy report {report.number}")
    _addresses(paper, report)
    _references(paper, report)
    if report.letter:
        paper.gap(2)
        paper.write(report.letter)
    if report.lines:
        paper.heading("What differs")
        table(paper, _COLUMNS, [_row(number, line) for number, line in _numbered(report.lines)])
        _asked(paper, report.lines)
    if report.due:
        paper.heading("On back-order: due, not claimed here")
        table(paper, _DUE_COLUMNS, [_due_row(line) for line in report.due])
    if report.photos:
        paper.heading("Photographs", keep=50)
        place_photos(paper, report.photos)
    if report.sent:
        paper.heading("Sent and answered")
        for one in report.sent:
            paper.write(f"{one.on.isoformat()}  {one.words}")
    for caution in report.cautions:
        paper.gap(1)
        paper.write(caution, SMALL)
    paper.signature("Reported by")
    return paper.save()


def discrepancy_table(report: DiscrepancyReport) -> Table:
    """Return the report's lines as a table."""
    return Table(
        f"Report {report.number}",
        _HEADINGS,
        tuple(_values(number, line) for number, line in _numbered(report.lines)),
    )


def discrepancy_book(head: PageHead, report: DiscrepancyReport) -> bytes:
    """Return the report's lines, and what is on back-order, as an .xlsx workbook."""
    due = Table(
        "On back-order",
        ("Part number", "Hand", "Description", "Quantity", "Promised"),
        tuple(
            (
                line.printed,
                hand_word(line.hand),
                line.description,
                _number(line.quantity),
                line.promised,
            )
            for line in report.due
        ),
    )
    return to_xlsx(head, [discrepancy_table(report), due])


_COLUMNS = (
    Column("No.", STRONG, right=True),
    Column("Part number", NUMBER),
    Column("Hand", _HAND),
    Column("Finding", STRONG),
    Column("Shipped", NUMBER, right=True),
    Column("Received", NUMBER, right=True),
    Column("Diff.", NUMBER, right=True),
    Column("Unit", SMALL),
    Column("Description, where, how counted", SMALL, fill=1.0),
)
_DUE_COLUMNS = (
    Column("Part number", NUMBER),
    Column("Hand", _HAND),
    Column("Due", NUMBER, right=True),
    Column("Description", SMALL, fill=1.0),
    Column("Promised", SMALL),
)
_HEADINGS = (
    "No.", "Finding", "Part number", "Hand", "Description", "Where", "Unit", "Shipped",
    "Received", "Difference", "Unit price", "Cost", "Code", "Evidence", "Wanted",
)  # fmt: skip


def _numbered(lines: Iterable[ReportLine]) -> Iterable[tuple[int, ReportLine]]:
    """Return the lines numbered from 1."""
    return enumerate(lines, start=1)


def _row(number: int, line: ReportLine) -> list[Cell]:
    """Return one row on paper."""
    words = "\n".join(word for word in (line.description, line.where, line.words) if word)
    return [
        str(number),
        line.part,
        hand_flag(line.hand) or "",
        line.finding,
        line.shipped,
        line.received,
        line.difference,
        line.unit,
        words,
    ]


def _due_row(line: LetterDue) -> list[Cell]:
    """Return one row of what is on back-order."""
    return [
        line.printed, hand_flag(line.hand) or "", line.quantity, line.description, line.promised,
    ]  # fmt: skip


def _number(text: str) -> Value:
    """Return whole pieces as a number that a spreadsheet adds up; parts of a unit stay text."""
    return int(text) if text.isdecimal() else text


def _values(number: int, line: ReportLine) -> tuple[Value, ...]:
    """Return one row of the table."""
    return (
        number, line.finding, line.part, hand_word(line.hand), line.description, line.where,
        line.unit, *map(_number, (line.shipped, line.received, line.difference)), line.price,
        line.cost, line.code, line.words, line.wanted,
    )  # fmt: skip


def _addresses(paper: Paper, report: DiscrepancyReport) -> None:
    """Write to and from side by side."""
    top = paper.y
    half = paper.inner / 2
    lowest = top
    for x, word, text in ((0.0, "To", report.to), (half, "From", report.sender)):
        paper.y = top
        paper.write(word, SMALL, x=x)
        paper.write(text, STRONG, x=x, width=x + half - 5)
        lowest = max(lowest, paper.y)
    paper.y = lowest + 2
    paper.rule()


def _references(paper: Paper, report: DiscrepancyReport) -> None:
    """Write the numbers by which the addressee finds the matter; what isn't known is left out."""
    delivered = report.delivered_on.isoformat() if report.delivered_on else ""
    known = [
        f"{word}: {value}"
        for word, value in (
            ("Shipped by", report.shipper),
            ("Order", report.order),
            ("Invoice", report.invoice),
            ("Shipment", report.shipment),
            ("Carrier", report.carrier),
            ("Delivered on", delivered),
        )
        if value
    ]
    paper.gap(1.5)
    paper.write(" · ".join(known))
    noted = report.noted_on_receipt or "nothing"
    paper.write(f"Written on the driver's paper: {noted}")


def _asked(paper: Paper, lines: Sequence[ReportLine]) -> None:
    """Write what is asked for, line by line, with prices and codes where they are known."""
    told = [(number, line) for number, line in _numbered(lines) if line.wanted or line.code]
    if not told:
        return
    paper.heading("What we ask for")
    for number, line in told:
        parts = [line.wanted]
        parts += [f"{line.price} each, {line.cost} in all"] if line.price else []
        parts += [line.code]
        paper.write(f"{number}.  {'; '.join(part for part in parts if part)}")
