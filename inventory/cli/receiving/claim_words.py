"""Claims in words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.paragraphs import paragraph
from inventory.core.cautions import DATES, NO_CALENDAR
from inventory.core.counted import counted

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Iterable, Iterator, Sequence

    from inventory.core.receiving.deadlines import Deadline
    from inventory.jobs.receiving.claiming import ClaimToday, OtherClock

VISIBLE = "visible damage"
"""The matter that is told on the driver's paper, before signing."""


def claim_lines(
    claims: Sequence[ClaimToday], others: Sequence[OtherClock], today: dt.date
) -> Iterator[str]:
    """Return the lines that say what to send to whom by when, with the caution about dates."""
    if not claims:
        yield "there is nothing to claim as far as it was counted"
    for each in claims:
        yield from _one(each, today)
        yield ""
    for other in others:
        last = other.deadline.last
        yield from paragraph(
            f"delivery {other.delivery.number}: {other.deadline.rule.matter} by {last} "
            f"({other.deadline.rule.article})",
        )
    if claims or others:
        yield from paragraph(DATES)
    dated = [each.claim.next for each in claims if each.claim.next]
    if any(not one.calendar_known for one in dated):
        yield from paragraph(NO_CALENDAR)


def _one(each: ClaimToday, today: dt.date) -> Iterator[str]:
    claim = each.claim
    what = f"delivery {each.delivery.number}" if each.delivery else "no delivery said"
    yield f"{claim.addressee.upper()}, {what}: {len(claim.findings)} findings"
    if each.delivery is None:
        yield from paragraph(
            "no period can be shown: record the delivery, and tie the lists to it with "
            "`kitwright delivery lists`",
            "  ",
        )
    upcoming = claim.next
    if upcoming is not None:
        yield from _dated(upcoming, today, told=each.told)
    for one in claim.passed:
        yield from paragraph(_passed(each, one), "  ")
    yield from _later(claim.deadlines, upcoming, today)
    yield from paragraph(_told(each), "  ")


def _passed(each: ClaimToday, one: Deadline) -> str:
    noted = each.delivery.noted_on_receipt if each.delivery else ""
    if noted and one.rule.matter == VISIBLE:
        return f"noted on the receipt, {one.last}: {noted}"
    return f"OVER since {one.last}: {one.rule.matter}; {one.rule.missed}"


def _dated(one: Deadline, today: dt.date, *, told: bool) -> Iterator[str]:
    if told:
        yield f"  told; last day for it {one.last:%a %Y-%m-%d}"
        yield from paragraph(f"{one.rule.matter}: {one.rule.article}", "    ")
        return
    left = (one.send_by - today).days if one.send_by else 0
    later = f"{counted(left, 'day')} left" if left > 0 else "LATE: send it at once"
    when = "TODAY" if left == 0 else later
    yield f"  send by {one.send_by:%a %Y-%m-%d} ({when}); last day {one.last:%a %Y-%m-%d}"
    yield from paragraph(f"{one.rule.matter}: {one.rule.article}", "    ")
    yield from paragraph(f"{one.rule.form}. If missed: {one.rule.missed}", "    ")


def _later(
    deadlines: Iterable[Deadline], upcoming: Deadline | None, today: dt.date
) -> Iterator[str]:
    for one in deadlines:
        if one is upcoming or (one.last is not None and one.last < today):
            continue
        day = f"by {one.last}" if one.last else "in a reasonable time, no date"
        yield from paragraph(f"{day}: {one.rule.matter} ({one.rule.article})", "  ")


def _told(each: ClaimToday) -> str:
    if each.report is None:
        return f"not told yet: kitwright claims report {each.claim.addressee} -o report.pdf"
    number = each.report.number
    if not each.report.sent:
        return f"report {number} is written, not sent yet"
    since = "; ".join(f"{one.on} {one}" for one in each.report.events)
    if each.told:
        return f"report {number}: {since}"
    return f"report {number}: {since}. Since then something NEW: write another report"
