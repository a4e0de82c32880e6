"""Claims: what to tell whom, and by when; the most urgent first."""

from __future__ import annotations

from dataclasses import field
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.receiving.deadlines import deadline, periods_of
from inventory.core.receiving.findings import Addressee

if TYPE_CHECKING:
    import datetime as dt
    from collections.abc import Mapping, Sequence

    from inventory.core.receiving.deadlines import Deadline, NoticePeriod
    from inventory.core.receiving.findings import Finding

DELIVERY = "delivery"
_LIKE_DELIVERY = frozenset({"acceptance", "placed at your disposal", "discovery"})
"""Events that are taken to fall on the day of delivery until another date is entered."""
_DELAY = "delay"


@frozen(kw_only=True)
class Clock:
    """What the periods of one delivery run by."""

    carriage: str = ""
    """One of `CARRIAGES`; empty where nobody said how it came."""
    sale: str = ""
    """One of `SALES`, or empty."""
    window: NoticePeriod | None = None
    """The supplier's own window, as entered."""
    dates: Mapping[str, dt.date] = field(default_factory=dict)
    """The day of each event: delivery, acceptance, discovery, written refusal, claim received."""
    late: bool = False
    """The delivery came late, so that notices of delay run too."""
    holidays: frozenset[dt.date] | None = None
    """Public holidays of the place of delivery; None where no calendar is set."""

    def day_of(self, event: str) -> dt.date | None:
        """Return when an event was; an acceptance is a delivery until somebody says otherwise."""
        day = self.dates.get(event)
        if day is None and event in _LIKE_DELIVERY:
            return self.dates.get(DELIVERY)
        return day


@frozen(kw_only=True)
class Claim:
    """All that one addressee is to be told about one delivery."""

    addressee: Addressee
    """Carrier or supplier."""
    findings: tuple[Finding, ...]
    deadlines: tuple[Deadline, ...]
    """Every period that runs, the earliest first; those without a date last."""
    next: Deadline | None
    """The first that can still be kept; None where none is dated or all are over."""
    days_left: int | None
    """Days from today to the day to send by, below 0 once that is past; None without a date."""

    @property
    def passed(self) -> tuple[Deadline, ...]:
        """The periods that are over: ask at once what still holds."""
        kept = self.deadlines.index(self.next) if self.next else len(self.deadlines)
        return tuple(one for one in self.deadlines[:kept] if one.last is not None)


def claims_to_send(findings: Sequence[Finding], clock: Clock, today: dt.date) -> list[Claim]:
    """Return a claim for each addressee that has something to answer, the most urgent first.

    What is on back-order is due, not claimed. A finding for both goes to both.
    """
    claims = [
        _claim(addressee, concerned, clock, today)
        for addressee in (Addressee.CARRIER, Addressee.SUPPLIER)
        if (concerned := _concerned(findings, addressee))
    ]
    return sorted(claims, key=lambda claim: (claim.days_left is None, claim.days_left or 0))


def running(clock: Clock, to: str) -> tuple[Deadline, ...]:
    """Return the periods that run against one side, earliest first, undated ones last.

    `to` is carrier, supplier, or nobody for the other side's own clocks.
    """
    rules = [*periods_of(clock.carriage), *periods_of(clock.sale)]
    rules += [clock.window] if clock.window else []
    found = [
        deadline(rule, start, clock.holidays)
        for rule in rules
        if rule.to == to and (clock.late or rule.matter != _DELAY)
        if (start := clock.day_of(rule.starts)) is not None
    ]
    return tuple(sorted(found, key=lambda one: (one.last is None, one.last or one.start)))


def _concerned(findings: Sequence[Finding], addressee: Addressee) -> tuple[Finding, ...]:
    return tuple(
        finding
        for finding in findings
        if finding.claimed and finding.addressee in {addressee, Addressee.BOTH}
    )


def _claim(
    addressee: Addressee, findings: tuple[Finding, ...], clock: Clock, today: dt.date
) -> Claim:
    deadlines = running(clock, addressee.value)
    upcoming = next((one for one in deadlines if one.last and one.last >= today), None)
    return Claim(
        addressee=addressee,
        findings=findings,
        deadlines=deadlines,
        next=upcoming,
        days_left=(upcoming.send_by - today).days if upcoming and upcoming.send_by else None,
    )
