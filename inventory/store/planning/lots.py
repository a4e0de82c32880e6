"""What is marked on lots, and protective film on parts: the newest word counts."""

from __future__ import annotations

from dataclasses import dataclass, field
from datetime import date
from typing import TYPE_CHECKING

from sqlalchemy import insert, select

from inventory.core.items import Hand
from inventory.core.planning.shelf_life import LifeType, ShelfLife
from inventory.store.ledger.ids import next_id
from inventory.store.ledger.names import PartName, part_ids
from inventory.store.ledger.slips import undone_slips
from inventory.store.tables.identity import film as film_table
from inventory.store.tables.identity import lot as lot_table
from inventory.store.tables.kits import part as part_table

if TYPE_CHECKING:
    from sqlalchemy import Connection, RowMapping


@dataclass(frozen=True, slots=True, kw_only=True)
class Lot:
    """A lot of one part with what is marked on it."""

    part: str
    lot: str
    certificate: str = ""
    shelf: ShelfLife = field(default_factory=ShelfLife)


@dataclass(frozen=True, slots=True, kw_only=True)
class Film:
    """Protective film that is still on parts."""

    part: str
    hand: Hand = Hand.NONE
    since: date


def save_lot(db: Connection, kit: int, slip: int, lot: Lot) -> None:
    """Record what is known of a lot from now on."""
    shelf = lot.shelf
    db.execute(
        insert(lot_table).values(
            kit=kit,
            id=next_id(db, lot_table, kit),
            slip=slip,
            part=part_ids(db, kit, [PartName(lot.part, lot.part)])[lot.part],
            lot=lot.lot,
            certificate=lot.certificate,
            life=shelf.life.value,
            made=_text(shelf.made),
            months=shelf.months,
            expires=_text(shelf.expires),
            opened=_text(shelf.opened),
            open_days=shelf.open_days,
            failed_test=int(shelf.failed_test),
        )
    )


def all_lots(db: Connection, kit: int) -> dict[tuple[str, str], Lot]:
    """Return the lots that were recorded, by part and lot."""
    c, p = lot_table.c, part_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(
        select(lot_table, p.key.label("part_key"))
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit)
        .order_by(c.id)
    ).mappings()
    return {
        (row["part_key"], row["lot"]): Lot(
            part=row["part_key"],
            lot=row["lot"],
            certificate=row["certificate"],
            shelf=_shelf(row),
        )
        for row in rows
        if row["slip"] not in undone
    }


def _shelf(row: RowMapping) -> ShelfLife:
    return ShelfLife(
        life=LifeType(row["life"]),
        made=_day(row["made"]),
        months=row["months"],
        expires=_day(row["expires"]),
        opened=_day(row["opened"]),
        open_days=row["open_days"],
        failed_test=bool(row["failed_test"]),
    )


def add_film(db: Connection, kit: int, slip: int, film: Film, *, on: bool) -> None:
    """Record that film is on parts since a day, or was taken off that day."""
    db.execute(
        insert(film_table).values(
            kit=kit,
            id=next_id(db, film_table, kit),
            slip=slip,
            part=part_ids(db, kit, [PartName(film.part, film.part)])[film.part],
            hand=film.hand.value,
            event="on" if on else "off",
            day=film.since.isoformat(),
        )
    )


def films(db: Connection, kit: int) -> list[Film]:
    """Return the film that is still on, the longest first."""
    c, p = film_table.c, part_table.c
    undone = undone_slips(db, kit)
    rows = db.execute(
        select(p.key, c.hand, c.event, c.day, c.slip)
        .join(part_table, (p.kit == c.kit) & (p.id == c.part))
        .where(c.kit == kit)
        .order_by(c.id)
    )
    newest = {(row.key, row.hand): row for row in rows if row.slip not in undone}
    still_on = [
        Film(part=row.key, hand=Hand(row.hand), since=date.fromisoformat(row.day))
        for row in newest.values()
        if row.event == "on"
    ]
    return sorted(still_on, key=lambda film: (film.since, film.part))


def _text(day: date | None) -> str:
    return day.isoformat() if day else ""


def _day(text: str) -> date | None:
    return date.fromisoformat(text) if text else None
