"""Bins: adding them, putting pieces into them, holding pieces back, counting a bin again."""

from __future__ import annotations

from dataclasses import replace
from typing import TYPE_CHECKING, TypeAlias

from inventory.core.errors import InventoryError, NotFoundError
from inventory.core.frozen import frozen
from inventory.core.items import Measure, part_key
from inventory.core.places import Place, PlaceKind
from inventory.core.receiving.counts import read_pieces
from inventory.core.record.ledger import Movement
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import enough_lying, item_words, new_part
from inventory.store.ledger.names import find_part, find_place, place_ids, places_of, set_shelf
from inventory.store.ledger.stock import lying

if TYPE_CHECKING:
    from collections.abc import Sequence

    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.jobs.bench.finding_items import Asked, Taking
    from inventory.store.kits import Kit
    from inventory.store.ledger.stock import Lying
    from inventory.store.opening.database import Connection

InBin: TypeAlias = "tuple[Place, str, list[Lying]]"
"""A bin, its shelf, and what lies in it."""
LONGEST_NAME = 40
"""Characters of a bin's name: more can't be read on a label."""
_NAMED = 6
"""Bins named one by one in the note of the act that adds them."""
_ALONE = frozenset({"HOLD", "BOUGHT", "MADE", "OPENING"})
_FIRST = frozenset({"HOLD", "CRATE", "STEP"})
"""Words that name other places: a bin called HOLD would look held, and its pieces be issued."""
DIFFERENCE = Place(PlaceKind.DIFFERENCE)
FROM_OUTSIDE = frozenset({PlaceKind.BOUGHT, PlaceKind.MADE, PlaceKind.OPENING})


@frozen
class Putting:
    """Pieces to move into a bin."""

    taking: Taking
    bin: str


@tried_again
def add_bins(bench: Bench, names: Sequence[str], shelf: str, slip: Slip) -> list[str]:
    """Add bins by name; `B-01..B-12` adds a row of them. Return the names as they stand."""
    codes = [_bin_name(code) for name in names for code in _row_of_bins(name)]
    with acting(bench, "bin add", _naming(slip, codes)) as act:
        here = {place.code for place in places_of(act.db, bench.kit.id, PlaceKind.BIN)}
        again = [code for code in codes if code in here]
        if again:
            raise InventoryError(f"there is a bin {again[0]} already", where=f"bin {again[0]}")
        place_ids(act.db, bench.kit.id, [Place(PlaceKind.BIN, code) for code in codes])
        set_shelf(act.db, bench.kit.id, codes, shelf)
    return codes


def _naming(slip: Slip, codes: Sequence[str]) -> Slip:
    """Return the slip with a note of the bins, since nothing that moves names them."""
    few = len(codes) <= _NAMED
    named = ", ".join(codes) if few else f"{codes[0]} to {codes[-1]}, {len(codes)} in all"
    return replace(slip, note="; ".join(filter(None, (slip.note, named))))


def _bin_name(code: str) -> str:
    if code in _ALONE or (" " in code and code.partition(" ")[0] in _FIRST):
        raise InventoryError(
            f"{code!r} can't be the name of a bin: it names another place",
            remedy="Call it otherwise, for instance B-07.",
        )
    if not code or len(code) > LONGEST_NAME or "/" in code or not code.isprintable():
        raise InventoryError(
            f"{code[:LONGEST_NAME]!r} can't be the name of a bin",
            remedy=f"1 to {LONGEST_NAME} letters, digits and signs, no `/`; for instance B-07.",
        )
    return code


def _row_of_bins(name: str) -> list[str]:
    first, dots, last = (part_key(each) for each in name.partition(".."))
    if not dots:
        return [first]
    head = first.rstrip("0123456789")
    low, high = first[len(head) :], last.removeprefix(head)
    if not (low.isdigit() and high.isdigit() and int(low) <= int(high) < int(low) + 1000):
        raise InventoryError(f"{name!r} is no row of bins", remedy="For instance B-01..B-12.")
    return [f"{head}{number:0{len(low)}d}" for number in range(int(low), int(high) + 1)]


def known_bin(db: Connection, kit: Kit, name: str) -> Place:
    """Return the bin of this name; HOLD is no bin."""
    place = Place(PlaceKind.BIN, part_key(name))
    if find_place(db, kit.id, place) is None:
        raise NotFoundError(
            f"there is no bin {place.code}",
            remedy=f"Add it with `kitwright bin add {place.code}`, or look: `kitwright bin show`.",
        )
    return place


