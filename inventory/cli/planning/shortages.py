"""The command for shortages: what is short of a step or of all, and why."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount, needed, quantity_words
from inventory.cli.exits import Exit
from inventory.cli.options import Check, Json
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column, screen_width
from inventory.cli.why_words import named, revision_lines
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.planning.shortage import NetNeed
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.looking_up import Shortages

Step = Annotated[str, typer.Argument(metavar="STEP", help="One step only.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("short")(short)


def short(
    step: Step = "",
    *,
    why: Annotated[
        bool, typer.Option("--why", help="Of one step: down to the movements and lines.")
    ] = False,
    parts: Annotated[
        bool, typer.Option("--parts", help="A row for each part: how many, which step first.")
    ] = False,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show what is short, of one step or of all: needed, there, set aside, due, what it stops.

    Example: kitwright short 12-01 --why
    """
    from inventory.jobs.bench.looking_up import short as short_

    bench = context.open_bench()
    if why:
        return _explained(bench, step, check=check, json=json)
    if parts:
        return _by_part(bench, step, check=check, json=json)
    seen = short_(bench, step)
    if json:
        document("short", _plain(seen))
    elif seen.short:
        _table(seen)
    elif not seen.planned:
        no_plan()
    else:
        say(f"nothing is short for step {seen.step.code}" if seen.step else "nothing is short")
    if seen.step and not json:
        for line in revision_lines(bench, seen.netting.of_step(seen.step.code)):
            say(line)
    return Exit.FINDINGS if check and seen.short else Exit.DONE


def _explained(bench: Bench, step: str, *, check: bool, json: bool) -> int:
    from inventory.cli.why_words import all_lines
    from inventory.jobs.planning.why_short import why_short

    if not step:
        raise InventoryError("of which step?", remedy="For instance: kitwright short 12-01 --why")
    reasons = why_short(bench, step)
    if json:
        document("why short", reasons)
    elif not reasons:
        say(f"nothing is short for step {step}")
    for line in () if json else all_lines(reasons, screen_width()):
        say(line)
    return Exit.FINDINGS if check and reasons else Exit.DONE


def _by_part(bench: Bench, step: str, *, check: bool, json: bool) -> int:
    from inventory.jobs.bench.looking_up import short_by_part

    found = short_by_part(bench, step)
    if json:
        document("short parts", [part for part, _ in found])
    elif found:
        columns = [
            PART, HAND, Column("short", number=True), Column("first step"),
            Column("description", words=True),
        ]  # fmt: skip
        rows = [
            (
                name.printed, hand_word(part.hand),
                quantity_words(part.short, name.measure, part.length) if part.short else "AR",
                part.first_step, name.description,
            )
            for part, name in found
        ]  # fmt: skip
        table(columns, rows)
    else:
        say("nothing is short")
    return Exit.FINDINGS if check and found else Exit.DONE


def no_plan() -> None:
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
                needed(net.need), "AR" if net.absent else amount(net.need, net.short, bare=True),
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
    return [*words, f"also stops {named(others)}"] if others else words
