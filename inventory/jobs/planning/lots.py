"""Lots: what is marked on them, where every piece is, and holding a whole lot back at once."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.parts.hands import hand_in_words
from inventory.core.places import Place, PlaceKind
from inventory.core.planning.shelf_life import LONGEST_LIFE, extended
from inventory.core.receiving.tally import tally
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import known_part
from inventory.jobs.planning.shelf_lives import lots_within
from inventory.jobs.receiving.still_coming import receipt_within
from inventory.store.ledger.history import movements
from inventory.store.ledger.names import known_hands
from inventory.store.ledger.slips import all_slips, undone_slips
from inventory.store.ledger.stock import lying
from inventory.store.planning.lots import Film, Lot, add_film, films, save_lot

if TYPE_CHECKING:
    from collections.abc import Callable, Iterable
    from datetime import date

    from inventory.core.items import Hand, Item
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.store.kits import Kit
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection

    Change = Callable[[Lot], Lot]

__all__ = ["Film", "HeldBack", "Lot", "Trace", "Traced", "Which"]

HOLD = Place(PlaceKind.HOLD, "HOLD")
_HELD_BACK_FROM = frozenset({PlaceKind.BIN, PlaceKind.CRATE})
_SHOWN = (
    *(PlaceKind.BIN, PlaceKind.CRATE, PlaceKind.HOLD, PlaceKind.STEP),
    *(PlaceKind.SCRAP, PlaceKind.RETURNED),
)


@frozen
class Which:
    """What a bulletin is about: a lot, a part, or a lot of a part."""

    part: str = ""
    lot: str = ""

    def names(self, item: Item) -> bool:
        """Say whether it is about an item."""
        return self.part in ("", item.part) and self.lot in ("", item.lot)


@frozen
class Traced:
    """Some pieces, and where they are since when."""

    lies: Lying
    since: tuple[date, ...]
    """The days on which pieces went there, newest last."""


@frozen
class Trace:
    """Every piece a bulletin is about."""

    which: Which
    traced: tuple[Traced, ...]
    never_received: tuple[tuple[str, Hand, int], ...]
    """Listed pieces of its parts that nobody found: part, hand, pieces; of no lot anybody knows."""


@frozen
class HeldBack:
    """What was held back from where, and where every piece is after it."""

    movements: tuple[Movement, ...]
    trace: Trace


@tried_again
def record_lot(bench: Bench, part: str, lot: str, change: Change, slip: Slip) -> Lot:
    """Record what is marked on a lot; what isn't said again stays as it was."""
    with acting(bench, "lot record", slip) as act:
        before = _lot(act.db, bench.kit, part, lot)
        after = change(before)
        _check(after, slip.happened_on)
        save_lot(act.db, bench.kit.id, act.recorded.id, after)
        return after


def _lot(db: Connection, kit: Kit, part: str, lot: str) -> Lot:
    key = known_part(db, kit, part).key
    name = " ".join(lot.split())
    if not name:
        raise InventoryError("which lot?", remedy="Write its number as it is marked.")
    return lots_within(db, kit).get((key, name), Lot(part=key, lot=name))


def _check(lot: Lot, today: date) -> None:
    shelf = lot.shelf
    for event, day in (("made", shelf.made), ("opened", shelf.opened)):
        if day is not None and day > today:
            raise InventoryError(
                f"lot {lot.lot} can't be {event} on {day}: that is still to come",
                remedy="Look at the date again.",
            )
    if shelf.made and shelf.expires and shelf.expires < shelf.made:
        raise InventoryError(
            f"lot {lot.lot} expires on {shelf.expires}, before it was made on {shelf.made}",
            remedy="Look at both dates again.",
        )
    if shelf.months < 0 or shelf.open_days < 0:
        raise InventoryError("a life is never negative", remedy="Give months or days above 0.")
    if shelf.months > LONGEST_LIFE or shelf.open_days > LONGEST_LIFE * 30:
        raise InventoryError(
            f"a life of {shelf.months} months, {shelf.open_days} days once opened, can't be",
            remedy=f"The longest is {LONGEST_LIFE} months: look at the marking again.",
        )


@tried_again
def extend_lot(bench: Bench, part: str, lot: str, slip: Slip) -> Lot:
    """Record that a lot passed its test; the slip's note says who decided and by what."""
    if not slip.note:
        raise InventoryError("who tested it, and by what?", remedy="Say it with --why.")
    with acting(bench, "lot extend", slip) as act:
        before = _lot(act.db, bench.kit, part, lot)
        after = replace(before, shelf=extended(before.shelf))
        save_lot(act.db, bench.kit.id, act.recorded.id, after)
        return after


