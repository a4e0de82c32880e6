"""The command that says what a number means, or which part an unmarked piece may be."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Annotated

import typer

from inventory.cli import context
from inventory.cli.asking import asked
from inventory.cli.options import HandText, Json, hand_of
from inventory.cli.receiving import identify_words
from inventory.cli.show import document, hand_word, note, say
from inventory.core.errors import InventoryError, NoStoreError, NotFoundError

if TYPE_CHECKING:
    from inventory.core.parts.measuring import Measured
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked

NumberText = Annotated[str, typer.Argument(metavar="NUMBER", help="A number as printed.")]
Thickness = Annotated[str, typer.Option(metavar="LENGTH", help="Of the sheet: .032in, 0.8mm.")]
LongSide = Annotated[str, typer.Option("--length", metavar="LENGTH", help="The longest side.")]
Width = Annotated[str, typer.Option(metavar="LENGTH", help="The side across it.")]
Holes = Annotated[int | None, typer.Option(metavar="N", help="How many; leave out if not counted.")]
TakeFor = Annotated[str, typer.Option("--as", metavar="PART", help="I hold it for this part.")]
Crate = Annotated[str, typer.Option(metavar="CRATE", help="Where it lay.")]
Bag = Annotated[str, typer.Option(metavar="BAG", help="The bag in the crate.")]
HowMany = Annotated[int, typer.Option("--pieces", metavar="N", help="So many alike.")]
Confirm = Annotated[int, typer.Option(metavar="N", help="A second person: yes, it is.")]
Refuse = Annotated[int, typer.Option(metavar="N", help="A second person: no.")]
Families = Annotated[
    Path | None, typer.Option(metavar="FILE", help="Own hardware; else hardware.toml here.")
]
Waiting = Annotated[bool, typer.Option("--waiting", help="What waits for a second person.")]


def add_to(app: typer.Typer) -> None:
    """Put the command into the tree."""
    app.command("identify")(identify)


def identify(
    number: NumberText = "",
    thickness: Thickness = "",
    length: LongSide = "",
    width: Width = "",
    holes: Holes = None,
    hand: HandText = "",
    as_part: TakeFor = "",
    crate: Crate = "",
    bag: Bag = "",
    pieces: HowMany = 1,
    confirm: Confirm = 0,
    refuse: Refuse = 0,
    families: Families = None,
    *,
    waiting: Waiting = False,
    json: Json = False,
) -> None:
    """Say what a number means; or, by its measures, which open part an unmarked one may be.

    Example: kitwright identify --thickness .032in --length 10in --holes 8
    """
    if number:
        _number(number, families, json=json)
    elif waiting:
        _waiting(json=json)
    elif confirm or refuse:
        _settle(confirm or refuse, confirmed=bool(confirm))
    else:
        measured = _measured(thickness, width, length, holes)
        if as_part:
            _hold_for(measured, asked(as_part, hand), (crate, bag), pieces)
        else:
            _candidates(measured, hand, json=json)


def _number(number: str, families: Path | None, *, json: bool) -> None:
    from inventory.jobs.receiving.identifying import identify_number
    from inventory.jobs.receiving.own_hardware import own_hardware

    own = own_hardware(context.address(), families)
    found = identify_number(_bench_if_any(), number, own)
    if json:
        document("number", found)
        return
    for line in identify_words.number_lines(found):
        say(line)


def _bench_if_any() -> Bench | None:
    try:
        return context.open_bench()
    except (NoStoreError, NotFoundError):
        return None


def _measured(thickness: str, width: str, length: str, holes: int | None) -> Measured:
    from inventory.core.parts.measuring import Dimension
    from inventory.jobs.receiving.measured_parts import measured_typed

    told = {
        Dimension.THICKNESS: thickness, Dimension.WIDTH: width, Dimension.LENGTH: length,
    }  # fmt: skip
    return measured_typed(told, holes)


def _candidates(measured: Measured, hand: str, *, json: bool) -> None:
    from inventory.jobs.receiving.measured_parts import candidates

    found = candidates(context.open_bench(), measured, hand_of(hand))
    if json:
        document("candidates", found)
        return
    for line in identify_words.candidate_lines(found):
        say(line)


def _hold_for(measured: Measured, part: Asked, place: tuple[str, str], pieces: int) -> None:
    from inventory.jobs.receiving.measured_parts import Held, hold_for

    crate, bag = place
    if not crate:
        raise InventoryError("where did it lie?", remedy="Say it with --crate.")
    held = Held(asked=part, measured=measured, crate=crate, bag=bag, pieces=pieces)
    found = hold_for(context.open_bench(), held, context.new_slip())
    named = f"{found.part} {hand_word(found.hand)}".rstrip()
    say(
        f"identification {found.number}: {found.pieces} x {named}, says {found.by}; not counted yet"
    )
    note(f"a second person holds it against the drawing, then says: "
         f"kitwright identify --confirm {found.number} --by NAME")  # fmt: skip


def _settle(number: int, *, confirmed: bool) -> None:
    from inventory.jobs.receiving.measured_parts import settle

    found = settle(context.open_bench(), number, context.new_slip(), confirmed=confirmed)
    named = f"{found.part} {hand_word(found.hand)}".rstrip()
    counted = ", counted as identified by measurement" if confirmed else "; nothing is counted"
    say(f"identification {number} {found.state}: {found.pieces} x {named}{counted}")
    if confirmed:
        note("mark it at once: number, hand and UP or FWD, with a felt pen on a face that hides")


def _waiting(*, json: bool) -> None:
    from inventory.jobs.receiving.measured_parts import waiting

    found = waiting(context.open_bench())
    if json:
        document("waiting", found)
        return
    for line in identify_words.waiting_lines(found):
        say(line)
