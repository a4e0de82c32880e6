"""What to tell whom, by when: claims of every delivery, the most urgent first."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.receiving.claims import Clock, claims_to_send, running
from inventory.jobs.receiving.deliveries import clock_for
from inventory.jobs.receiving.findings_today import placed_findings
from inventory.store.receiving.deliveries import all_deliveries
from inventory.store.receiving.reports import Report, ReportEvent, all_reports

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from inventory.core.receiving.claims import Claim
    from inventory.core.receiving.deadlines import Deadline
    from inventory.core.receiving.delivery import Delivery
    from inventory.core.receiving.findings import Addressee
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.findings_today import PlacedFinding
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

__all__ = ["ClaimToday", "OtherClock", "Report", "ReportEvent", "claims", "claims_within"]


@frozen
class ClaimToday:
    """All that one side is to be told about one delivery, and what it was told already."""

    delivery: Delivery | None
    """None for findings that belong to no recorded delivery: no period can be shown."""
    claim: Claim
    placed: tuple[PlacedFinding, ...]
    """The claim's findings with their lists."""
    report: Report | None
    """The newest report to that side about this delivery."""

    @property
    def told(self) -> bool:
        """Whether every finding of the claim stands in a report that was sent."""
        if self.report is None or not self.report.sent:
            return False
        said = {(line.kind, line.part, line.row, line.crate, line.pieces)
                for line in self.report.letter.lines}  # fmt: skip
        return all(
            (each.kind, each.part, each.row, each.crate, each.pieces - each.elsewhere) in said
            for each in self.claim.findings
        )


@frozen
class OtherClock:
    """A period that runs against the other side."""

    delivery: Delivery
    deadline: Deadline


def claims(bench: Bench, today: date) -> list[ClaimToday]:
    """Return what to send to whom, the most urgent first; without a date, then told ones, last."""
    with bench.store.reading() as db:
        return claims_within(db, bench.kit, today)


def claims_within(db: Connection, kit: Kit, today: date) -> list[ClaimToday]:
    """Return the claims inside a transaction."""
    placed = placed_findings(db, kit)
    reports = all_reports(db, kit.id)
    found: list[ClaimToday] = []
    for delivery in (*all_deliveries(db, kit.id), None):
        clock = clock_for(delivery.facts) if delivery else Clock()
        number = delivery.number if delivery else None
        concerned = [each for each in placed if each.delivery == number]
        found += [
            ClaimToday(
                delivery,
                claim,
                tuple(each for each in concerned if each.finding in claim.findings),
                _newest(reports, delivery, claim.addressee),
            )
            for claim in claims_to_send([each.finding for each in concerned], clock, today)
        ]
    return sorted(found, key=_urgency)


def _urgency(one: ClaimToday) -> tuple[bool, bool, int]:
    """Return what sorts what is still to be told before what was told, then by its day."""
    return one.told, one.claim.days_left is None, one.claim.days_left or 0


def _newest(
    reports: Iterable[Report], delivery: Delivery | None, addressee: Addressee
) -> Report | None:
    number = delivery.number if delivery else None
    found = [one for one in reports if (one.delivery, one.addressee) == (number, addressee)]
    return found[-1] if found else None


def other_clocks(bench: Bench, today: date) -> list[OtherClock]:
    """Return the periods in which the carrier owes an answer, the earliest first."""
    with bench.store.reading() as db:
        known = all_deliveries(db, bench.kit.id)
    found = [
        OtherClock(delivery, deadline)
        for delivery in known
        for deadline in running(clock_for(delivery.facts), "nobody")
        if deadline.last and deadline.last >= today
    ]
    return sorted(found, key=lambda one: one.deadline.last or today)
