"""What became of a report: sent when and how, answered with what."""

from __future__ import annotations

from dataclasses import dataclass, replace
from typing import TYPE_CHECKING

from inventory.core.arrivals import Expected, Promise, Wanted
from inventory.core.errors import InventoryError
from inventory.core.findings import Addressee
from inventory.core.items import part_key
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.letters import report_numbered
from inventory.jobs.promises import check_days, record_promises
from inventory.store.arrivals import add_expected, all_expected
from inventory.store.deliveries import all_deliveries, save_facts
from inventory.store.reports import Report, ReportEvent, add_report_event

if TYPE_CHECKING:
    from collections.abc import Iterable
    from datetime import date

    from inventory.core.reporting import LetterLine
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.jobs.finding_items import Asked

REFUSAL = "written refusal"
"""The event that the periods for a suit run from."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """What the other side says to a report."""

    words: str = ""
    how: str = ""
    sends: bool = False
    """It will send what is asked for: all of it, or what `only` names."""
    only: Asked | None = None
    pieces: int = 0
    """0 for all of a line."""
    promised: date | None = None
    latest: date | None = None
    refused: bool = False
    """In writing, wholly or in part."""


@tried_again
def mark_sent(bench: Bench, number: int, how: str, words: str, slip: Slip) -> Report:
    """Record that a report was sent on the slip's day, and by which way."""
    if not how.strip():
        raise InventoryError(
            "by which way was it sent?", remedy='Say it with --how: "e-mail", "registered letter".'
        )
    with acting(bench, "claims sent", slip) as act:
        said = ReportEvent(event="sent", on=slip.happened_on, how=how.strip(), words=words.strip())
        return _add_event(act, number, said)


@tried_again
def mark_answered(bench: Bench, number: int, answer: Answer, slip: Slip) -> list[Expected]:
    """Record an answer; return what is expected to come because of it."""
    check_days(answer.promised, answer.latest)
    if answer.promised and not answer.sends:
        raise InventoryError("a date without anything to come", remedy="Say --will-send as well.")
    with acting(bench, "claims answered", slip) as act:
        said = ReportEvent(
            event="answered",
            on=slip.happened_on,
            how=answer.how.strip(),
            words=answer.words.strip(),
        )
        told = _add_event(act, number, said)
        if answer.refused:
            _refused(act, told, slip)
        expected = list(_expected(act, told, answer)) if answer.sends else []
        if answer.sends and not expected:
            raise InventoryError(
                f"report {number} asks for nothing more to be sent of that",
                remedy=f"Look: kitwright claims reports {number}",
            )
        add_expected(act.db, bench.kit.id, act.recorded.id, expected)
        if answer.promised:
            promises = [_promise(act, each, answer) for each in expected]
            record_promises(act.db, bench.kit, act.recorded.id, promises, more=True)
        return expected


def _add_event(act: Act, number: int, said: ReportEvent) -> Report:
    told = report_numbered(act.db, act.kit, number)
    if said.on < told.written_on:
        raise InventoryError(
            f"report {number} was written on {told.written_on}, after {said.on}",
            remedy="Give the day with --on.",
        )
    add_report_event(act.db, act.kit.id, act.recorded.id, number, said)
    return report_numbered(act.db, act.kit, number)


def _refused(act: Act, told: Report, slip: Slip) -> None:
    """Let the periods for a suit run: they begin with the carrier's written refusal."""
    for delivery in all_deliveries(act.db, act.kit.id):
        if delivery.number == told.delivery and told.addressee is Addressee.CARRIER:
            dates = {**delivery.facts.dates, REFUSAL: slip.happened_on}
            facts = replace(delivery.facts, dates=dates)
            save_facts(act.db, act.kit.id, act.recorded.id, delivery.number, facts)


def _expected(act: Act, told: Report, answer: Answer) -> Iterable[Expected]:
    before = [each for each in all_expected(act.db, act.kit.id) if each.report == told.number]
    for line in told.letter.lines:
        if answer.only is None or _names(answer.only, line):
            asked = min(line.to_send, answer.pieces) if answer.pieces else line.to_send
            each = _of_line(told.number, line, asked)
            already = sum(old.pieces for old in before if replace(old, id=0, pieces=0)
                          == replace(each, pieces=0))  # fmt: skip
            left = min(asked, line.to_send - already)
            if left > 0:
                yield replace(each, pieces=left)


def _names(asked: Asked, line: LetterLine) -> bool:
    return part_key(asked.part) == line.part and asked.hand in (None, line.hand)


def _of_line(report: int, line: LetterLine, pieces: int) -> Expected:
    return Expected(
        id=0,
        report=report,
        kind=line.kind,
        wanted=Wanted(line.part, line.hand, line.length),
        printed=line.printed,
        pieces=pieces,
        packing_list=line.packing_list,
        sheet=line.sheet,
        row=line.row,
        crate=line.crate,
        bag=line.bag,
    )


def _promise(act: Act, each: Expected, answer: Answer) -> Promise:
    return Promise(
        slip=act.recorded.id,
        wanted=each.wanted,
        pieces=each.pieces,
        promised=answer.promised,
        latest=answer.latest,
        report=each.report,
    )