@tried_again
def put(bench: Bench, puttings: Sequence[Putting], slip: Slip) -> list[Movement]:
    """Put pieces into bins, from a crate, another bin, or from outside; all of it or nothing."""
    with acting(bench, "bin put", slip) as act:
        moves: list[Movement] = []
        for putting in puttings:
            move = put_one(act.db, bench.kit, putting)
            act.move([move])
            moves.append(move)
        return moves


def put_one(db: Connection, kit: Kit, putting: Putting) -> Movement:
    """Return the movement into the bin; refused where it can't be."""
    bin_ = known_bin(db, kit, putting.bin)
    taking = putting.taking
    if taking.origin.kind in FROM_OUTSIDE:
        item = new_part(db, kit, taking.asked)
        known = find_part(db, kit.id, item.part)
        in_pieces = known is None or known.measure is Measure.PIECES
        if not (read_pieces(str(taking.pieces)) if in_pieces else taking.pieces):
            raise InventoryError("0 pieces can't be put away", remedy="At least 1.")
    else:
        item = enough_lying(db, kit, taking)
        _refuse_same(taking, bin_)
    return Movement(item, taking.pieces, taking.origin, bin_)


def _refuse_same(taking: Taking, place: Place) -> None:
    if taking.origin == place:
        raise InventoryError(
            f"{place} is where they are taken from",
            where=str(place),
            remedy="Name another place for them to go to.",
        )


@tried_again
def hold(bench: Bench, taking: Taking, slip: Slip, name: str = "HOLD") -> Movement:
    """Hold pieces back: from now on they can't be issued. The slip's note says why."""
    if not slip.note:
        raise InventoryError("why are they held back?", remedy="Say it with --why.")
    with acting(bench, "hold", slip) as act:
        place = Place(PlaceKind.HOLD, part_key(name))
        _refuse_same(taking, place)
        item = enough_lying(act.db, bench.kit, taking)
        move = Movement(item, taking.pieces, taking.origin, place)
        act.move([move])
        return move


@tried_again
def release(bench: Bench, putting: Putting, slip: Slip) -> Movement:
    """Put held pieces into a bin again; the slip's note says who decided and why."""
    if not slip.note:
        raise InventoryError("who decided it, and why?", remedy="Say it with --why.")
    with acting(bench, "release", slip) as act:
        move = put_one(act.db, bench.kit, putting)
        act.move([move])
        return move


@tried_again
def recount(
    bench: Bench, bin_name: str, counted: Sequence[tuple[Asked, int]], slip: Slip
) -> list[Movement]:
    """Make the record agree with what was counted in a bin; the difference is a movement."""
    with acting(bench, "bin recount", slip) as act:
        bin_ = known_bin(act.db, bench.kit, bin_name)
        moves = [
            move
            for asked, pieces in counted
            for move in _difference(act.db, bench.kit, bin_, asked, pieces)
        ]
        act.move(moves)
        return moves


def _difference(db: Connection, kit: Kit, bin_: Place, asked: Asked, pieces: int) -> list[Movement]:
    here = [
        lies
        for lies in lying(db, kit.id, place=bin_, part=part_key(asked.part))
        if asked.agrees(lies.item)
    ]
    if len(here) > 1:
        raise InventoryError(
            f"{bin_} holds several kinds of {asked.part}: "
            + "; ".join(item_words(lies.item) for lies in here),
            remedy="Say which one with --hand, --lot, --length or --worked.",
        )
    item = here[0].item if here else new_part(db, kit, asked)
    more = pieces - (here[0].quantity if here else 0)
    if more > 0:
        return [Movement(item, more, DIFFERENCE, bin_)]
    return [Movement(item, -more, bin_, DIFFERENCE)] if more else []


def in_bins(bench: Bench, name: str = "") -> list[InBin]:
    """Return each bin with its shelf and what lies in it."""
    with bench.store.reading() as db:
        only = known_bin(db, bench.kit, name) if name else None
        there = lying(db, bench.kit.id, kinds=[PlaceKind.BIN])
        shelves = places_of(db, bench.kit.id, PlaceKind.BIN)
    by_place: dict[Place, list[Lying]] = {}
    for lies in there:
        by_place.setdefault(lies.place, []).append(lies)
    return [
        (place, shelf, by_place.get(place, []))
        for place, shelf in shelves.items()
        if only in (None, place)
    ]