def trace(bench: Bench, part: str = "", lot: str = "") -> Trace:
    """Return where every piece of a lot or part is: bin, crate, hold, step and day, scrap."""
    with bench.store.reading() as db:
        return _trace(db, bench.kit, _which(db, bench.kit, part, lot))


def _which(db: Connection, kit: Kit, part: str, lot: str) -> Which:
    if not part and not lot:
        raise InventoryError("which lot or part?", remedy="Say a lot, or --part PART.")
    key = known_part(db, kit, part).key if part else ""
    return Which(key, " ".join(lot.split()))


def _trace(db: Connection, kit: Kit, which: Which) -> Trace:
    there = [lies for lies in lying(db, kit.id, kinds=_SHOWN) if which.names(lies.item)]
    days = _days(db, kit, {lies.item.part for lies in there}) if there else {}
    if not there and not any(which.lot in ("", known) for _, known in lots_within(db, kit)):
        raise NotFoundError(
            f"no lot {which.lot} is in the record", remedy="Look: kitwright lot show"
        )
    parts = {lies.item.part for lies in there} | ({which.part} if which.part else set())
    return Trace(
        which,
        tuple(Traced(lies, days.get((lies.place, lies.item), ())) for lies in there),
        tuple(_never_received(db, kit, parts)),
    )


def _days(
    db: Connection, kit: Kit, parts: Iterable[str]
) -> dict[tuple[Place, Item], tuple[date, ...]]:
    """Return the days on which pieces of the parts went where they lie."""
    undone = undone_slips(db, kit.id)
    happened = {each.id: each.slip.happened_on for each in all_slips(db, kit.id)
                if each.id not in undone and each.undoes is None}  # fmt: skip
    days: dict[tuple[Place, Item], dict[date, None]] = {}
    for part in parts:
        for each in movements(db, kit.id, part=part):
            if each.slip in happened:
                key = (each.movement.destination, each.movement.item)
                days.setdefault(key, {})[happened[each.slip]] = None
    return {key: tuple(found) for key, found in days.items()}


def _never_received(db: Connection, kit: Kit, parts: set[str]) -> Iterable[tuple[str, Hand, int]]:
    receipt = receipt_within(db, kit)
    lines = [each.line for each in receipt.lines]
    for one in tally(lines, [each.count for each in receipt.counts]).lines:
        missing = one.line.shipped - one.pieces_received
        if one.line.part in parts and missing > 0:
            yield one.line.part, one.line.hand, missing


@tried_again
def hold_lot(bench: Bench, slip: Slip, part: str = "", lot: str = "") -> HeldBack:
    """Hold every piece of a lot or part back in one act; return where each piece is after it.

    What was issued, scrapped or sent back stays where it is and is named. The slip's note says
    why: the bulletin's number, who said so.
    """
    if not slip.note:
        raise InventoryError("why is it held back?", remedy='Say it with --why "bulletin 12".')
    with acting(bench, "lot hold", slip) as act:
        which = _which(act.db, bench.kit, part, lot)
        found = _trace(act.db, bench.kit, which)
        moves = [
            Movement(each.lies.item, each.lies.quantity, each.lies.place, HOLD)
            for each in found.traced
            if each.lies.place.kind in _HELD_BACK_FROM
        ]
        act.move(moves)
        return HeldBack(tuple(moves), _trace(act.db, bench.kit, which))


@tried_again
def record_film(bench: Bench, film: Film, slip: Slip, *, on: bool) -> Film:
    """Record that protective film is on a part since a day, or came off that day."""
    if film.since > slip.happened_on:
        raise InventoryError(f"{film.since} is still to come", remedy="Give a day up to today.")
    with acting(bench, "lot film", slip) as act:
        known = replace(film, part=known_part(act.db, bench.kit, film.part).key)
        _check_film(act.db, bench.kit, known, on=on)
        add_film(act.db, bench.kit.id, act.recorded.id, known, on=on)
        return known


def _check_film(db: Connection, kit: Kit, film: Film, *, on: bool) -> None:
    """Ask for the hand of a part that comes in several; film that never was on can't come off."""
    is_on = (film.part, film.hand) in {(one.part, one.hand) for one in films(db, kit.id)}
    if is_on and not on:
        return
    hands = known_hands(db, kit.id, film.part)
    if hands and film.hand not in hands:
        told = " or ".join(sorted(map(hand_in_words, hands)))
        raise InventoryError(f"{film.part} comes {told}", remedy="Say which one with --hand.")
    if not on:
        raise InventoryError(
            f"no film is recorded on {film.part}", remedy="Look: kitwright lot show"
        )
