"""Commands for what people decide and do before a step: set aside, substitute, prepared."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import amount as amount_words
from inventory.cli.amounts import amount_typed, of_part
from inventory.cli.asking import asked
from inventory.cli.options import HandText, Json, Length, Lot, PartMaybe, Why
from inventory.cli.show import HAND, PART, PIECES, document, hand_word, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from collections.abc import Mapping, Sequence

    from inventory.core.items import Item, Measure
    from inventory.core.planning.workshop import SetAside
    from inventory.jobs.planning.preparing import PreparedToday
    from inventory.jobs.planning.substituting import Decided

PiecesMaybe = Annotated[int | None, typer.Argument(metavar="PIECES", help="How many.")]
StepMaybe = Annotated[str, typer.Option("--step", metavar="STEP", help="The step it is for.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.command("set-aside")(set_aside)
    app.command("substitute")(substitute)
    app.command("prepared")(prepared)


def set_aside(
    part: PartMaybe = "",
    amount: Annotated[str, typer.Argument(metavar="AMOUNT", help="As 8, or 30ml.")] = "",
    step: StepMaybe = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    *,
    json: Json = False,
) -> None:
    """Set pieces aside for a step, so that no other step takes them; 0 lets them go.

    Without a part it shows all that is set aside. The pieces stay in their bins.

    Example: kitwright set-aside AN3-5A 8 --step 13-01
    """
    from inventory.jobs.planning.kept_aside import all_kept
    from inventory.jobs.planning.measures import measures
    from inventory.jobs.planning.setting_aside import Keeping
    from inventory.jobs.planning.setting_aside import set_aside as set_aside_

    bench = context.open_bench()
    if not part:
        _show_kept(all_kept(bench), measures(bench), json=json)
        return
    if not amount or not step:
        raise InventoryError(
            "how many, and for which step?",
            remedy=f"For instance: kitwright set-aside {part} 4 --step 13-01",
        )
    pieces = amount_typed(bench, part, amount)
    keeping = Keeping(asked(part, hand, lot, length), pieces, step)
    done = set_aside_(bench, keeping, context.new_slip())
    told = f"{done.item.part} {hand_word(done.item.hand)}".rstrip()
    quantity = of_part(done.quantity, done.item.part, measures(bench))
    say(
        f"{quantity} x {told} are set aside for step {done.step}"
        if done.quantity
        else f"{told}: none is set aside for step {done.step} any more"
    )


def _show_kept(kept: Sequence[SetAside], known: Mapping[str, Measure], *, json: bool) -> None:
    if json:
        document("set aside", kept)
    elif kept:
        columns = [Column("step"), PART, HAND, PIECES, Column("kind", words=True)]
        rows = [
            (k.step, *_item(k.item), of_part(k.quantity, k.item.part, known), _rest(k.item))
            for k in kept
        ]
        table(columns, rows)
    else:
        say("nothing is set aside")


def _item(item: Item) -> tuple[str, str]:
    return item.part, hand_word(item.hand)


def _rest(item: Item) -> str:
    from inventory.core.measures.lengths import show_length

    length = show_length(item.length) if item.length else ""
    return " ".join(word for word in (length, f"lot {item.lot}" if item.lot else "") if word)


Instead = Annotated[
    str, typer.Argument(metavar="INSTEAD", help="The part that may stand in for it.")
]
InStep = Annotated[
    str, typer.Option("--step", metavar="STEP", help="In this step only; else in all.")
]
NoLonger = Annotated[bool, typer.Option("--no-longer", help="Take the decision back from now on.")]


def substitute(
    part: PartMaybe = "",
    instead: Instead = "",
    step: InStep = "",
    why: Why = "",
    *,
    no_longer: NoLonger = False,
    json: Json = False,
) -> None:
    """Record somebody's decision that one part may be used instead of another, with its source.

    Without parts it shows all decisions, and where a stand-in is used as things lie today.

    Example: kitwright substitute AN3-5A AN3-6A --step 13-01 --why "plans RU-4 rev C, note 2"
    """
    from inventory.core.cautions import SUBSTITUTION
    from inventory.core.planning.workshop import StandIn
    from inventory.jobs.planning.substituting import decided
    from inventory.jobs.planning.substituting import substitute as substitute_

    bench = context.open_bench()
    if not part:
        found = decided(bench)
        if json:
            document("substitutions", found)
        else:
            _show_decisions(found)
        return
    if not instead:
        raise InventoryError("which part stands in for it?", remedy="Name both part numbers.")
    wanted = StandIn(part, instead, step, why)
    done = substitute_(bench, wanted, context.new_slip(why), allowed=not no_longer)
    where = f"in step {done.step}" if done.step else "in every step"
    word = "may no longer" if no_longer else "may"
    say(f"{done.instead} {word} be used instead of {done.part} {where}: {done.decided}")
    note(SUBSTITUTION)


def _show_decisions(found: Decided) -> None:
    if not found.decisions:
        say("no substitution is recorded")
        return
    columns = [
        Column("part"), Column("instead"), Column("step"), Column("decided", words=True),
        Column("recorded", words=True),
    ]  # fmt: skip
    rows = [
        (
            each.stand_in.part, each.stand_in.instead, each.stand_in.step or "all",
            each.stand_in.decided if each.allowed else f"NO LONGER: {each.stand_in.decided}",
            f"{each.on} {each.person}".rstrip(),
        )
        for each in found.decisions
    ]  # fmt: skip
    table(columns, rows)
    for each in found.used:
        quantity = amount_words(each.need, each.quantity, bare=True)
        say(f"step {each.need.step} uses {quantity} x {each.instead} instead of {each.need.part}")


def prepared(
    part: PartMaybe = "",
    pieces: PiecesMaybe = None,
    as_: Annotated[
        str, typer.Option("--as", metavar="WORDS", help="Your own words: deburred, primed.")
    ] = "",
    hand: HandText = "",
    lot: Lot = None,
    length: Length = "",
    why: Why = "",
    *,
    no_longer: Annotated[
        bool, typer.Option("--no-longer", help="They aren't any more, for instance scratched.")
    ] = False,
    json: Json = False,
) -> None:
    """Record pieces as prepared: deburred, primed, or what your own list says.

    Without a part it shows what was prepared, when and by whom, and how much lies in the bins.

    Example: kitwright prepared T2-RU-0401 4 --as "deburred, primed"
    """
    from inventory.jobs.planning.preparing import prepare, prepared_today

    bench = context.open_bench()
    if not part:
        today = prepared_today(bench)
        if json:
            left = [{"word": w, "item": item, "pieces": n} for (w, item), n in today.left.items()]
            document("prepared", {"records": today.records, "in_bins": left})
        else:
            _show_prepared(today)
        return
    if pieces is None or pieces < 1:
        raise InventoryError("how many pieces?", where=part, remedy="At least 1.")
    wanted = asked(part, hand, lot, length)
    signed = -pieces if no_longer else pieces
    for done in prepare(bench, wanted, signed, as_, context.new_slip(why)):
        word = f"no longer {done.word}" if no_longer else done.word
        say(f"{pieces} x {done.item.part} {hand_word(done.item.hand)}".rstrip() + f": {word}")


def _show_prepared(today: PreparedToday) -> None:
    if not today.records:
        say("nothing is recorded as prepared")
        return
    columns = [
        Column("on"), Column("as", words=True), PART, HAND, PIECES, Column("in bins", number=True),
        Column("by", words=True),
    ]  # fmt: skip
    rows = [
        (
            each.on, each.word, *_item(each.item), each.pieces,
            today.left.get((each.word, each.item), 0), each.person,
        )
        for each in today.records
    ]  # fmt: skip
    table(columns, rows)
