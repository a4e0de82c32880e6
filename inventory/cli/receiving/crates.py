"""Commands at the crate: open it, count it, check it, close it."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.options import Json
from inventory.cli.progress import bar
from inventory.cli.receiving import counting
from inventory.cli.receiving.counting import Blind
from inventory.cli.show import HAND, PART, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.lists.packing import CountRule
from inventory.core.measures.amounts import amount_words
from inventory.core.places import crate_code

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence

    from inventory.core.lists.packing import PackingLine
    from inventory.jobs.receiving.receiving import CrateState
    from inventory.jobs.receiving.second_counts import Pile, Round
    from inventory.jobs.receiving.who_counted import BagCounted

group = typer.Typer(no_args_is_help=True, help="Open, count, check and close crates.")

Crate = Annotated[str, typer.Argument(metavar="CRATE", help="As the list names it, or its number.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    counting.add_to(group)
    app.add_typer(group, name="crate")


@group.command("open")
def open_(crate: Crate) -> None:
    """Record that a crate was opened.

    Example: kitwright crate open 2
    """
    from inventory.jobs.receiving.receiving import open_crate

    name = open_crate(context.open_bench(), crate, context.new_slip())
    say(f"crate {crate_code(name)} is open")


@group.command("close")
def close(crate: Crate) -> None:
    """Record that a crate is counted to the end: what wasn't counted is missing from now on.

    Example: kitwright crate close 2
    """
    from inventory.jobs.receiving.receiving import close_crate

    name = close_crate(context.open_bench(), crate, context.new_slip())
    say(f"crate {crate_code(name)} is closed")
    note("next: kitwright findings")


@group.command("check")
def check(
    crate: Annotated[str, typer.Argument(metavar="CRATE", help="One crate only.")] = "",
    *,
    blind: Blind = False,
    json: Json = False,
) -> None:
    """Show how far each crate is counted, what isn't yet, and where two counts differ.

    Of one crate also bag by bag, by whom and when.

    Example: kitwright crate check 2
    """
    from inventory.jobs.receiving.receiving import crates
    from inventory.jobs.receiving.second_counts import unsettled
    from inventory.jobs.receiving.who_counted import bags_counted

    bench = context.open_bench()
    states, differing = crates(bench, crate), unsettled(bench, crate)
    bags = bags_counted(bench, crate) if crate else []
    if json:
        shown = _hidden(states) if blind else states
        document("crates", {"crates": shown, "bags": bags, "differ": differing})
        return
    _show_states(states)
    if crate:
        _show_bags(bags)
        _show_open([line for each in states for line in each.open_lines], blind=blind)
    _show_differing(differing, blind=blind)


def _hidden(states: Iterable[CrateState]) -> list[CrateState]:
    """Return the states without any number of the list."""
    return [
        replace(
            each,
            open_lines=tuple(
                replace(line, ordered=0, shipped=0, back_ordered=0) for line in each.open_lines
            ),
        )
        for each in states
    ]


def _show_states(states: Iterable[CrateState]) -> None:
    table(
        [Column("crate"), Column("state"), Column("twice", number=True), Column("counted")],
        [
            (crate_code(each.crate), each.state, each.counted_twice, bar(each.counted, each.lines))
            for each in states
        ],
    )


def _show_bags(bags: Sequence[BagCounted]) -> None:
    say()
    columns = [
        Column("bag"), Column("lines", number=True), Column("counted", number=True),
        Column("last"), Column("by", words=True),
    ]  # fmt: skip
    table(
        columns,
        [
            (each.bag or "loose", each.lines, each.counted, each.last or "", ", ".join(each.by))
            for each in bags
        ],
    )


def _show_open(lines: Sequence[PackingLine], *, blind: bool) -> None:
    if not lines:
        return
    say()
    say("not counted yet:")
    listed = [] if blind else [Column("listed", number=True)]
    table(
        [Column("bag"), PART, HAND, *listed, Column("description", words=True)],
        [
            (
                line.bag,
                line.printed,
                hand_word(line.hand),
                *([] if blind else [_listed(line)]),
                line.description,
            )
            for line in lines
        ],
    )


def _listed(line: PackingLine) -> str:
    as_required = line.count_rule is CountRule.AS_REQUIRED
    return "AR" if as_required else amount_words(line, line.shipped)


def _show_differing(piles: Sequence[Pile], *, blind: bool) -> None:
    """Show piles whose counts differ; blind without the numbers, so that a third count is free."""
    if not piles:
        return
    say()
    say("counted twice, and the counts differ; count once more:")
    table(
        [Column("crate"), Column("bag"), PART, HAND, Column("counts", words=True)],
        [
            (
                crate_code(pile.count.crate),
                pile.count.bag,
                pile.printed,
                hand_word(pile.count.hand),
                ", ".join(pile.persons) if blind else "; ".join(map(_round_words, pile.rounds)),
            )
            for pile in piles
        ],
    )


def _round_words(each: Round) -> str:
    bad = [f"{each.damaged} damaged"] if each.damaged else []
    bad += [f"{each.wrong} wrong"] if each.wrong else []
    about = "about " if each.about else ""
    told = f"{about}{each.good}" + (f" good, {', '.join(bad)}" if bad else "")
    return f"{each.by}: {told}" if each.by else told
