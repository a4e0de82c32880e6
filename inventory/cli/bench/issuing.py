"""Commands for pieces out to steps, back from them, and to scrap."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount as amount_words
from inventory.cli.amounts import amount_typed, say_movements
from inventory.cli.asking import asked, taking
from inventory.cli.options import Amount, From, HandText, Length, Lot, PartText, To, Why, Worked
from inventory.cli.show import note, say
from inventory.core.items import fits

if TYPE_CHECKING:
    from collections.abc import Iterator

    from inventory.core.items import Item
    from inventory.jobs.acts import Bench


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("issue")(issue)
    app.command("take-back")(take_back)
    app.command("scrap")(scrap)


def issue(
    part: PartText,
    amount: Amount,
    step: Annotated[str, typer.Option("--step", metavar="STEP", help="The step it is for.")],
    from_: From = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    over: Annotated[bool, typer.Option("--over", help="More than the step needs.")] = False,
    expired: Annotated[
        bool, typer.Option("--expired", help="Past its date; --why says who decided.")
    ] = False,
) -> None:
    """Record pieces as issued to a step.

    Example: kitwright issue T2-RU-0401 1 --step 11-01
    """
    from inventory.jobs.bench.issuing import Issue
    from inventory.jobs.bench.issuing import issue as issue_
    from inventory.jobs.bench.place_names import place_named

    bench = context.open_bench()
    wanted = Issue(
        asked=asked(part, hand, lot, length),
        pieces=amount_typed(bench, part, amount),
        step=step,
        origin=place_named(bench, from_) if from_ else None,
        over=over,
        expired=expired,
    )
    say_movements(bench, [issue_(bench, wanted, context.new_slip(why))])


def take_back(
    part: PartText,
    amount: Amount,
    step: Annotated[str, typer.Option("--step", metavar="STEP", help="The step it comes from.")],
    to: To,
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    worked: Worked = False,
) -> None:
    """Record pieces as back from a step; say --worked if they were trimmed or drilled.

    Example: kitwright take-back T2-RU-0401 1 --step 11-01 --to S-01 --worked
    """
    from inventory.jobs.bench.issuing import take_back as take_back_

    bench = context.open_bench()
    back = taking(bench, asked(part, hand, lot, length), amount, f"step {step}")
    say_movements(bench, take_back_(bench, back, to, context.new_slip(why), worked=worked))


def scrap(
    part: PartText,
    amount: Amount,
    from_: From = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    worked: Worked = False,
) -> None:
    """Record pieces as scrapped; say why.

    Example: kitwright scrap T2-RU-0433 1 --from "step 12-01" --why "hole too near the edge"
    """
    from inventory.jobs.bench.issuing import scrap as scrap_

    bench = context.open_bench()
    lost = taking(bench, asked(part, hand, lot, length, worked=worked), amount, from_)
    move = scrap_(bench, lost, context.new_slip(why))
    say_movements(bench, [move])
    note("tag it SCRAP and cut it so that nobody uses it by mistake")
    for line in _now_short(bench, move.item):
        say(line)


def _now_short(bench: Bench, item: Item) -> Iterator[str]:
    """Yield what is short of the part now, and which steps that stops."""
    from inventory.cli.why_words import named
    from inventory.jobs.bench.looking_up import short

    seen = short(bench)
    lacking = [
        net
        for net in seen.short
        if net.stops and net.need.part == item.part and fits(net.need.hand, item.hand)
    ]
    for net in lacking:
        lacks = "AR" if net.absent else amount_words(net.need, net.short, bare=True)
        yield f"step {net.need.step} lacks {lacks}; stops {named(seen.stopped_by(net))}"
    if lacking:
        note("to be got: kitwright to-order")
