"""The lay-out before a section: the roll to tick, the scan loop, what is missing."""

from __future__ import annotations

import sys
from pathlib import Path
from textwrap import shorten
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.counted import counted

if TYPE_CHECKING:
    from inventory.documents.lay_out_roll import RollLine as PaperLine
    from inventory.jobs.acts import Bench
    from inventory.jobs.planning.laying_out import Roll, RollLine, Section


_MOST_WORDS = 18


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("lay-out")(lay_out)


SectionName = Annotated[
    str, typer.Argument(metavar="SECTION", help="As the plan names it; else all are listed.")
]
RollFile = Annotated[
    Path | None,
    typer.Option("-o", "--output", metavar="FILE", help="The roll to tick: .pdf, .xlsx or .csv."),
]
ByScan = Annotated[bool, typer.Option("--scan", help="Scan each part as it is laid down.")]
Ended = Annotated[bool, typer.Option("--end", help="End the lay-out and keep what is missing.")]


def lay_out(
    section: SectionName = "",
    output: RollFile = None,
    *,
    scan: ByScan = False,
    end: Ended = False,
    check: Check = False,
    json: Json = False,
) -> int:
    """Lay every major part of a section out and identify it by number and hand.

    The scan loop refuses a wrong hand or a part of elsewhere in words; what isn't laid down by
    its end is the missing list. Stop and go on at any time: --end keeps the result.

    Example: kitwright lay-out 41 -o roll.pdf
    """
    from inventory.jobs.planning import laying_out as jobs

    bench = context.open_bench()
    if not section:
        found = jobs.sections(bench)
        document("sections", found) if json else _show_sections(found)
        return Exit.DONE
    if scan:
        _scan(bench, section)
    roll = jobs.end(bench, section, context.new_slip()) if end else jobs.roll(bench, section)
    if output is not None:
        _write(bench, roll, output)
    if json:
        document("roll", roll)
    elif scan or end:
        _show_missing(roll, ended=end)
    elif output is None:
        _show_roll(roll)
    lacking = roll.missing if scan or end else [each for each in roll.lines if each.missing]
    return Exit.FINDINGS if check and lacking else Exit.DONE


def _scan(bench: Bench, section: str) -> None:
    from inventory.cli.bench.scan import note_tally, scanned_lines, show_verdict, take_any_bytes
    from inventory.jobs.planning.laying_down import LayingDown

    take_any_bytes()
    at_terminal = sys.stdin.isatty()
    table_ = LayingDown(bench, section, context.new_slip)
    if at_terminal:
        note("scan each part as you lay it down; Ctrl-D stops, the same command goes on")
    try:
        for line in scanned_lines(table_, prompt=at_terminal):
            show_verdict(table_.scan(line))
    finally:
        note_tally(table_.tally)


def _show_sections(found: list[Section]) -> None:
    from inventory.jobs.planning.laying_out import result_words

    columns = [
        Column("section"), Column("steps", number=True), Column("pieces", number=True),
        Column("laid out", words=True),
    ]  # fmt: skip
    rows = [
        (each.name, len(each.steps), each.major_parts,
         "; ".join(result_words(one) for one in each.lay_outs))
        for each in found
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    else:
        say("the plan names no sections")


def _show_roll(roll: Roll) -> None:
    say(f"section {roll.section}: {counted(roll.pieces, 'piece')} to lay out")
    if roll.running:
        say(f"begun {roll.running.on}; {sum(each.pieces for each in roll.missing)} to lay down")
    say()
    columns = [
        Column("plans"), PART, HAND, Column("pieces", number=True), Column("lies in", words=True),
        Column("description"), *([Column("laid", number=True)] if roll.running else []),
    ]  # fmt: skip
    table(columns, [_roll_row(line, running=bool(roll.running)) for line in roll.lines])


def _roll_row(line: RollLine, *, running: bool) -> tuple[object, ...]:
    need = line.entry.need
    words = shorten(need.description, _MOST_WORDS, placeholder=" ..")
    row = (
        _plans(line), need.printed or need.part, hand_word(need.hand), line.entry.pieces,
        _where_words(line), words,
    )  # fmt: skip
    return (*row, line.laid) if running else row


def _plans(line: RollLine) -> str:
    return " ".join(filter(None, (line.entry.need.sheet, line.entry.need.find_number)))


def _where_words(line: RollLine) -> str:
    words = [f"{lies.place.code} {lies.quantity}" for lies in line.lying]
    if line.missing:
        words.append(f"MISSING {line.missing}")
        words += [f"{lies.quantity} in {lies.place}" for lies in line.elsewhere]
    return ", ".join(filter(None, [*words, _one_of(line)]))


def _one_of(line: RollLine) -> str:
    """Return what does as well; nothing for a part that is needed in any case."""
    return " ".join(f"or {each.need.printed or each.need.part}" for each in line.instead)


def _show_missing(roll: Roll, *, ended: bool) -> None:
    if ended:
        say(f"the lay-out of section {roll.section} is ended and kept")
    if not roll.missing:
        say("every piece is laid down")
        return
    say(f"not laid down: {counted(sum(each.pieces for each in roll.missing), 'piece')}")
    lying = {id(line.entry): line for line in roll.lines}
    columns = [
        Column("plans"), PART, HAND, Column("pieces", number=True), Column("lies in", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                _plans(lying[id(each.entry)]), each.entry.need.printed or each.entry.need.part,
                hand_word(each.entry.need.hand), each.pieces, _where_words(lying[id(each.entry)]),
            )
            for each in roll.missing
        ],
    )  # fmt: skip


def _write(bench: Bench, roll: Roll, path: Path) -> None:
    from inventory.cli.papers import page_head, write_table
    from inventory.documents.lay_out_roll import lay_out_roll_pdf, lay_out_table

    lines = [_paper_line(line) for line in roll.lines]
    head = page_head(bench)
    write_table(
        path,
        head,
        lambda: lay_out_roll_pdf(head, roll.section, lines),
        lambda: lay_out_table(roll.section, lines),
    )
    note(f"written: {path}")


def _paper_line(line: RollLine) -> PaperLine:
    from inventory.documents.lay_out_roll import RollLine as PaperLine

    need = line.entry.need
    return PaperLine(
        plan_page=need.sheet,
        find_number=need.find_number,
        part=need.printed or need.part,
        description=need.description,
        hand=need.hand,
        quantity=str(line.entry.pieces),
        lies_in=", ".join(filter(None, [*(lies.place.code for lies in line.lying), _one_of(line)])),
        missing=_missing_on_paper(line),
    )


def _missing_on_paper(line: RollLine) -> str:
    """Return what stands behind the number of pieces: `MISSING`, or `(1 MISSING) S-41`."""
    if not line.missing:
        return ""
    if line.missing == line.entry.pieces:
        return "missing"
    bins = ", ".join(lies.place.code for lies in line.lying)
    return f"({line.missing} missing) {bins}"
