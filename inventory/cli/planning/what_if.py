"""Commands that look ahead: what some pieces more or fewer would change, what no step takes."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount, amount_typed, of_part, quantity_words
from inventory.cli.asking import asked
from inventory.cli.options import HandText, Json, Length, Lot, PartText
from inventory.cli.show import HAND, PART, document, hand_word, kind_words, say, table
from inventory.cli.table import Column
from inventory.cli.why_words import named
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.planning.what_if import ShortChange
    from inventory.jobs.planning.what_if import Consequences, LeftOver


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("what-if")(what_if)
    app.command("left-over")(left_over)


def what_if(
    part: PartText,
    used: Annotated[
        str, typer.Option(metavar="AMOUNT", help="So many were used elsewhere, or spoilt.")
    ] = "",
    came: Annotated[str, typer.Option(metavar="AMOUNT", help="So many came; as 4 or 30ml.")] = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    *,
    json: Json = False,
) -> None:
    """Show what would go short if pieces were used or spoilt, or what would be freed if they came.

    Nothing is recorded.

    Example: kitwright what-if AN3-5A --used 4
    """
    from inventory.jobs.planning.measures import measures
    from inventory.jobs.planning.what_if import what_if as what_if_

    if bool(used) is bool(came):
        raise InventoryError("either some are used, or some come", remedy="Say --used or --came.")
    bench = context.open_bench()
    pieces = amount_typed(bench, part, used or came)
    found = what_if_(bench, asked(part, hand, lot, length), -pieces if used else pieces)
    if json:
        document("what if", found)
    else:
        _show(found, of_part(pieces, found.item.part, measures(bench)))


def _show(found: Consequences, quantity: str) -> None:
    verb = "come" if found.pieces > 0 else "are used"
    say(f"if {quantity} x {found.item.part} {kind_words(found.item)}".rstrip() + f" {verb}:")
    if found.short:
        columns = [
            Column("step"), PART, HAND, Column("short now", number=True),
            Column("then", number=True), Column("description", words=True),
        ]  # fmt: skip
        rows = [
            (
                each.need.step, each.need.printed or each.need.part, hand_word(each.need.hand),
                amount(each.need, each.was, bare=True), amount(each.need, each.now, bare=True),
                each.need.description,
            )
            for each in found.short
        ]  # fmt: skip
        table(columns, rows)
    else:
        say("no step lacks more or less than now")
    if found.freed:
        say(f"ready then: {', '.join(found.freed)}")
    if found.stopped:
        say(f"no longer ready: {', '.join(found.stopped)}")
    _worse(found)


def _worse(found: Consequences) -> None:
    """Say what would have to be got again, and which steps would wait for it."""
    again: dict[tuple[str, str], list[ShortChange]] = {}
    for each in found.short:
        if each.now > each.was:
            name = (each.need.printed or each.need.part, hand_word(each.need.hand))
            again.setdefault(name, []).append(each)
    for (part, hand), worse in again.items():
        need, more = worse[0].need, sum(each.now - each.was for each in worse)
        words = "some" if need.as_required else amount(need, more)
        say(f"to be got again: {words} x {part} {hand}".rstrip())
    if found.behind:
        say(f"can't be finished without: {named(found.behind)}")


def left_over(*, json: Json = False) -> None:
    """Show what lies in the bins that no step takes: spare, or forgotten in the plan.

    Example: kitwright left-over
    """
    from inventory.jobs.planning.what_if import left_overs

    found = left_overs(context.open_bench())
    if json:
        document("left over", found)
    elif not found:
        say("some step takes everything that lies in the bins")
    else:
        columns = [
            PART, HAND, Column("left", number=True), Column("why"), Column("bins", words=True),
            Column("description", words=True),
        ]  # fmt: skip
        table(columns, [_left_row(each) for each in found])


def _left_row(each: LeftOver) -> tuple[object, ...]:
    pool = each.pool
    quantity = quantity_words(each.quantity, each.part.measure, pool.length)
    why = "spare" if each.planned else "not planned"
    bins = ", ".join(code for code, _ in each.bins)
    return each.part.printed, hand_word(pool.hand), quantity, why, bins, each.part.description
