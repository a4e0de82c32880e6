"""What became of a report: sent when and how, answered with what."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import part_key
from inventory.core.receiving.arrivals import Expected, Promise, Wanted
from inventory.core.receiving.findings import Addressee
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.receiving.letters import report_numbered
from inventory.jobs.receiving.promises import check_days, record_promises
from inventory.store.receiving.arrivals import add_expected, all_expected
from inventory.store.receiving.deliveries import all_deliveries, save_facts
from inventory.store.receiving.reports import Report, ReportEvent, add_report_event

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from datetime import date

    from inventory.core.receiving.reporting import LetterLine
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Act, Bench
    from inventory.jobs.bench.finding_items import Asked

REFUSAL = "written refusal"
"""The event that the periods for a suit run from."""


@frozen(kw_only=True)
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
    _check(answer)
    with acting(bench, "claims answered", slip) as act:
        said = ReportEvent(
            event="answered",
            on=slip.happened_on,
            how=answer.how.strip(),
            words=_told(answer),
        )
        told = _add_event(act, number, said)
        named = _lines_named(told, answer)
        if answer.refused:
            _refused(act, told, named if answer.only else (), slip)
        expected = list(_expected(act, told, named, answer)) if answer.sends else []
        if answer.sends:
            _check_expected(told, answer, expected)
        add_expected(act.db, bench.kit.id, act.recorded.id, expected)
        if answer.promised:
            promises = [_promise(act, each, answer) for each in expected]
            record_promises(act.db, bench.kit, act.recorded.id, promises, more=True)
        return expected


def _check(answer: Answer) -> None:
    check_days(answer.promised, answer.latest)
    if answer.promised and not answer.sends:
        raise InventoryError("a date without anything to come", remedy="Say --will-send as well.")
    if answer.pieces and (answer.only is None or answer.pieces < 0):
        raise InventoryError(
            f"{answer.pieces} pieces of what?", remedy="Say --part and at least 1 piece."
        )
    if answer.sends and answer.refused:
        raise InventoryError(
            "what is refused isn't sent",
            remedy="Record both answers, each with --part for the line it is about.",
        )


def _told(answer: Answer) -> str:
    """Return what was said, with the line it is about and whether it is a no."""
    only = answer.only
    part = part_key(only.part) + (f" {only.hand.upper()}" if only.hand else "") if only else ""
    about = " ".join(word for word in ("REFUSED" if answer.refused else "", part) if word)
    return "; ".join(word for word in (about, answer.words.strip()) if word)


def _lines_named(told: Report, answer: Answer) -> list[LetterLine]:
    lines = [line for line in told.letter.lines if answer.only is None or _names(answer.only, line)]
    if answer.only is not None and not lines:
        raise NotFoundError(
            f"report {told.number} says nothing of {part_key(answer.only.part)}",
            remedy=f"Look: kitwright claims reports {told.number}",
        )
    return lines


def _check_expected(told: Report, answer: Answer, expected: Sequence[Expected]) -> None:
    coming = sum(each.pieces for each in expected)
    if not coming:
        raise InventoryError(
            f"report {told.number} asks for nothing more to be sent of that",
            remedy=f"Look: kitwright claims reports {told.number}, kitwright claims due",
        )
    if answer.pieces > coming:
        raise InventoryError(
            f"{answer.pieces} of {coming} that are still asked for can't be",
            remedy="Leave --pieces out where all of them are sent.",
        )


def _add_event(act: Act, number: int, said: ReportEvent) -> Report:
    told = report_numbered(act.db, act.kit, number)
    if said.on < told.written_on:
        raise InventoryError(
            f"report {number} was written on {told.written_on}, after {said.on}",
            remedy="Give the day with --on.",
        )
    add_report_event(act.db, act.kit.id, act.recorded.id, number, said)
    return report_numbered(act.db, act.kit, number)


def _refused(act: Act, told: Report, named: Sequence[LetterLine], slip: Slip) -> None:
    """Let the periods for a suit run: they begin with the carrier's written refusal.

    What an earlier answer promised can't be refused beside it: that answer is undone first.
    """
    for line in named:
        if _promised_before(act, told, line):
            raise InventoryError(
                f"an earlier answer to report {told.number} promised {line.printed}",
                remedy="Look for that answer with `kitwright history`, undo it with `kitwright "
                "undo N`, and record anew what still comes.",
            )
    for delivery in all_deliveries(act.db, act.kit.id):
        if delivery.number == told.delivery and told.addressee is Addressee.CARRIER:
            dates = {**delivery.facts.dates, REFUSAL: slip.happened_on}
            facts = replace(delivery.facts, dates=dates)
            save_facts(act.db, act.kit.id, act.recorded.id, delivery.number, facts)


def _expected(
    act: Act, told: Report, named: Sequence[LetterLine], answer: Answer
) -> Iterable[Expected]:
    """Give what is sent of the lines named; so many pieces are dealt to them in their order."""
    wanted = answer.pieces
    for line in named:
        left = line.to_send - _promised_before(act, told, line)
        some = min(left, wanted) if answer.pieces else left
        if some > 0:
            wanted -= some
            yield _of_line(told.number, line, some)


def _promised_before(act: Act, told: Report, line: LetterLine) -> int:
    same = replace(_of_line(told.number, line, 0), id=0)
    before = (each for each in all_expected(act.db, act.kit.id) if each.report == told.number)
    return sum(old.pieces for old in before if replace(old, id=0, pieces=0) == same)


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
