"""The command that shows what differs between goods, lists, order and plan."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json
from inventory.cli.show import HAND, PART, PIECES, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.places import crate_code
from inventory.core.receiving.findings import FindingKind

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.receiving.findings import Finding
    from inventory.jobs.acts import Bench
    from inventory.jobs.receiving.findings_today import ListTally

OneCrate = Annotated[str, typer.Argument(metavar="CRATE", help="One crate only.")]
Book = Annotated[
    Path | None, typer.Option("-o", "--output", metavar="FILE.xlsx", help="Write a workbook.")
]
Lines = Annotated[bool, typer.Option("--lines", help="Every line with its six quantities.")]
Missing = Annotated[
    bool, typer.Option("--missing", help="What never came, or is to follow, and from whom.")
]
Plan = Annotated[bool, typer.Option("--plan", help="What the plan needs and no list holds.")]


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("findings")(findings)


def findings(
    crate: OneCrate = "",
    output: Book = None,
    *,
    lines: Lines = False,
    plan: Plan = False,
    missing: Missing = False,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show what differs between the packing list and what was counted, the worst first.

    Example: kitwright findings -o findings.xlsx
    """
    from inventory.jobs.receiving.findings_today import against_plan
    from inventory.jobs.receiving.receiving import found

    bench = context.open_bench()
    if lines:
        _show_lines(bench, json=json)
        return Exit.DONE
    if missing:
        return _show_missing(bench, check=check, json=json)
    differences = against_plan(bench) if plan else found(bench, crate)
    if output is not None:
        from inventory.cli.papers import write_findings

        write_findings(bench, differences, output)
        note(f"written: {output}")
    if json:
        document("findings", differences)
    elif differences:
        _show(bench, differences)
    else:
        say("the lists hold all that the plan needs" if plan else
            "list and counts agree as far as it was counted")  # fmt: skip
    if not plan:
        _note_open(bench)
    return Exit.FINDINGS if check and differences else Exit.DONE


def _show(bench: Bench, differences: Sequence[Finding]) -> None:
    from inventory.jobs.receiving.findings_today import numbers_of

    columns = [
        Column("finding", words=True), Column("crate"), Column("bag"), PART, HAND,
        *(Column(name, words=True, number=True) for name in ("list", "count", "diff")),
        Column("words", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                one.kind, one.crate, one.bag, one.printed or one.part, hand_word(one.hand),
                *numbers, _said(one, numbers),
            )
            for one, numbers in zip(differences, numbers_of(bench, differences), strict=True)
        ],
    )  # fmt: skip


def _said(one: Finding, numbers: Sequence[str]) -> str:
    """Return a finding's words, unless the numbers beside it say the same."""
    listed, counted, pieces = numbers
    again = {
        f"{counted} counted, {listed} listed",
        f"{pieces} of {counted} counted: {one.kind}",
        f"{pieces} to follow",
    }
    return "" if one.words in again else one.words


def _show_missing(bench: Bench, *, check: bool, json: bool) -> int:
    from inventory.jobs.receiving.findings_today import never_came, numbers_of

    never = never_came(bench)
    if json:
        document("never came", never)
    elif never:
        numbers = numbers_of(bench, [each.finding for each in never])
        columns = [
            PART, HAND, PIECES, Column("why", words=True), Column("crate"),
            Column("from", words=True),
        ]  # fmt: skip
        rows = [
            (
                each.finding.printed or each.finding.part, hand_word(each.finding.hand), pieces,
                _why_missing(each.finding), each.finding.crate,
                " ".join(filter(None, (each.supplier, each.order_number))),
            )
            for each, (_, _, pieces) in zip(never, numbers, strict=True)
        ]  # fmt: skip
        table(columns, rows)
    else:
        say("all that the lists name came, as far as it was counted")
    _note_open(bench)
    return Exit.FINDINGS if check and never else Exit.DONE


def _why_missing(finding: Finding) -> str:
    wrong = finding.kind is FindingKind.WRONG_HAND
    return f"{finding.kind}: {finding.words}" if wrong else finding.kind


def _note_open(bench: Bench) -> None:
    from inventory.jobs.receiving.receiving import crates

    still_open = [crate_code(each.crate) for each in crates(bench) if each.state != "closed"]
    if still_open:
        note(f"not closed yet, so nothing is missed in them: crate {', crate '.join(still_open)}")


def _show_lines(bench: Bench, *, json: bool) -> None:
    from inventory.jobs.receiving.findings_today import line_tallies

    tallies = line_tallies(bench)
    if json:
        document("lines", tallies)
        return
    names = ("ord", "ship", "b/o", "good", "bad", "wrong")
    numbers = [Column(name, number=True) for name in names]
    table(
        [Column("list", number=True), Column("row", number=True), PART, HAND, *numbers],
        map(_line_cells, tallies),
    )
    note("bad = damaged or badly made; wrong = other parts that lay in its place; ~ = by weight")


def _line_cells(each: ListTally) -> tuple[object, ...]:
    from inventory.core.lists.listed_numbers import listed_number

    line, counted = each.tally.line, each.tally
    about = "~" if counted.about else ""
    return (
        each.packing_list,
        line.row,
        line.printed,
        hand_word(line.hand),
        *(listed_number(line, n) for n in (line.ordered, line.shipped, line.back_ordered)),
        about + listed_number(line, counted.pieces_good),
        listed_number(line, counted.pieces_damaged),
        counted.pieces_wrong,
    )
