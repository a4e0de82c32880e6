"""From claims and reports to papers, workbooks and calendar files."""

from __future__ import annotations

from datetime import UTC, datetime
from typing import TYPE_CHECKING

from inventory.cli.papers import check_ending, page_head, write_file
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Iterator, Sequence
    from datetime import date
    from pathlib import Path

    from inventory.core.receiving.deadlines import Deadline
    from inventory.documents.discrepancy_report import DiscrepancyReport
    from inventory.documents.pictures import Photo
    from inventory.documents.reminders import Reminder
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.claiming import ClaimToday, OtherClock
    from inventory.jobs.receiving.letters import Report

ENDINGS = (".pdf", ".xlsx")
"""A report is written as a letter or as a workbook."""
_LONGEST = 10_000
"""Characters of a letter: some three pages."""


def read_words(path: Path) -> str:
    """Return the words of a letter that a person wrote as plain text."""
    try:
        text = path.read_text(encoding="utf-8-sig").strip()
    except (OSError, UnicodeDecodeError) as fault:
        raise InventoryError(
            "the letter can't be read as text",
            where=str(path),
            remedy="Save it as plain text (UTF-8).",
        ) from fault
    if not text or len(text) > _LONGEST:
        raise InventoryError(
            "the letter is empty" if not text else f"the letter has over {_LONGEST} characters",
            where=str(path),
            remedy="Begin with: kitwright claims letter supplier -o letter.txt",
        )
    return text


def write_report(bench: Bench, report: Report, path: Path) -> None:
    """Write a report as a letter with its photographs, or its lines as a workbook."""
    from inventory.documents.discrepancy_report import discrepancy_book, discrepancy_pdf

    make = discrepancy_pdf if check_ending(path, *ENDINGS) == ".pdf" else discrepancy_book
    write_file(path, make(page_head(bench), _report(bench, report)))


def _report(bench: Bench, report: Report) -> DiscrepancyReport:
    from inventory.documents.kept_letter import report_of_letter

    return report_of_letter(
        report.letter,
        f"{report.number} of {report.written_on.isoformat()}",
        ((each.on, str(each)) for each in report.events),
        _photos(bench, report),
    )


def _photos(bench: Bench, report: Report) -> Iterator[Photo]:
    from inventory.documents.pictures import Photo
    from inventory.jobs.receiving.photographs import picture

    for each in report.letter.photos:
        yield Photo(picture(bench, each.sha256, each.kind), each.caption)


def write_reminders(
    bench: Bench,
    claims: Sequence[ClaimToday],
    others: Sequence[OtherClock],
    today: date,
    path: Path,
) -> None:
    """Write the dates of all claims that are still ahead for a phone's calendar."""
    from inventory.documents.reminders import reminders_ics

    head = page_head(bench)
    now = datetime.now(UTC).replace(microsecond=0)
    found = [
        _reminder(
            f"{head.store_id}-{head.kit_code}-{_number(each)}", str(each.claim.addressee), one
        )
        for each in claims
        for one in each.claim.deadlines
        if one.last and one.last >= today
    ]
    found += [
        _reminder(f"{head.store_id}-{head.kit_code}-{each.delivery.number}", "", each.deadline)
        for each in others
    ]
    write_file(path, reminders_ics(f"{head.kit}: claims", found, now))


def _number(each: ClaimToday) -> int:
    return each.delivery.number if each.delivery else 0


def _reminder(key: str, to: str, one: Deadline) -> Reminder:
    from inventory.core.cautions import DATES, NO_CALENDAR
    from inventory.documents.reminders import Reminder

    day = one.send_by or one.last or one.start
    words = [
        f"Last day: {one.last}. {one.rule.matter}: {one.rule.article}.",
        f"{one.rule.form}. If missed: {one.rule.missed}.",
        DATES,
        "" if one.calendar_known else NO_CALENDAR,
    ]
    return Reminder(
        key=f"{key}-{one.rule.code}",
        day=day,
        title=f"Tell the {to}: {one.rule.matter}" if to else one.rule.matter,
        words="\n\n".join(word for word in words if word),
    )
