"""Commands for steps: start, done, reopen."""

from __future__ import annotations

from collections import Counter
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.show import HAND, PART, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import missing_lines
from inventory.core.errors import InventoryError
from inventory.core.measures.lengths import show_length

if TYPE_CHECKING:
    from inventory.jobs.bench.steps import Use

group = typer.Typer(no_args_is_help=True, help="Start steps, mark them done, open them again.")

Step = Annotated[str, typer.Argument(metavar="STEP", help="The step's code.")]
Anyway = Annotated[bool, typer.Option("--anyway", help="Although a step before it isn't done yet.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="step")


@group.command("start")
def start(step: Step, *, anyway: Anyway = False) -> None:
    """Record that work on a step began.

    Example: kitwright step start 11-01
    """
    from inventory.jobs.bench.steps import start as start_

    begun = start_(context.open_bench(), step, context.new_slip(), anyway=anyway)
    say(f"step {begun.code} is started")


@group.command("done")
def done(
    steps: Annotated[list[str], typer.Argument(metavar="STEP...", help="Codes of the steps.")],
    *,
    yes: Annotated[bool, typer.Option("--yes", help="Don't ask before recording.")] = False,
    even_if_short: Annotated[
        bool, typer.Option("--even-if-short", help="Record only what lies in the bins.")
    ] = False,
    built_before: Annotated[
        bool, typer.Option("--built-before", help="Finished before this record: uses nothing up.")
    ] = False,
    anyway: Anyway = False,
) -> None:
    """Mark a step as done; all it needs and wasn't issued yet is recorded as used, after asking.

    Example: kitwright step done 11-01 --yes
    """
    from inventory.jobs.bench import steps as jobs

    bench = context.open_bench()
    if built_before:
        marked = jobs.built_before(bench, steps, context.new_slip())
        say(f"built before the record began: {', '.join(marked)}")
        return
    jobs.refuse_unknown(bench, steps)
    for step in steps:
        use = jobs.use_of(bench, step)
        _show_use(use)
        if not (yes or not (use.fetches or use.cuts) or _agreed()):
            note("nothing was recorded")
            return
        jobs.done(bench, step, context.new_slip(), anyway=anyway, short=even_if_short)
        say(f"step {use.step.code} is done")


def _agreed() -> bool:
    import sys

    if not sys.stdin.isatty():
        raise InventoryError(
            "nobody is there to say yes", remedy="Say --yes to record it without asking."
        )
    return typer.confirm("Record this?", default=True, err=True)


def _show_use(use: Use) -> None:
    if use.fetches:
        say(f"step {use.step.code} uses, besides what was issued:")
        columns = [
            Column("from"), Column("pieces", number=True), PART, HAND,
            Column("description", words=True),
        ]  # fmt: skip
        table(
            columns,
            [
                (
                    each.place.code, amount(each.need, each.quantity),
                    each.need.printed or each.item.part, hand_word(each.item.hand),
                    each.need.description,
                )
                for each in use.fetches
            ],
        )  # fmt: skip
    for cut in use.cuts:
        lengths = Counter(show_length(piece.length) for piece in cut.stick.pieces)
        pieces = ", ".join(f"{many} x {length}" for length, many in lengths.items())
        say(f"cut from {cut.item.part} {show_length(cut.item.length)} of {cut.place}: {pieces}")
    for net, lacking in use.missing:
        say("\n".join(missing_lines(net, lacking)))


@group.command("reopen")
def reopen(step: Step) -> None:
    """Open a step again that was marked as done.

    Example: kitwright step reopen 11-01
    """
    from inventory.jobs.bench.steps import reopen as reopen_

    say(f"step {reopen_(context.open_bench(), step, context.new_slip()).code} is open again")
    note("what was issued to it stays there: kitwright take-back PART PIECES --step STEP --to BIN")
