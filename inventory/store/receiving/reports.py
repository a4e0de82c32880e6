"""Discrepancy reports: kept as they were written, with what was sent and answered."""

from __future__ import annotations

import json
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.receiving.findings import Addressee
from inventory.core.receiving.reporting import Letter, content_of, letter_from
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.tables.claiming import report as report_table
from inventory.store.tables.claiming import report_event as event_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping


@frozen(kw_only=True)
class ReportEvent:
    """A report was sent or answered."""

    event: str
    on: date
    how: str = ""
    words: str = ""

    def __str__(self) -> str:
        """In words, without its day."""
        told = ", ".join(word for word in (self.event, self.how) if word)
        return f"{told}: {self.words}" if self.words else told


@frozen(kw_only=True)
class Report:
    """A numbered report as it stands in the record."""

    number: int
    delivery: int | None
    addressee: Addressee
    letter: Letter
    written_on: date
    events: tuple[ReportEvent, ...] = ()

    @property
    def sent(self) -> bool:
        """Whether it left the house."""
        return any(each.event == "sent" for each in self.events)


def add_report(db: Connection, kit: int, slip: int, delivery: int | None, letter: Letter) -> int:
    """Keep a report; return its number."""
    content = json.dumps(content_of(letter), ensure_ascii=False, sort_keys=True)
    return add_row(
        db,
        report_table,
        kit,
        slip,
        delivery=delivery,
        addressee=letter.addressee.value,
        content=content,
    )


def add_report_event(db: Connection, kit: int, slip: int, report: int, event: ReportEvent) -> None:
    """Record that a report was sent or answered."""
    add_row(
        db,
        event_table,
        kit,
        slip,
        report=report,
        event=event.event,
        day=event.on.isoformat(),
        how=event.how,
        words=event.words,
    )


def all_reports(db: Connection, kit: int) -> list[Report]:
    """Return the reports that aren't undone, in the order of their numbers."""
    events = rows_that_count(db, event_table, kit)
    return [
        Report(
            number=row["id"],
            delivery=row["delivery"],
            addressee=Addressee(row["addressee"]),
            letter=letter_from(json.loads(row["content"])),
            written_on=date.fromisoformat(row["acted_on"]),
            events=tuple(_event(each) for each in events if each["report"] == row["id"]),
        )
        for row in rows_that_count(db, report_table, kit)
    ]


def _event(row: RowMapping) -> ReportEvent:
    return ReportEvent(
        event=row["event"],
        on=date.fromisoformat(row["day"]),
        how=row["how"],
        words=row["words"],
    )
