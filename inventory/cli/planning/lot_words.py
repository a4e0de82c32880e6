"""Lots and protective film in words, for the terminal."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.cli.amounts import of_part
from inventory.cli.paragraphs import paragraph
from inventory.cli.show import hand_word, kind_words
from inventory.cli.table import Column, drawn
from inventory.core.plain import plain
from inventory.core.planning.shelf_life import LifeType

if TYPE_CHECKING:
    from collections.abc import Iterable, Iterator, Mapping, Sequence

    from inventory.core.items import Measure
    from inventory.core.planning.shelf_life import ShelfLife
    from inventory.jobs.planning.lots import Lot, Trace, Traced
    from inventory.jobs.planning.shelf_lives import FilmToday, LotToday


def lot_line(lot: Lot) -> str:
    """Return a lot in one line: its dates, and the last day of use."""
    last = lot.shelf.last_use
    paper = f", certificate {lot.certificate}" if lot.certificate else ""
    use = f"last day of use {last}" if last else "no last day of use known"
    marked = shelf_words(lot.shelf)
    return plain(f"{lot.part} lot {lot.lot}: {marked + '; ' if marked else ''}{use}{paper}")


def shelf_words(shelf: ShelfLife) -> str:
    """Return what is marked on a lot."""
    told = (
        "" if shelf.life is LifeType.UNKNOWN else str(shelf.life),
        f"made {shelf.made}" if shelf.made else "",
        f"{shelf.months} months" if shelf.months else "",
        f"expires {shelf.expires}" if shelf.expires else "",
        f"opened {shelf.opened}" if shelf.opened else "",
        f"{shelf.open_days} days once opened" if shelf.open_days else "",
        "failed a test" if shelf.failed_test else "",
    )
    return ", ".join(word for word in told if word)


def lot_lines(
    lots: Sequence[LotToday], films: Sequence[FilmToday], measures: Mapping[str, Measure]
) -> Iterator[str]:
    """Return the lines that show lots by their last day, and film that is still on."""
    if lots:
        columns = (
            Column("part number"), Column("lot"), Column("state"), Column("last day"),
            Column("lies in", words=True), Column("marked", words=True),
        )  # fmt: skip
        yield from drawn(columns, [_lot_cells(each, measures) for each in lots]).splitlines()
    else:
        yield "no lot is in the record"
    if films:
        yield ""
        yield from drawn(
            (Column("film on"), Column("hand"), Column("since"), Column("")),
            [
                (
                    each.film.part,
                    hand_word(each.film.hand),
                    each.film.since,
                    "TAKE IT OFF" if each.overdue else "",
                )
                for each in films
            ],
        ).splitlines()


def _lot_cells(each: LotToday, measures: Mapping[str, Measure]) -> tuple[object, ...]:
    lot = each.lot
    papers = f"certificate {lot.certificate}" if lot.certificate else ""
    marked = ", ".join(word for word in (shelf_words(lot.shelf), papers) if word)
    lies = ", ".join(
        f"{of_part(one.quantity, lot.part, measures)} in {one.place}" for one in each.lying
    )
    state = each.state.upper() if each.state == "expired" else str(each.state)
    return lot.part, lot.lot, state, lot.shelf.last_use or "", lies or "nothing", marked


def trace_lines(found: Trace, measures: Mapping[str, Measure]) -> Iterator[str]:
    """Return the lines that say where every piece is."""
    if found.traced:
        columns = (
            Column("pieces", number=True), Column("part number"), Column("kind", words=True),
            Column("where"), Column("since", words=True),
        )  # fmt: skip
        yield from drawn(
            columns, [_traced_cells(each, measures) for each in found.traced]
        ).splitlines()
    else:
        yield "no piece of it is in the record"
    for part, hand, pieces in found.never_received:
        named = f"{part} {hand_word(hand)}".rstrip()
        quantity = of_part(pieces, part, measures)
        yield from paragraph(f"never received: {quantity} x {named} of the lists, of no known lot")


def _traced_cells(each: Traced, measures: Mapping[str, Measure]) -> tuple[object, ...]:
    lies = each.lies
    pieces = of_part(lies.quantity, lies.item.part, measures)
    return pieces, lies.item.part, kind_words(lies.item), lies.place, _days(each.since)


def _days(days: Iterable[object]) -> str:
    return ", ".join(map(str, days))
