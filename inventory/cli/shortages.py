"""Commands for shortages: what is short and why, what can start, what to fetch."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column

if TYPE_CHECKING:
    from inventory.core.ready import StepReady
    from inventory.core.shortage import NetNeed
    from inventory.jobs.looking_up import Picking, Shortages

Step = Annotated[str, typer.Argument(metavar="[STEP]", help="One step only.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("short")(short)
    app.command("ready")(ready)
    app.command("pick")(pick)


def short(step: Step = "", *, check: Check = False, json: Json = False) -> int:
    """Show what is short, of one step or of all: needed, there, set aside, due, what it stops.

    Example: kitwright short 12-01
    """
    from inventory.jobs.looking_up import short as short_

    seen = short_(context.open_bench(), step)
    if json:
        document("short", _plain(seen))
    elif seen.short:
        _table(seen)
    elif not seen.planned:
        _no_plan()
    else:
        say(f"nothing is short for step {seen.step.code}" if seen.step else "nothing is short")
    return Exit.FINDINGS if check and seen.short else Exit.DONE


def _no_plan() -> None:
    """Say why there is no answer: `nothing is short` would be false comfort."""
    say("no plan was read yet")
    note("next: kitwright plan read PLAN.xlsx")


def _plain(seen: Shortages) -> list[dict[str, object]]:
    return [
        {
            "need": net,
            "taken_by": seen.taken_by(net),
            "aside": seen.aside(net),
            "stops": seen.stops_of(net),
        }
        for net in seen.short
    ]


def _table(seen: Shortages) -> None:
    columns = [
        Column("step"), PART, HAND, Column("needs", number=True), Column("short", number=True),
        Column("why", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                net.need.step, net.need.printed or net.need.part, hand_word(net.need.hand),
                amount(net.need, net.need.quantity), amount(net.need, net.short, bare=True),
                "; ".join(_why(seen, net)),
            )
            for net in seen.short
        ],
    )  # fmt: skip


def _why(seen: Shortages, net: NetNeed) -> list[str]:
    words = [
        f"{amount(net.need, net.on_hand, bare=True)} in bins" if net.on_hand else "none in bins"
    ]
    taken = seen.taken_by(net)
    if taken:
        words.append("set aside " + ", ".join(f"{pieces} for {step}" for step, pieces in taken))
    if net.issued:
        words.append(f"{amount(net.need, net.issued, bare=True)} issued")
    for share in net.due:
        day = f" on {share.due.promised}" if share.due.promised else ", no date"
        words.append(f"{share.quantity} due: {share.due.source}{day}")
    if net.short_beyond_due:
        words.append(f"{amount(net.need, net.short_beyond_due, bare=True)} promised by nobody")
    if net.unprepared:
        words.append(f"{net.unprepared} not {net.need.prepared} yet")
    words += [f"{each.quantity} {each.why}" for each in seen.aside(net)]
    others = [code for code in seen.stops_of(net) if code != net.need.step]
    return [*words, f"also stops {', '.join(others)}"] if others else words


def ready(
    *,
    every: Annotated[bool, typer.Option("--all", help="All steps, also those that wait.")] = False,
    json: Json = False,
) -> None:
    """Show which steps can start now, and what keeps the others.

    Example: kitwright ready --all
    """
    from inventory.jobs.looking_up import ready as ready_

    steps = ready_(context.open_bench())
    if json:
        document("ready", steps)
        return
    if not steps:
        _no_plan()
        return
    shown = [each for each in steps if every or each.readiness not in ("done", "waits", "short")]
    rows = [_ready_row(each) for each in shown]
    columns = [
        Column("step"), Column("state"), Column("title", words=True), Column("keeps it", words=True)
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    else:
        say("no step can start now")
    if not every:
        note(f"{len(steps) - len(shown)} other steps: kitwright ready --all")


def _ready_row(each: StepReady) -> tuple[object, ...]:
    ready_now = each.readiness == "ready"
    keeps = (
        f"after {', '.join(each.waits_for)}" if each.waits_for else "",
        "short of " + ", ".join(_numbers(each.short)) if each.short else "",
        "started" if each.started else "",
    )
    state = each.readiness.upper() if ready_now else each.readiness
    return each.step.code, state, each.step.title, "; ".join(filter(None, keeps))


def _numbers(needs: tuple[NetNeed, ...]) -> list[str]:
    return list(
        dict.fromkeys(
            f"{net.need.printed or net.need.part} {hand_word(net.need.hand)}".rstrip()
            for net in needs
        )
    )


def pick(
    step: Annotated[str, typer.Argument(metavar="STEP", help="The step to fetch for.")],
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="FILE.pdf", help="Print it as a page.")
    ] = None,
    *,
    json: Json = False,
) -> None:
    """Show what to fetch for a step, bin after bin.

    Example: kitwright pick 11-01 -o picklist.pdf
    """
    from inventory.jobs.looking_up import pick as pick_

    bench = context.open_bench()
    picking = pick_(bench, step)
    if output is not None:
        from inventory.cli.papers import write_pick_list

        write_pick_list(bench, picking, output)
        note(f"written: {output}")
    if json:
        document("pick", picking)
    elif output is None:
        _fetch_table(picking)


def _fetch_table(picking: Picking) -> None:
    say(f"step {picking.step.code}  {picking.step.title}".rstrip())
    say()
    columns = [
        Column("bin"), Column("take", number=True), PART, HAND, Column("plans"),
        Column("description", words=True),
    ]  # fmt: skip
    rows = [
        (
            each.place.code, amount(each.need, each.quantity), each.need.printed or each.item.part,
            hand_word(each.item.hand),
            " ".join(filter(None, (each.need.sheet, each.need.find_number))),
            each.need.description,
        )
        for each in picking.fetches
    ]  # fmt: skip
    if rows:
        table(columns, rows)
    for net, missing in picking.missing:
        hand = hand_word(net.need.hand)
        say(f"NOT IN ANY BIN: {amount(net.need, missing)} x {net.need.printed} {hand}".rstrip())
