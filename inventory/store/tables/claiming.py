"""Tables of claims: reports, what was sent and answered, what is promised, what came of it."""

from __future__ import annotations

from sqlalchemy import Column

from inventory.store.tables.base import BySlip, Whole, check, index, number, table, to, words


class ReportColumns(BySlip):
    """A numbered discrepancy report, kept as it was written so that it prints the same again."""

    delivery: Column[int | None] = Column(Whole, nullable=True)
    addressee: Column[str] = words()
    """carrier or supplier."""
    content: Column[str] = words()
    """All that stands in it, as a JSON object; photographs by their hash."""


class ReportEventColumns(BySlip):
    """A report was sent or answered."""

    report: Column[int] = number()
    event: Column[str] = words()
    day: Column[str] = words()
    how: Column[str] = words("")
    words: Column[str] = words("")


class ExpectedColumns(BySlip):
    """Pieces that the other side said it would send for a finding of a report."""

    report: Column[int] = number()
    kind: Column[str] = words()
    part: Column[int] = number()
    printed: Column[str] = words()
    hand: Column[str] = words()
    length: Column[int] = number(0)
    pieces: Column[int] = number()
    packing_list: Column[int | None] = Column(Whole, nullable=True)
    sheet: Column[str] = words("")
    row: Column[int] = number(0)
    crate: Column[str] = words("")
    bag: Column[str] = words("")


class PromiseColumns(BySlip):
    """By when pieces still to come are promised; a later slip takes the place of earlier ones."""

    part: Column[int] = number()
    hand: Column[str] = words()
    length: Column[int] = number(0)
    pieces: Column[int] = number()
    """0 for all that is still to come."""
    promised: Column[str] = words()
    latest: Column[str] = words("")
    words: Column[str] = words("")
    report: Column[int | None] = Column(Whole, nullable=True)
    """The report that was answered with it; none for any of the part, back-orders first."""


class ArrivalColumns(BySlip):
    """Pieces of a line that came later close a back-order, or bring what was expected."""

    line: Column[int] = number()
    closes: Column[int | None] = Column(Whole, nullable=True)
    """The line whose back-order they fill."""
    expected: Column[int | None] = Column(Whole, nullable=True)
    pieces: Column[int] = number()


class ReturnNoteColumns(BySlip):
    """To whom pieces were sent back, by whom carried, under which reference of theirs."""

    recipient: Column[str] = words()
    reference: Column[str] = words("")
    carrier: Column[str] = words("")
    tracking: Column[str] = words("")
    wanted: Column[str] = words("")
    """replacement, credit or nothing."""
    report: Column[int | None] = Column(Whole, nullable=True)


report = table("report", ReportColumns, to("slip", "slip"), to("delivery", "delivery"))
report_event = table("report_event", ReportEventColumns, to("slip", "slip"), to("report", "report"))
expected = table(
    "expected",
    ExpectedColumns,
    check("pieces", "pieces > 0"),
    to("slip", "slip"),
    to("report", "report"),
    to("part", "part"),
    to("packing_list", "packing_list"),
)
promise = table(
    "promise",
    PromiseColumns,
    check("pieces", "pieces >= 0"),
    index("kit", "part"),
    to("slip", "slip"),
    to("part", "part"),
    to("report", "report"),
)
arrival = table(
    "arrival",
    ArrivalColumns,
    check("pieces", "pieces > 0"),
    check("one_end", "(closes IS NULL) <> (expected IS NULL)"),
    to("slip", "slip"),
    to("line", "line"),
    to("line", "closes"),
    to("expected", "expected"),
)
return_note = table("return_note", ReturnNoteColumns, to("slip", "slip"), to("report", "report"))
