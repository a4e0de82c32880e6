"""From a letter as it is kept to the report that is printed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.cautions import COUNTING
from inventory.documents.discrepancy_report import Correspondence, DiscrepancyReport, ReportLine

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable

    from inventory.core.receiving.reporting import Letter, LetterLine
    from inventory.documents.pictures import Photo


def report_of_letter(
    letter: Letter, named: str, sent: Iterable[tuple[dt.date, str]], photos: Iterable[Photo]
) -> DiscrepancyReport:
    """Return a letter as a report; `named` is its number and day, `sent` what became of it when."""
    return DiscrepancyReport(
        number=named,
        to=letter.recipient,
        sender=letter.sender,
        shipper=letter.shipper,
        order=letter.order,
        invoice=letter.invoice,
        shipment=letter.shipment,
        carrier=letter.carrier,
        delivered_on=letter.delivered_on,
        noted_on_receipt=letter.noted_on_receipt,
        letter=letter.text,
        lines=tuple(map(_line, letter.lines)),
        due=letter.due,
        photos=tuple(photos),
        sent=tuple(Correspondence(on=day, words=words) for day, words in sent),
        cautions=(COUNTING,),
    )


def _line(line: LetterLine) -> ReportLine:
    place = f"crate {line.crate}" if line.crate else ""
    place += f" bag {line.bag}" if line.bag else ""
    row = f"list {line.packing_list}, {line.sheet} row {line.row}" if line.row else ""
    return ReportLine(
        part=line.printed,
        description=line.description,
        hand=line.hand,
        where=", ".join(word for word in (place, row) if word),
        unit=line.unit,
        shipped=line.shipped,
        received=line.received,
        difference=line.difference,
        finding=str(line.kind),
        words="; ".join(word for word in (line.words, line.evidence) if word),
        wanted=line.wanted,
        code=line.code,
    )
