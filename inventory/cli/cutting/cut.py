"""Commands for cutting: which piece from which stick, and the record of what was cut."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.amounts import say_movements
from inventory.cli.asking import asked
from inventory.cli.exits import Exit
from inventory.cli.options import Check, From, Json, Length, Lot, PartText
from inventory.cli.show import document, note, say, table
from inventory.cli.table import Column
from inventory.core.errors import InventoryError
from inventory.core.measures.lengths import parse_length, show_length

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.cutting.job import CutStock
    from inventory.jobs.cutting.recording import CutRecord
    from inventory.jobs.cutting.saw import OwnSaw
    from inventory.jobs.cutting.sticks import ProfilePlan

group = typer.Typer(no_args_is_help=True, help="Plan cuts from stock, and record them.")

Kerf = Annotated[str, typer.Option(metavar="LENGTH", help="What one saw cut takes.")]
Trim = Annotated[str, typer.Option(metavar="LENGTH", help="Both stick ends together.")]
Least = Annotated[str, typer.Option(metavar="LENGTH", help="A shorter rest is thrown away.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="cut")


@group.command("plan")
def plan(
    steps: Annotated[
        list[str] | None, typer.Argument(metavar="STEP", help="For these steps only.")
    ] = None,
    buy: Annotated[
        list[str] | None,
        typer.Option(
            metavar="[PART=]LENGTH[@PRICE]",
            help="A length that is sold; may be said often. Else those of the packing lists.",
        ),
    ] = None,
    unit: Annotated[str, typer.Option(metavar="UNIT", help="Of the marks: in, ft or mm.")] = "in",
    output: Annotated[
        Path | None,
        typer.Option("-o", "--output", metavar="FILE", help="A .pdf, .svg, .xlsx or .csv file."),
    ] = None,
    *,
    check: Check = False,
    json: Json = False,
) -> int:
    """Show which piece comes from which stick: least bought, remnants before bars.

    Example: kitwright cut plan 11-01 --buy 4ft
    """
    from inventory.jobs.cutting.sticks import cut_plans

    if unit not in {"in", "ft", "mm"}:
        raise InventoryError(f"{unit!r} is no unit of a tape", remedy="Say in, ft or mm.")
    bench = context.open_bench()
    profiles = cut_plans(bench, steps or (), _to_buy(buy or ()))
    if output is not None:
        from inventory.cli.cutting.cutting_papers import write_cutting

        write_cutting(bench, profiles, output, unit)
        note(f"written: {output}")
    if json:
        document("cutting plans", profiles)
    elif output is None:
        _show(profiles, unit)
    return Exit.FINDINGS if check and any(each.uncut for each in profiles) else Exit.DONE


def _to_buy(texts: Sequence[str]) -> dict[str, list[CutStock]]:
    from inventory.core.cutting.job import CutStock
    from inventory.core.items import part_key
    from inventory.core.measures.money import parse_price

    stock: dict[str, list[CutStock]] = {}
    currencies: set[str] = set()
    for text in texts:
        part, _, sold = text.rpartition("=")
        length, _, price_text = sold.partition("@")
        price = parse_price(price_text) if price_text else None
        currencies |= {price.currency} if price else set()
        one = CutStock(
            length=parse_length(length),
            price=price.amount if price else None,
            currency=price.currency if price else "",
        )
        stock.setdefault(part_key(part), []).append(one)
    if len(currencies) > 1:
        raise InventoryError(
            f"prices in {' and '.join(filter(None, sorted(currencies)))} can't be compared",
            where="--buy",
            remedy="Give all of them in one currency.",
        )
    return stock


def _show(profiles: list[ProfilePlan], unit: str) -> None:
    from inventory.cli.cutting.cutting_papers import patterns_of
    from inventory.cli.paragraphs import paragraph
    from inventory.cli.why_words import named
    from inventory.documents.cutting_text import cutting_text
    from inventory.jobs.cutting.words import bought_words, uncut_words

    if not profiles:
        say("no open step wants pieces cut")
    for profile in profiles:
        say(f"{profile.printed}  {profile.description}".rstrip())
        say(bought_words(profile))
        for words in uncut_words(profile):
            say(f"NOT FROM THIS STOCK: {words}")
        if profile.also:
            words = f"ALSO WANTED by {named(profile.also)}, which this plan leaves out; "
            say("\n".join(paragraph(words + "all together: kitwright cut plan")))
        bars = patterns_of(profile, unit)
        for line in ("", *cutting_text(bars).splitlines(), ""):
            say(line.rstrip())


@group.command("stock")
def stock(
    part: PartText,
    least: Annotated[
        str, typer.Argument(metavar="LENGTH", help="Only sticks at least so long.")
    ] = "",
    *,
    json: Json = False,
) -> None:
    """Show the bars and remnants of a part, where they lie, and to which steps they are promised.

    Example: kitwright cut stock T2-ST-0316 16in
    """
    from inventory.cli.cutting.cutting_papers import rack_row
    from inventory.jobs.cutting.sticks import rack

    found = rack(context.open_bench(), part, parse_length(least) if least else 0)
    if json:
        document("rack", found)
    elif found:
        columns = [
            Column("bin"), Column("sticks", number=True), Column("length", number=True),
            Column("kind"), Column("promised to", words=True),
        ]  # fmt: skip
        table(columns, map(rack_row, found))
    else:
        say(f"no stick of {part}{f' of {least} or more' if least else ''} lies in a bin")


@group.command("record")
def record(
    part: PartText,
    pieces: Annotated[
        list[str], typer.Argument(metavar="PIECES...", help="As 11-1/2in or 4x11-1/2in.")
    ],
    from_: From = "",
    to: Annotated[
        str, typer.Option("--to", metavar="PLACE", help="A bin, or `step 11-01`; else as --from.")
    ] = "",
    remnant: Annotated[
        str, typer.Option(metavar="LENGTH", help="As measured; else by the saw's kerf. `0in`: none")
    ] = "",
    remnant_to: Annotated[str, typer.Option(metavar="BIN", help="Else as --from.")] = "",
    length: Length = "",
    lot: Lot = None,
    sticks: Annotated[int, typer.Option(metavar="N", help="So many sticks, cut alike.")] = 1,
) -> None:
    """Record a cut: the stick goes to the saw, pieces and remnant come from it.

    Example: kitwright cut record T2-ST-0075 4x11-1/2in --from RACK-1 --to "step 11-01"
    """
    from inventory.jobs.bench.place_names import place_named
    from inventory.jobs.cutting.recording import Cut, pieces_typed, record_cut

    bench = context.open_bench()
    cut = Cut(
        asked=asked(part, "", lot, length),
        sticks=sticks,
        origin=place_named(bench, from_) if from_ else None,
        pieces=tuple(map(pieces_typed, pieces)),
        remnant=parse_length(remnant) if remnant else None,
        destination=place_named(bench, to) if to else None,
        remnant_to=place_named(bench, remnant_to) if remnant_to else None,
    )
    done = record_cut(bench, cut, context.new_slip())
    say_movements(bench, done.movements)
    say(_lost_words(done, measured=bool(remnant)))
    if done.remnant:
        note(f"mark the remnant with its length, {show_length(done.remnant)}, and its lot")


def _lost_words(done: CutRecord, *, measured: bool) -> str:
    """Say where the rest of each stick went: stick = pieces + remnant + this."""
    if measured:
        words = f"the saw took {show_length(done.lost)} of each stick"
        by_kerf = f"; by its kerf it is {show_length(done.by_kerf)}"
        return words + by_kerf if done.lost != done.by_kerf else words
    thrown = done.lost - done.by_kerf
    words = f"the saw took {show_length(done.by_kerf)} of each stick"
    return words + f", a rest of {show_length(thrown)} is thrown away" if thrown else words


@group.command("saw")
def saw(kerf: Kerf = "", trim: Trim = "", least: Least = "", *, json: Json = False) -> None:
    """Show what your saw takes, or keep what you measured: for all plans to come.

    Example: kitwright cut saw --kerf 1/16in --trim 1/4in --least 3in
    """
    from inventory.jobs.cutting.saw import keep_saw, own_saw

    store = context.open_store()
    measured = {
        name: parse_length(text)
        for name, text in (("kerf", kerf), ("trim", trim), ("least", least))
        if text
    }
    own = keep_saw(store, **measured) if measured else own_saw(store)
    if json:
        document("saw", own)
    else:
        say(_saw_words(own))


def _saw_words(own: OwnSaw) -> str:
    return (
        f"kerf {show_length(own.saw.kerf)}, both ends of a stick {show_length(own.saw.trim)}, "
        f"a rest from {show_length(own.least_remnant)} is kept"
    )
