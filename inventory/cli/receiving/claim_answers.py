"""Commands for what became of reports, and for what is still to come."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.asking import asked
from inventory.cli.exits import Exit
from inventory.cli.options import HandText, Json, Length, PartText
from inventory.cli.receiving.delivery_options import day_of
from inventory.cli.show import HAND, PART, document, hand_word, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from collections.abc import Iterable

    from inventory.core.receiving.still_to_come import Coming

Number = Annotated[int, typer.Argument(metavar="N", help="Number of the report.")]
How = Annotated[str, typer.Option(metavar="WAY", help="e-mail, registered letter, their form.")]
Words = Annotated[str, typer.Argument(metavar="WORDS", help="What was said.")]
Promised = Annotated[str, typer.Option(metavar="DATE", help="By when it is promised.")]
Latest = Annotated[str, typer.Option(metavar="DATE", help="The late end, if a range was given.")]
Some = Annotated[int, typer.Option("--pieces", metavar="N", help="So many; else all.")]
OnlyPart = Annotated[str, typer.Option("--part", metavar="PART", help="Only this line.")]


def add_to(group: typer.Typer) -> None:
    """Put the commands into the group."""
    group.command("sent")(sent)
    group.command("answered")(answered)
    group.command("promised")(promised)
    group.command("due")(due)


def sent(number: Number, words: Words = "", how: How = "") -> None:
    """Record that a report went out, on the day of --on and by which way.

    Example: kitwright claims sent 1 --on 2026-03-14 --how "e-mail to their claims desk"
    """
    from inventory.jobs.receiving.claim_answers import mark_sent

    told = mark_sent(context.open_bench(), number, how, words, context.new_slip())
    say(f"report {told.number}: {told.events[-1].on} {told.events[-1]}")


def answered(
    number: Number,
    words: Words = "",
    how: How = "",
    part: OnlyPart = "",
    hand: HandText = "",
    pieces: Some = 0,
    promised: Promised = "",
    latest: Latest = "",
    *,
    will_send: Annotated[bool, typer.Option("--will-send", help="They send it.")] = False,
    refused: Annotated[bool, typer.Option("--refused", help="In writing: a no.")] = False,
) -> None:
    """Record an answer; what they will send is then expected, with the day they promise.

    Example: kitwright claims answered 1 "all in one box" --will-send --promised 2026-05-01
    """
    from inventory.jobs.receiving.claim_answers import Answer, mark_answered

    today = context.new_slip().happened_on
    answer = Answer(
        words=words,
        how=how,
        sends=will_send,
        only=asked(part, hand) if part else None,
        pieces=pieces,
        promised=_day(promised, today),
        latest=_day(latest, today),
        refused=refused,
    )
    expected = mark_answered(context.open_bench(), number, answer, context.new_slip())
    say(f"answer to report {number} recorded")
    for each in expected:
        say(f"to come: {each.pieces} x {each.printed} {hand_word(each.wanted.hand)}".rstrip())


def promised(
    part: PartText,
    day: Annotated[str, typer.Argument(metavar="DATE", help="2026-05-01, or none.")],
    latest: Latest = "",
    hand: HandText = "",
    length: Length = "",
    pieces: Some = 0,
    words: Annotated[str, typer.Option("--note", metavar="WORDS", help="Who said it.")] = "",
    *,
    more: Annotated[
        bool, typer.Option("--more", help="Beside what was promised before, not instead.")
    ] = False,
) -> None:
    """Record by when pieces still to come are promised: a back-order, or a replacement.

    Example: kitwright claims promised T2-RU-0602 2026-05-01 --latest 2026-05-20
    """
    from inventory.jobs.receiving.promises import Promised as Told
    from inventory.jobs.receiving.promises import promise

    today = context.new_slip().happened_on
    told = Told(
        asked=asked(part, hand, None, length),
        pieces=pieces,
        promised=day_of(day, today),
        latest=_day(latest, today),
        words=words,
        more=more,
    )
    _show(promise(context.open_bench(), told, context.new_slip()), today)


def due(
    *,
    overdue: Annotated[bool, typer.Option("--overdue", help="Only what should be here.")] = False,
    check: Annotated[
        bool, typer.Option("--check", help="End with exit code 4 if anything is overdue.")
    ] = False,
    json: Json = False,
) -> int:
    """Show what is still to come, by the day it is promised for; overdue is marked.

    Example: kitwright claims due --overdue
    """
    from inventory.jobs.receiving.still_coming import coming

    today = context.new_slip().happened_on
    every = coming(context.open_bench())
    late = [each for each in every if each.overdue(today)]
    found = late if overdue else every
    if json:
        document("due", found)
    elif found:
        _show(found, today)
    else:
        say("nothing is overdue" if overdue else "nothing is still to come")
    return Exit.FINDINGS if check and late else Exit.DONE


def _show(found: Iterable[Coming], today: date) -> None:
    columns = [Column("pieces", number=True), PART, HAND, Column("promised"), Column("at latest")]
    table(
        [*columns, Column("from", words=True)],
        [
            (
                each.pieces,
                each.printed,
                hand_word(each.wanted.hand),
                each.promised or "no date",
                each.latest or "",
                ("OVERDUE: " if each.overdue(today) else "") + each.source,
            )
            for each in found
        ],
    )


def _day(text: str, today: date) -> date | None:
    return day_of(text, today) if text else None
