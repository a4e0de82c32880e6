"""Commands for the plan: read it, look at it, check it, find where it uses a part."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount, needed
from inventory.cli.exits import Exit
from inventory.cli.options import Json, PartText
from inventory.cli.paragraphs import hanging
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import named, revision_lines
from inventory.core.counted import counted

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.planning.plan import Plan
    from inventory.core.planning.plan import Step as PlanStep
    from inventory.core.planning.plan_difference import PlanChange
    from inventory.core.planning.ready import StepReady
    from inventory.core.planning.shortage import NetNeed
    from inventory.jobs.acts import Bench

group = typer.Typer(no_args_is_help=True, help="Read the plan, look at it, check it.")

_SIZES = frozenset({"diameter", "grip", "length", "size"})
"""What of a hardware number is to be compared with the drawing."""

_NEED_COLUMNS = (
    PART,
    HAND,
    *(Column(heading, words=True, number=True) for heading in ("needs", "issued", "bins", "short")),
)

Step = Annotated[str, typer.Argument(metavar="STEP", help="One step only.")]


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

    Of a revised plan it shows every difference from the one before.

    Example: kitwright plan read PLAN.xlsx
    """
    from inventory.jobs.planning.planning import (
        changes_by,
        read_plan_file,
        take_in_plan,
        unlisted_parts,
    )

    plan = read_plan_file(file)
    bench = context.open_bench()
    changes = changes_by(bench, plan)
    if json:
        document("plan", {"plan": plan, "changes": changes})
    else:
        _read_words(plan, changes, unlisted_parts(bench, plan))
    if dry_run:
        note("dry run: nothing was stored")
        return Exit.REFUSED if plan.problems else Exit.DONE
    take_in_plan(bench, plan, context.new_slip())
    note(f"taken in; {len(changes)} differences from the plan before" if changes else "taken in")
    note("next: kitwright plan check, then kitwright short")
    return Exit.DONE


def _read_words(plan: Plan, changes: Sequence[PlanChange], unlisted: Sequence[str]) -> None:
    say(f"{plan.source}: {counted(len(plan.steps), 'step')}, {counted(len(plan.needs), 'need')}")
    for problem in plan.problems:
        say(f"  {problem}")
    for words in plan.notes:
        say(f"  {words}")
    if unlisted:
        words = f"  {counted(len(unlisted), 'part number')} on no packing list: {named(unlisted)}; "
        say("\n".join(hanging(words + "kitwright plan check tells where each stands", 4)))
    if changes and not plan.problems:
        from inventory.cli.planning.plan_words import change_rows

        say()
        columns = [Column("what"), Column("step"), PART, HAND, Column("difference", words=True)]
        table(columns, change_rows(changes))


@group.command("show")
def show(
    step: Step = "",
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="FILE", help="The step's sheet.")
    ] = None,
    *,
    hardware: Annotated[
        bool, typer.Option("--hardware", help="Of a step: grips, lengths, minimum stock.")
    ] = False,
    json: Json = False,
) -> None:
    """Show the steps in building order, or one step with all it needs; with -o as a sheet.

    Example: kitwright plan show 11-02 -o step.pdf
    """
    from inventory.jobs.bench.looking_up import ready, step_needs

    bench = context.open_bench()
    if step:
        found, needs = step_needs(bench, step)
        if output is not None:
            from inventory.cli.bench.stock_papers import write_step_sheet

            write_step_sheet(bench, found, needs, output)
            note(f"written: {output}")
        if json:
            document("step", {"step": found, "needs": needs})
        elif hardware:
            _show_hardware(bench, needs)
        else:
            _show_step(found, needs)
            for line in revision_lines(bench, needs):
                say(line)
        return
    steps = ready(bench)
    document("steps", steps) if json else _show_steps(steps)


def _show_steps(steps: Sequence[StepReady]) -> None:
    columns = [
        Column("step"),
        Column("state", words=True),
        Column("after", words=True),
        Column("title", words=True),
    ]
    rows = [(s.step.code, s.readiness, " ".join(s.step.after), s.step.title) for s in steps]
    table(columns, rows)


