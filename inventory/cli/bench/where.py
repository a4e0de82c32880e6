"""The command that says where a part is."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount, needed, quantity_words
from inventory.cli.options import Json, PartText
from inventory.cli.paragraphs import paragraph
from inventory.cli.show import HAND, PIECES, document, hand_word, kind_words, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import named
from inventory.core.places import crate_code

if TYPE_CHECKING:
    from inventory.jobs.bench.looking_up import Whereabouts


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("where")(where)


def where(
    part: PartText,
    *,
    listed: Annotated[
        bool, typer.Option("--listed", help="Also how packing lists name it: row, revision.")
    ] = False,
    json: Json = False,
) -> None:
    """Show where a part lies, which steps will take it, and where it stands on the plans.

    Example: kitwright where T2-RU-0412
    """
    from inventory.jobs.bench.looking_up import where as where_

    seen = where_(context.open_bench(), part)
    if json:
        document("where", seen)
        return
    say(f"{seen.part.printed}  {seen.part.description}".rstrip())
    say()
    if seen.lying:
        columns = [Column("place"), Column("kind", words=True), PIECES]
        table(
            columns,
            [
                (
                    lies.place,
                    kind_words(lies.item),
                    quantity_words(lies.quantity, seen.part.measure),
                )
                for lies in seen.lying
            ],
        )
        _total(seen)
    else:
        say("none of it was counted or put anywhere yet")
    _steps(seen)
    if listed:
        _listed(seen)
    _revisions(seen, listed=listed)


def _total(seen: Whereabouts) -> None:
    """Say how many good ones there are in all bins together, each hand by itself."""
    told = [
        f"{quantity_words(quantity, seen.part.measure) if quantity else 'none'} {hand_word(hand)}"
        for hand, quantity in seen.in_bins.items()
    ]
    if told and not any(lies.item.length for lies in seen.lying):
        say(f"in all bins, new: {', '.join(word.strip() for word in told)}")


def _listed(seen: Whereabouts) -> None:
    say()
    if not seen.lines:
        say("no packing list names it")
        return
    columns = [
        Column("sheet"), Column("row", number=True), HAND, Column("ordered", number=True),
        Column("shipped", number=True), Column("revision"), Column("crate"),
        Column("remark", words=True),
    ]  # fmt: skip
    rows = [
        (
            line.sheet, line.row, hand_word(line.hand),
            quantity_words(line.ordered, line.measure, line.length),
            quantity_words(line.shipped, line.measure, line.length), line.revision, line.crate,
            line.remark,
        )
        for line in seen.lines
    ]  # fmt: skip
    table(columns, rows)
    for one in seen.came:
        marked = f"revision {one.revision}" if one.revision else "no revision noted"
        kind = f"{quantity_words(one.pieces_counted, seen.part.measure)} {hand_word(one.hand)}"
        by = f" by {one.by}" if one.by else ""
        say(f"counted{by}, crate {crate_code(one.crate, one.bag)}: {kind.strip()}, {marked}")


def _revisions(seen: Whereabouts, *, listed: bool) -> None:
    """Say which revision the plan asks for: always where another one was listed or counted."""
    other = seen.other_revisions
    if not seen.asked or not (listed or other):
        return
    for revision, steps in seen.asked.items():
        say(f"the plan asks for revision {revision}: {named(steps)}")
    if other:
        text = f"listed or counted: revision {' and '.join(other)}. Compare with the plans, and ask"
        say("\n".join(paragraph(f"{text} the supplier, before it is used.")))


def _steps(seen: Whereabouts) -> None:
    say()
    if not seen.steps:
        say("no step of the plan asks for it")
        return
    columns = [
        Column("step"), HAND, Column("needs"), Column("set aside", number=True),
        Column("sheet"), Column("find"),
    ]  # fmt: skip
    table(
        columns,
        [
            (
                each.need.step, hand_word(each.need.hand),
                needed(each.need), amount(each.need, each.pieces, bare=True),
                each.need.sheet, each.need.find_number,
            )
            for each in seen.steps
        ],
    )  # fmt: skip
