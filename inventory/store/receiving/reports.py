"""Discrepancy reports: kept as they were written, with what was sent and answered."""

from __future__ import annotations

import json
from dataclasses import dataclass
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.receiving.findings import Addressee
from inventory.core.receiving.reporting import Letter, content_of, letter_from
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.claiming import report as report_table
from inventory.store.tables.claiming import report_event as event_table
from inventory.store.tables.ledger import slip as slip_table

if TYPE_CHECKING:
    from sqlalchemy import Connection


@dataclass(frozen=True, slots=True, kw_only=True)
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


@dataclass(frozen=True, slots=True, kw_only=True)
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
    number = next_id(db, report_table, kit)
    content = json.dumps(content_of(letter), ensure_ascii=False, sort_keys=True)
    db.execute(
        insert(report_table).values(
            kit=kit,
            id=number,
            slip=slip,
            delivery=delivery,
            addressee=letter.addressee.value,
            content=content,
        )
    )
    return number


def add_report_event(db: Connection, kit: int, slip: int, report: int, event: ReportEvent) -> None:
    """Record that a report was sent or answered."""
    db.execute(
        insert(event_table).values(
            kit=kit,
            id=next_id(db, event_table, kit),
            slip=slip,
            report=report,
            event=event.event,
            day=event.on.isoformat(),
            how=event.how,
            words=event.words,
        )
    )


def all_reports(db: Connection, kit: int) -> list[Report]:
    """Return the reports that aren't undone, in the order of their numbers."""
    undone = undone_slips(db, kit)
    events = _events(db, kit, undone)
    c, s = report_table.c, slip_table.c
    rows = db.execute(
        select(c.id, c.slip, c.delivery, c.addressee, c.content, s.happened_on)
        .join(slip_table, (s.kit == c.kit) & (s.id == c.slip))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    return [
        Report(
            number=number,
            delivery=delivery,
            addressee=Addressee(addressee),
            letter=letter_from(json.loads(content)),
            written_on=date.fromisoformat(day),
            events=tuple(each for named, each in events if named == number),
        )
        for number, slip, delivery, addressee, content, day in rows
        if slip not in undone
    ]


def _events(db: Connection, kit: int, undone: frozenset[int]) -> list[tuple[int, ReportEvent]]:
    c = event_table.c
    rows = db.execute(
        select(c.report, c.event, c.day, c.how, c.words, c.slip).where(c.kit == kit).order_by(c.id)
    )
    return [
        (
            row.report,
            ReportEvent(
                event=row.event, on=date.fromisoformat(row.day), how=row.how, words=row.words
            ),
        )
        for row in rows
        if row.slip not in undone
    ]
