"""Commands for the plan: read it, look at it, check it; what is short, what can start."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.exits import Exit
from inventory.cli.options import Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.plan import Plan
    from inventory.core.plan import Step as PlanStep
    from inventory.core.shortage import NetNeed

group = typer.Typer(no_args_is_help=True, help="Read the plan, look at it, check it.")

Step = Annotated[str, typer.Argument(metavar="[STEP]", help="One step only.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="plan")


@group.command("read")
def read(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="The plan, as a spreadsheet.")],
    *,
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Show only; store nothing.")] = False,
    json: Json = False,
) -> int:
    """Read a plan: steps, what comes before each, and what each uses.

    Example: kitwright plan read PLAN.xlsx
    """
    from inventory.jobs.planning import read_plan_file, take_in_plan

    plan = read_plan_file(file)
    if json:
        document("plan", plan)
    else:
        say(f"{plan.source}: {len(plan.steps)} steps, {len(plan.needs)} needs")
        _problems(plan)
    if dry_run:
        note("dry run: nothing was stored")
        return Exit.REFUSED if plan.problems else Exit.DONE
    changes = take_in_plan(context.open_bench(), plan, context.new_slip())
    note(f"taken in; {len(changes)} differences from the plan before" if changes else "taken in")
    note("next: kitwright plan check, then kitwright short")
    return Exit.DONE


def _problems(plan: Plan) -> None:
    for problem in plan.problems:
        say(f"  {problem}")


@group.command("show")
def show(
    step: Step = "",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="FILE", help="The step's sheet.")
    ] = None,
    *,
    json: Json = False,
) -> None:
    """Show the steps in building order, or one step with all it needs; with -o as a sheet.

    Example: kitwright plan show 11-02 -o step.pdf
    """
    from inventory.jobs.looking_up import ready, step_needs

    bench = context.open_bench()
    if step:
        found, needs = step_needs(bench, step)
        if output is not None:
            from inventory.cli.stock_papers import write_step_sheet

            write_step_sheet(bench, found, needs, output)
            note(f"written: {output}")
        if json:
            document("step", {"step": found, "needs": needs})
        else:
            _show_step(found, needs)
        return
    steps = ready(bench)
    if json:
        document("steps", steps)
        return
    columns = [Column("step"), Column("state"), Column("after"), Column("title", words=True)]
    rows = [(s.step.code, s.readiness, " ".join(s.step.after), s.step.title) for s in steps]
    table(columns, rows)


def _show_step(found: PlanStep, needs: Sequence[NetNeed]) -> None:
    say(f"step {found.code}  {found.title}".rstrip())
    if found.after:
        say(f"after {', '.join(found.after)}")
    say()
    columns = [
        PART, HAND, Column("needs", number=True), Column("issued", number=True),
        Column("bins", number=True), Column("short", number=True), Column("plans"),
        Column("description", words=True),
    ]  # fmt: skip
    table(columns, [_need_row(net) for net in needs])


def _need_row(net: NetNeed) -> tuple[object, ...]:
    need = net.need
    return (
        need.printed or need.part,
        hand_word(need.hand),
        amount(need, need.quantity),
        amount(need, net.issued, bare=True),
        amount(need, net.on_hand, bare=True),
        amount(need, net.short, bare=True) if net.short else "",
        " ".join(filter(None, (need.sheet, need.find_number))),
        need.description,
    )


@group.command("check")
def check(*, json: Json = False) -> int:
    """Check the plan against the packing lists: circles, unknown steps, parts nobody delivers.

    Example: kitwright plan check
    """
    from inventory.jobs.planning import plan_problems

    problems = plan_problems(context.open_bench())
    if json:
        document("problems", problems)
    for problem in () if json else problems:
        say(str(problem))
    if not problems and not json:
        say("the plan holds together")
    return Exit.FINDINGS if problems else Exit.DONE