def _show_step(found: PlanStep, needs: Sequence[NetNeed]) -> None:
    say(f"step {found.code}  {found.title}".rstrip())
    if found.after:
        say(f"after {', '.join(found.after)}")
    say()
    columns = [
        *_NEED_COLUMNS, Column("plans", words=True), Column("description", words=True),
    ]  # fmt: skip
    table(columns, [_need_row(net) for net in needs])


def _show_hardware(bench: Bench, needs: Sequence[NetNeed]) -> None:
    """Show a step's hardware: what each number means, and how its bins stand to the minimum."""
    from inventory.core.parts.hardware import identify
    from inventory.jobs.planning.buying import all_minimums
    from inventory.jobs.receiving.own_hardware import own_hardware

    families = own_hardware(bench.store.address).families
    minimums = all_minimums(bench)
    rows = []
    for net in needs:
        number = identify(net.need.printed or net.need.part, families)
        if net.need.kind == "hardware" or number.facts:
            least = minimums.get(net.need.part, 0)
            below = f"{net.on_hand - net.open - least:+d}" if least else "none kept"
            facts = ", ".join(
                f"{fact.name} {fact.words}" for fact in number.facts if fact.name in _SIZES
            )
            rows.append((*_need_row(net)[:6], below, facts or net.need.description))
    columns = [
        *_NEED_COLUMNS, Column("to minimum"), Column("means", words=True),
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    else:
        say("it takes no hardware")


def _need_row(net: NetNeed) -> tuple[object, ...]:
    need = net.need
    return (
        need.printed or need.part,
        hand_word(need.hand),
        needed(need),
        amount(need, net.issued, bare=True),
        amount(need, net.on_hand, bare=True),
        _short_words(net),
        " ".join(filter(None, (need.sheet, need.find_number))),
        need.description,
    )


def _short_words(net: NetNeed) -> str:
    if not net.chosen:
        return "not used"
    return "AR" if net.absent else amount(net.need, net.short, bare=True) if net.short else ""


@group.command("check")
def check(*, json: Json = False) -> int:
    """Check the plan against the packing lists: circles, unknown steps, parts nobody delivers.

    Example: kitwright plan check
    """
    from inventory.jobs.planning.planning import plan_problems

    problems = plan_problems(context.open_bench())
    if json:
        document("problems", problems)
    for problem in () if json else problems:
        say(str(problem))
    if not problems and not json:
        say("the plan holds together")
    return Exit.FINDINGS if problems else Exit.DONE


@group.command("uses")
def uses(part: PartText, *, json: Json = False) -> None:
    """Show where the plan uses a part: each step, its place on the plans, and the way up.

    Example: kitwright plan uses AN3-5A
    """
    from inventory.cli.planning.plan_words import use_rows
    from inventory.jobs.planning.where_used import uses_of

    found = uses_of(context.open_bench(), part)
    if json:
        document("uses", found)
        return
    say(f"{found.part.printed}  {found.part.description}".rstrip())
    if not found.uses:
        say("no step of the plan uses it")
        return
    total = amount(found.uses[0].need, found.direct, bare=True)
    say(f"all steps together: {total}; low-level code {found.level}")
    say()
    columns = [
        Column("step"), HAND, Column("takes", number=True), Column("plans"),
        Column("and so in", words=True),
    ]  # fmt: skip
    table(columns, use_rows(found.uses))


@group.command("page")
def page(
    sheet: Annotated[str, typer.Argument(metavar="SHEET", help="Drawing sheet or manual page.")],
    find_number: Annotated[
        str, typer.Argument(metavar="FIND", help="The find number, of one part only.")
    ] = "",
    *,
    json: Json = False,
) -> None:
    """Show which parts stand on a page of the plans: from the drawing back to the part number.

    Example: kitwright plan page RU-1 4
    """
    from inventory.jobs.planning.where_used import on_page

    needs = on_page(context.open_bench(), sheet, find_number)
    if json:
        document("page", needs)
        return
    columns = [
        Column("find"), PART, HAND, Column("takes", number=True), Column("step"),
        Column("description", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                need.find_number, need.printed or need.part, hand_word(need.hand),
                amount(need, need.quantity), need.step, need.description,
            )
            for need in needs
        ],
    )  # fmt: skip
