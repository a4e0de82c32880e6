"""Putting away many rows from a spreadsheet, all of them or none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, Problem, StoreError, problems_in
from inventory.core.items import Measure, part_key
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.jobs.acts import acting
from inventory.jobs.again import tried_again
from inventory.jobs.bench.finding_items import Asked, Taking
from inventory.jobs.bench.place_names import place_named
from inventory.jobs.bench.putting_away import Putting, put_one
from inventory.jobs.receiving.counting import amount_counted
from inventory.jobs.receiving.receiving import known_crate
from inventory.store.ledger.names import all_parts

if TYPE_CHECKING:
    from collections.abc import Iterable, Sequence
    from pathlib import Path

    from inventory.core.record.ledger import Movement
    from inventory.core.record.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.sheets.bench.moves import MoveRow
    from inventory.store.kits import Kit
    from inventory.store.opening.database import Connection

MEND = "Mend the rows and read the file again."


def put_from_file(bench: Bench, path: Path, origin: str, slip: Slip) -> list[Movement]:
    """Put away every row of a sheet; rows that name no crate come from `origin`."""
    from inventory.sheets.bench.moves import read_moves

    rows, problems = read_moves(path)
    if problems:
        raise problems_in(path.name, problems, MEND)
    elsewhere = place_named(bench, origin) if origin else None
    return _put_rows(bench, path.name, rows, elsewhere, slip)


def pieces_put(bench: Bench, moves: Iterable[Movement]) -> int:
    """Return how many pieces were put away; masses, volumes and lengths aren't pieces."""
    with bench.store.reading() as db:
        parts = all_parts(db, bench.kit.id)
    return sum(move.quantity for move in moves if parts[move.item.part].measure is Measure.PIECES)


@tried_again
def _put_rows(
    bench: Bench, source: str, rows: Sequence[MoveRow], elsewhere: Place | None, slip: Slip
) -> list[Movement]:
    with acting(bench, "bin put", slip) as act:
        moves: list[Movement] = []
        problems: list[Problem] = []
        for row in rows:
            try:
                move = put_one(act.db, bench.kit, _putting(act.db, bench.kit, row, elsewhere))
            except StoreError:
                raise
            except InventoryError as refused:
                problems.append(Problem(refused.what, row.where, refused.remedy))
                continue
            act.move([move])
            moves.append(move)
        if problems:
            raise problems_in(source, problems, MEND)
        return moves


def _putting(db: Connection, kit: Kit, row: MoveRow, elsewhere: Place | None) -> Putting:
    if row.crate:
        elsewhere = Place(PlaceKind.CRATE, crate_code(known_crate(db, kit, row.crate), row.bag))
    if elsewhere is None:
        raise InventoryError(
            "the row names no crate",
            remedy="Add a column for the crate, or say --from opening (or bought, made).",
        )
    asked = Asked(part=row.printed, hand=row.hand, lot=row.lot, length=row.length, new=True)
    pieces = amount_counted(db, kit, part_key(row.printed), row.amount)
    return Putting(Taking(asked, pieces, elsewhere), row.bin)
