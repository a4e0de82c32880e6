"""Putting away many rows from a spreadsheet, all of them or none."""

from __future__ import annotations

from typing import TYPE_CHECKING

from inventory.core.errors import InventoryError, ProblemsError
from inventory.core.places import Place, PlaceKind, crate_code
from inventory.jobs.finding_items import Asked, Taking
from inventory.jobs.place_names import place_named
from inventory.jobs.putting_away import Putting, put
from inventory.jobs.receiving import known_crate

if TYPE_CHECKING:
    from pathlib import Path

    from inventory.core.ledger import Movement
    from inventory.core.slips import Slip
    from inventory.jobs.acts import Bench
    from inventory.sheets.moves import MoveRow


def put_from_file(bench: Bench, path: Path, origin: str, slip: Slip) -> list[Movement]:
    """Put away every row of a sheet; rows that name no crate come from `origin`."""
    from inventory.sheets.moves import read_moves

    rows, problems = read_moves(path)
    if problems:
        raise ProblemsError(
            f"{path.name} holds {len(problems)} problems; nothing was stored",
            problems,
            remedy="Mend the rows and read the file again.",
        )
    elsewhere = place_named(bench, origin) if origin else None
    return put(bench, [_putting(bench, row, elsewhere) for row in rows], slip)


def _putting(bench: Bench, row: MoveRow, elsewhere: Place | None) -> Putting:
    if row.crate:
        with bench.store.reading() as db:
            crate = known_crate(db, bench.kit, row.crate)
        elsewhere = Place(PlaceKind.CRATE, crate_code(crate, row.bag))
    if elsewhere is None:
        raise InventoryError(
            "the row names no crate",
            where=row.where,
            remedy="Add a column for the crate, or say --from opening (or bought, made).",
        )
    asked = Asked(part=row.printed, hand=row.hand, lot=row.lot, length=row.length)
    return Putting(Taking(asked, row.pieces, elsewhere), row.bin)
