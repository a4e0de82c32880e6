"""Commands for lots: what is marked on them, where they are, holding one back; film on sheets."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, Annotated, Any

import typer

from inventory.cli import context
from inventory.cli.amounts import say_movements
from inventory.cli.exits import Exit
from inventory.cli.options import Check, HandText, Json, PartText, Why, hand_of
from inventory.cli.paragraphs import paragraph
from inventory.cli.planning import lot_words
from inventory.cli.show import document, hand_word, note, say
from inventory.core.errors import InventoryError

if TYPE_CHECKING:
    from inventory.core.planning.shelf_life import LifeType
    from inventory.jobs.planning.lots import Lot

group = typer.Typer(
    no_args_is_help=True, help="Keep dates and papers of lots; find one, hold it back; film."
)

LotName = Annotated[str, typer.Argument(metavar="LOT", help="Lot or batch number as marked.")]
AnyLot = Annotated[str, typer.Argument(metavar="LOT", help="Lot or batch number.")]
OfPart = Annotated[str, typer.Option("--part", metavar="PART", help="Only of this part.")]
Certificate = Annotated[str, typer.Option(metavar="NO", help="Certificate, or where it lies.")]
Made = Annotated[str, typer.Option(metavar="DATE", help="Made, cured or packed: 2026-03, 03/26.")]
Months = Annotated[int, typer.Option(metavar="N", help="Shelf life in months.")]
Expires = Annotated[str, typer.Option(metavar="DATE", help="Last day of use as marked.")]
Life = Annotated[str, typer.Option("--type", metavar="TYPE", help="I, II, or its code C, H, M.")]
Opened = Annotated[str, typer.Option(metavar="DATE", help="The day it was opened.")]
OpenDays = Annotated[int, typer.Option(metavar="N", help="Days it lasts once opened.")]
FailedTest = Annotated[bool, typer.Option("--failed-test", help="It failed a test.")]
Since = Annotated[str, typer.Option(metavar="DATE", help="Made, or packed; else today.")]


def add_to(app: typer.Typer) -> None:
    """Put the commands into the tree."""
    app.add_typer(group, name="lot")


@group.command("record")
def record(
    part: PartText,
    lot: LotName,
    certificate: Certificate = "",
    made: Made = "",
    months: Months = 0,
    expires: Expires = "",
    life: Life = "",
    opened: Opened = "",
    open_days: OpenDays = 0,
    *,
    failed_test: FailedTest = False,
) -> None:
    """Record what is marked on a lot; what isn't said again stays.

    Example: kitwright lot record T2-CN-0003 7A1 --made 2026-01 --months 12 --type II
    """
    from inventory.core.planning.shelf_life import read_date
    from inventory.jobs.planning.lots import record_lot

    said: dict[str, Any] = {
        "made": read_date(made) if made else None,
        "expires": read_date(expires) if expires else None,
        "opened": read_date(opened) if opened else None,
        "open_days": open_days or None,
        "failed_test": failed_test or None,
        **_life(life, months),
    }
    known = {name: value for name, value in said.items() if value is not None}
    after = record_lot(
        context.open_bench(),
        part,
        lot,
        lambda before: _changed(before, certificate, known),
        context.new_slip(),
    )
    say(lot_words.lot_line(after))


def _changed(before: Lot, certificate: str, known: dict[str, Any]) -> Lot:
    return replace(
        before,
        certificate=certificate or before.certificate,
        shelf=replace(before.shelf, **known),
    )


def _life(text: str, months: int) -> dict[str, LifeType | int | None]:
    """Return type and months; a type I code says both (MIL-STD-129, as far as read)."""
    from inventory.core.planning.shelf_life import LIFE_CODES, LifeType

    types = {"": None, "I": LifeType.FIXED, "II": LifeType.EXTENDIBLE}
    code = text.strip().upper()
    if code in LIFE_CODES:
        if months not in (0, LIFE_CODES[code]):
            raise InventoryError(
                f"code {code} means {LIFE_CODES[code]} months, not {months}",
                remedy="Look at the marking again.",
            )
        return {"life": LifeType.FIXED, "months": LIFE_CODES[code]}
    if code not in types:
        raise InventoryError(
            f"{text!r} is no type of shelf life",
            where="--type",
            remedy="Say I (fixed), II (may be extended after a test), or its code C, H or M.",
        )
    return {"life": types[code], "months": months or None}


@group.command("extend")
def extend(part: PartText, lot: LotName, why: Why = "") -> None:
    """Record that a type II lot passed its test: half its life longer; say who decided.

    Example: kitwright lot extend T2-CN-0003 7A1 --why "test strip 3 May, passed, Ana"
    """
    from inventory.jobs.planning.lots import extend_lot

    say(lot_words.lot_line(extend_lot(context.open_bench(), part, lot, context.new_slip(why))))


@group.command("show")
def show(*, check: Check = False, json: Json = False) -> int:
    """Show all lots, what expires first at the top, and film that should come off.

    Example: kitwright lot show --check
    """
    from inventory.core.cautions import EXPIRED
    from inventory.core.planning.shelf_life import Freshness
    from inventory.jobs.planning.measures import measures
    from inventory.jobs.planning.shelf_lives import films_on, lots

    bench, today = context.open_bench(), context.new_slip().happened_on
    found, films = lots(bench, today), films_on(bench, today)
    expired = [each for each in found if each.state is Freshness.EXPIRED and each.lying]
    if json:
        document("lots", {"lots": found, "film": films})
    else:
        for line in lot_words.lot_lines(found, films, measures(bench)):
            say(line)
        if expired:
            note("\n".join(paragraph(EXPIRED)))
    late = bool(expired) or any(each.overdue for each in films)
    return Exit.FINDINGS if check and late else Exit.DONE


@group.command("trace")
def trace(lot: AnyLot = "", part: OfPart = "", *, json: Json = False) -> None:
    """Show every piece of a lot or part: bin, step and day, scrap, sent back, never received.

    Example: kitwright lot trace 7A1 --part AN3-5A
    """
    from inventory.jobs.planning.lots import trace as trace_
    from inventory.jobs.planning.measures import measures

    bench = context.open_bench()
    found = trace_(bench, part, lot)
    if json:
        document("trace", found)
        return
    for line in lot_words.trace_lines(found, measures(bench)):
        say(line)


@group.command("hold")
def hold(lot: AnyLot = "", part: OfPart = "", why: Why = "") -> None:
    """Hold every piece of a lot or part back in one act; what is built in is named.

    Example: kitwright lot hold 7A1 --why "bulletin 12: heads may crack"
    """
    from inventory.jobs.planning.lots import hold_lot
    from inventory.jobs.planning.measures import measures

    bench = context.open_bench()
    held = hold_lot(bench, context.new_slip(why), part, lot)
    say_movements(bench, held.movements, "held back: ")
    if not held.movements:
        say("nothing of it lies in bins or crates")
    for line in lot_words.trace_lines(held.trace, measures(bench)):
        say(line)


@group.command("film")
def film(
    part: PartText,
    hand: HandText = "",
    since: Since = "",
    *,
    off: Annotated[bool, typer.Option("--off", help="It came off.")] = False,
) -> None:
    """Record that protective film is on a part, or came off; `lot show` reminds of it.

    Example: kitwright lot film T2-RU-0501 --hand left --since 2026-01-10
    """
    from inventory.core.items import Hand
    from inventory.core.planning.shelf_life import read_date
    from inventory.jobs.planning.lots import Film, record_film

    slip = context.new_slip()
    day = read_date(since) if since else slip.happened_on
    told = Film(part=part, hand=hand_of(hand) or Hand.NONE, since=day)
    known = record_film(context.open_bench(), told, slip, on=not off)
    named = f"{known.part} {hand_word(known.hand)}".rstrip()
    if off:
        say(f"film is off {named}")
        note("mark it before the film goes: it often carries the only number")
    else:
        say(f"film is on {named} since {known.since}")
