"""What is marked on lots, and protective film on parts: the newest word counts."""

from __future__ import annotations

from dataclasses import field
from datetime import date
from typing import TYPE_CHECKING

from inventory.core.frozen import frozen
from inventory.core.items import Hand
from inventory.core.planning.shelf_life import LifeType, ShelfLife
from inventory.store.ledger.by_slip import add_row, rows_that_count
from inventory.store.ledger.days import day_of, day_text
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.tables.identity import film as film_table
from inventory.store.tables.identity import lot as lot_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping


@frozen(kw_only=True)
class Lot:
    """A lot of one part with what is marked on it."""

    part: str
    lot: str
    certificate: str = ""
    shelf: ShelfLife = field(default_factory=ShelfLife)


@frozen(kw_only=True)
class Film:
    """Protective film that is still on parts."""

    part: str
    hand: Hand = Hand.NONE
    since: date


def save_lot(db: Connection, kit: int, slip: int, lot: Lot) -> None:
    """Record what is known of a lot from now on."""
    shelf = lot.shelf
    add_row(
        db,
        lot_table,
        kit,
        slip,
        part=part_ids(db, kit, [PartName(lot.part, lot.part)])[lot.part],
        lot=lot.lot,
        certificate=lot.certificate,
        life=shelf.life.value,
        made=day_text(shelf.made),
        months=shelf.months,
        expires=day_text(shelf.expires),
        opened=day_text(shelf.opened),
        open_days=shelf.open_days,
        failed_test=int(shelf.failed_test),
    )


def all_lots(db: Connection, kit: int) -> dict[tuple[str, str], Lot]:
    """Return the lots that were recorded, by part and lot."""
    return {
        (row["part_key"], row["lot"]): Lot(
            part=row["part_key"],
            lot=row["lot"],
            certificate=row["certificate"],
            shelf=_shelf(row),
        )
        for row in rows_that_count(db, lot_table, kit)
    }


def _shelf(row: RowMapping) -> ShelfLife:
    return ShelfLife(
        life=LifeType(row["life"]),
        made=day_of(row["made"]),
        months=row["months"],
        expires=day_of(row["expires"]),
        opened=day_of(row["opened"]),
        open_days=row["open_days"],
        failed_test=bool(row["failed_test"]),
    )


def add_film(db: Connection, kit: int, slip: int, film: Film, *, on: bool) -> None:
    """Record that film is on parts since a day, or was taken off that day."""
    add_row(
        db,
        film_table,
        kit,
        slip,
        part=part_ids(db, kit, [PartName(film.part, film.part)])[film.part],
        hand=film.hand.value,
        event="on" if on else "off",
        day=film.since.isoformat(),
    )


def films(db: Connection, kit: int) -> list[Film]:
    """Return the film that is still on, the longest first."""
    rows = rows_that_count(db, film_table, kit)
    newest = {(row["part_key"], row["hand"]): row for row in rows}
    still_on = [
        Film(part=part, hand=Hand(hand), since=date.fromisoformat(row["day"]))
        for (part, hand), row in newest.items()
        if row["event"] == "on"
    ]
    return sorted(still_on, key=lambda film: (film.since, film.part))
