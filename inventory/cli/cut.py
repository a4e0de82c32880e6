"""Commands for cutting: which piece from which stick, and the record of what was cut."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.asking import asked
from inventory.cli.options import From, Json, Lot, PartText, To
from inventory.cli.show import document, movement_words, note, say
from inventory.core.lengths import parse_length, show_length

if TYPE_CHECKING:
    from inventory.core.cutting import CutStick, CutStock
    from inventory.jobs.cutting import Cutting, ProfilePlan

group = typer.Typer(no_args_is_help=True, help="Plan cuts from stock, and record them.")


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="cut")


@group.command("plan")
def plan(
    steps: Annotated[
        list[str] | None, typer.Argument(metavar="[STEP]...", help="For these steps only.")
    ] = None,
    kerf: Annotated[str, typer.Option(metavar="LENGTH", help="One saw cut.")] = "1/8in",
    trim: Annotated[str, typer.Option(metavar="LENGTH", help="Both stick ends together.")] = "0in",
    least: Annotated[
        str, typer.Option(metavar="LENGTH", help="A shorter rest is thrown away.")
    ] = "2in",
    buy: Annotated[
        list[str] | None,
        typer.Option(metavar="LENGTH[@PRICE]", help="A length that can be bought."),
    ] = None,
    output: Annotated[
        Path | None, typer.Option("-o", "--output", metavar="FILE", help="A .pdf or .svg drawing.")
    ] = None,
    *,
    json: Json = False,
) -> None:
    """Show which piece comes from which stick, at the least cost, remnants first.

    Example: kitwright cut plan 11-01 --kerf 1/8in --buy 4ft
    """
    from inventory.core.workshop import Saw
    from inventory.jobs.cutting import Cutting, cut_plans

    cutting = Cutting(
        Saw(parse_length(kerf), parse_length(trim)),
        parse_length(least),
        tuple(_to_buy(text) for text in buy or ()),
    )
    bench = context.open_bench()
    plans = cut_plans(bench, steps or (), cutting)
    if output is not None:
        from inventory.cli.cutting_papers import write_cutting

        write_cutting(bench, plans, output)
        note(f"written: {output}")
    if json:
        document("cutting plans", plans)
    elif not plans:
        say("no step wants pieces cut")
    for each in () if json else plans:
        _show(each, cutting)


def _to_buy(text: str) -> CutStock:
    from inventory.core.cutting import CutStock
    from inventory.core.money import parse_price

    length, _, price = text.partition("@")
    return CutStock(length=parse_length(length), price=parse_price(price) if price else None)


def _show(profile: ProfilePlan, cutting: Cutting) -> None:
    say(f"{profile.part}  {profile.description}".rstrip())
    for stick in profile.plan.sticks:
        where = "BUY" if not stick.stock.owned else "take"
        say(f"  {where} {show_length(stick.stock.length)}: {_marks(stick)}")
        rest = stick.remnant
        if rest:
            kept = "keep" if rest >= cutting.least_remnant else "throw away"
            say(f"      {kept} the rest of {show_length(rest)}")
    for piece in profile.plan.uncut:
        say(f"  NOT FROM THE STOCK: {piece.quantity} x {show_length(piece.length)} {piece.name}")
    if not profile.plan.proved:
        say("  not proved best")
    say()


def _marks(stick: CutStick) -> str:
    """Return the pieces with where on the tape each cut ends."""
    at = stick.saw.trim // 2
    told = []
    for piece in stick.pieces:
        at += piece.length
        told.append(f"{show_length(piece.length)} (mark {show_length(at)}, {piece.name})")
        at += stick.saw.kerf
    return "; ".join(told)


@group.command("record")
def record(
    part: PartText,
    pieces: Annotated[
        list[str], typer.Argument(metavar="PIECES...", help="As 11-1/2in or 4x11-1/2in.")
    ],
    from_: From = "",
    stick: Annotated[str, typer.Option(metavar="LENGTH", help="The stick that was cut.")] = "",
    to: To = "",
    remnant: Annotated[str, typer.Option(metavar="LENGTH", help="What was left, measured.")] = "",
    remnant_to: Annotated[str, typer.Option(metavar="BIN", help="Where the rest lies.")] = "",
    lot: Lot = None,
) -> None:
    """Record a cut: the stick goes to the saw, pieces and remnant come from it.

    Example: kitwright cut record T2-ST-0075 4x11-1/2in --from RACK-1 --to RACK-1 --remnant 1-1/2in
    """
    from inventory.jobs.cutting import Cut, record_cut
    from inventory.jobs.finding_items import Taking
    from inventory.jobs.place_names import place_named

    bench = context.open_bench()
    origin = place_named(bench, from_)
    cut = Cut(
        Taking(asked(part, "", lot, stick), 1, origin),
        tuple(_pieces(text) for text in pieces),
        parse_length(remnant) if remnant else 0,
        place_named(bench, to),
        place_named(bench, remnant_to) if remnant_to else origin,
    )
    for move in record_cut(bench, cut, context.new_slip()):
        say(movement_words(move))


def _pieces(text: str) -> tuple[int, int]:
    number, times, length = text.partition("x")
    if times and number.strip().isdigit():
        return parse_length(length), int(number)
    return parse_length(text), 1
