"""Commands for claims: whom to tell what by when, and the reports that tell it."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json, Output
from inventory.cli.receiving import claim_answers
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.jobs.receiving.letters import Addressee, Report

group = typer.Typer(help="See whom to tell what by when; write, send and answer reports.")

Side = Annotated[str, typer.Argument(metavar="ADDRESSEE", help="carrier or supplier.")]
WhichDelivery = Annotated[int, typer.Option("--delivery", metavar="N", help="Which delivery.")]
Recipient = Annotated[
    str, typer.Option("--to", metavar="TEXT", help="Name and address; \\n parts.")
]
Sender = Annotated[str, typer.Option("--from", metavar="TEXT", help="Our name and address.")]
LetterFile = Annotated[
    Path | None, typer.Option("--letter", metavar="FILE", help="The letter's words, as text.")
]
Number = Annotated[int, typer.Argument(metavar="N", help="Number of the report.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    claim_answers.add_to(group)
    app.add_typer(group, name="claims")


@group.callback(invoke_without_command=True)
def claims(
    ctx: typer.Context,
    ics: Annotated[
        Path | None, typer.Option(metavar="FILE", help="Dates for a phone's calendar.")
    ] = None,
    *,
    check: Check = False,
    json: Json = False,
) -> int | None:
    """Show what to send to whom and by when, the most urgent first.

    Example: kitwright claims --ics claims.ics
    """
    if ctx.invoked_subcommand is not None:
        return None
    from inventory.core.cautions import DATES
    from inventory.jobs.receiving.claiming import claims as all_claims
    from inventory.jobs.receiving.claiming import other_clocks

    bench, today = context.open_bench(), context.new_slip().happened_on
    found, others = all_claims(bench, today), other_clocks(bench, today)
    if ics is not None:
        from inventory.cli.receiving.claim_papers import write_reminders

        write_reminders(bench, found, others, today, ics)
        note(f"written: {ics}")
    if json:
        document("claims", {"caution": DATES, "claims": found, "other_side": others})
    else:
        from inventory.cli.receiving.claim_words import claim_lines

        for line in claim_lines(found, others, today):
            say(line)
    return Exit.FINDINGS if check and any(not each.told for each in found) else Exit.DONE


@group.command("letter")
def letter(side: Side, output: Output) -> None:
    """Write the letter's words into a text file, to be put into your own.

    Example: kitwright claims letter supplier -o letter.txt
    """
    from inventory.cli.papers import write_file
    from inventory.jobs.receiving.letters import default_text

    text = default_text(context.open_bench(), side_of(side))
    write_file(output, f"{text}\n".encode())
    note(f"edit {output}, then: kitwright claims report {side} --letter {output} -o report.pdf")


@group.command("report")
def report(
    side: Side,
    output: Output,
    recipient: Recipient = "",
    sender: Sender = "",
    letter_file: LetterFile = None,
    delivery: WhichDelivery = 0,
) -> None:
    """Write a numbered report to one side, as .pdf or .xlsx; nothing new said keeps the number.

    Example: kitwright claims report supplier -o report.pdf --letter letter.txt
    """
    from inventory.cli.papers import check_ending
    from inventory.cli.receiving.claim_papers import ENDINGS, write_report
    from inventory.jobs.receiving.letters import Wording, report_for

    check_ending(output, *ENDINGS)
    wording = Wording(
        recipient=recipient.replace("\\n", "\n"),
        sender=sender.replace("\\n", "\n"),
        text=_words_of(letter_file) if letter_file else "",
    )
    bench = context.open_bench()
    written = report_for(bench, side_of(side), wording, context.new_slip(), delivery)
    write_report(bench, written, output)
    say(f"report {written.number} to the {written.addressee}: {output}")
    note(f"when it has gone out: kitwright claims sent {written.number} --how e-mail")


@group.command("print")
def print_(number: Number, output: Output) -> None:
    """Print a report again as it was written, with what was sent and answered since.

    Example: kitwright claims print 1 -o report.pdf
    """
    from inventory.cli.papers import check_ending
    from inventory.cli.receiving.claim_papers import ENDINGS, write_report
    from inventory.jobs.receiving.letters import report_by_number

    check_ending(output, *ENDINGS)
    bench = context.open_bench()
    write_report(bench, report_by_number(bench, number), output)
    note(f"written: {output}")


@group.command("reports")
def reports(
    number: Annotated[int, typer.Argument(metavar="N", help="One of them.")] = 0,
    *,
    json: Json = False,
) -> None:
    """Show the reports that were written, and what became of each.

    Example: kitwright claims reports
    """
    from inventory.jobs.receiving.letters import report_by_number
    from inventory.jobs.receiving.letters import reports as all_reports

    bench = context.open_bench()
    found = [report_by_number(bench, number)] if number else all_reports(bench)
    if json:
        document("reports", found)
        return
    if not found:
        say("no report was written yet: kitwright claims report carrier or supplier")
        return
    _show_reports(found)


def _show_reports(found: Sequence[Report]) -> None:
    columns = [
        Column("no.", number=True), Column("written"), Column("to"),
        Column("delivery", number=True), Column("lines", number=True), Column("since", words=True),
    ]  # fmt: skip
    rows = [
        (
            each.number,
            each.written_on,
            each.addressee,
            each.delivery or "",
            len(each.letter.lines),
            "; ".join(f"{one.on} {one}" for one in each.events) or "not sent yet",
        )
        for each in found
    ]
    table(columns, rows)


def side_of(text: str) -> Addressee:
    """Return the side that was typed."""
    from inventory.jobs.receiving.letters import Addressee

    sides = {"carrier": Addressee.CARRIER, "supplier": Addressee.SUPPLIER}
    if text.casefold() not in sides:
        raise InventoryError(f"{text!r} is no addressee", remedy="Say carrier or supplier.")
    return sides[text.casefold()]


def _words_of(path: Path) -> str:
    from inventory.cli.receiving.claim_papers import read_words

    return read_words(path)
